"""Three paper notes on the canvas for the first start: each points at something, and each can be put away."""

from __future__ import annotations

import dataclasses
import enum
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QPolygonF, QRegion
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.link import Link
from grillestack.app.session import Session
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores

_NOTE_PX: Final = 196
_TAIL_PX: Final = 22
_EDGE_PX: Final = 10
_FOLD_PX: Final = 12.0
_SHELF_PX: Final = 92.0  # below the canvas's upper edge: beside it is the shelf
_DAY_PX: Final = 118.0  # beside it is the hottest day


class Side(enum.Enum):
    """On which side of a note its tail points."""

    LEFT = "left"
    RIGHT = "right"
    UP = "up"


@dataclasses.dataclass(frozen=True, slots=True)
class Hint:
    """What a note says, and to which side it points."""

    words: str
    side: Side


HINTS: Final = (
    Hint("Drag a core: the verdict at the right follows your hand.", Side.UP),
    Hint("Drag a part from the shelf onto the nose, or press Enter on it.", Side.LEFT),
    Hint("A figure with dots under it says why when you click it.", Side.RIGHT),
)
INVENTED: Final = "This is an invented truck to try things on; File, New begins your own."


class HintNote(QWidget):
    """One note: a sheet with a folded corner, a tail towards what it speaks of, and a way to put it away."""

    def __init__(self, hint: Hint, words: str, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self.hint = hint
        self._palette = palette
        self._tail_px = _TAIL_PX
        self._tip = QPointF()
        self.words = QLabel(words, self)
        self.words.setWordWrap(True)
        self.put_away = Link("put away", palette, self)
        self.put_away.setAccessibleName(f"Put this hint away: {words}")
        self.put_away.clicked.connect(self.hide)
        self._column = QVBoxLayout(self)
        self._column.setSpacing(2)
        self._column.addWidget(self.words)
        self._column.addWidget(self.put_away, 0, Qt.AlignmentFlag.AlignRight)
        self.setAccessibleName(f"Hint: {words}")
        self.setCursor(Qt.CursorShape.ArrowCursor)
        self.show_palette(palette)
        self.hide()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        ink_label(self.words, palette.ink)
        self.put_away.show_palette(palette)
        self.update()

    def stand(self, tip: QPointF, room: QRect, most_px: int) -> None:
        """Stand inside the room, no wider than that, so that the tail ends at the tip."""
        side, tail = self.hint.side, _TAIL_PX
        left, top, right, bottom = 12, 8, 10, 4
        if side is Side.UP:
            width = min(_NOTE_PX + 64, room.width() - 2 * _EDGE_PX)
        else:
            width = min(_NOTE_PX, most_px - tail - _EDGE_PX) + tail
            left, right = (left + tail, right) if side is Side.LEFT else (left, right + tail)
        paper = self.words.heightForWidth(width - left - right) + self.put_away.sizeHint().height() + top + bottom + 2
        if side is Side.UP:
            at = QPoint(int(tip.x() - width / 2), room.bottom() - _EDGE_PX - paper)
            self._tail_px = max(tail, at.y() - int(tip.y()))
            top += self._tail_px
            paper += self._tail_px
            at.setY(at.y() - self._tail_px)
        else:
            at = QPoint(int(tip.x()) - (0 if side is Side.LEFT else width), int(tip.y() - paper / 2))
            at.setY(max(room.top() + _EDGE_PX, at.y()))
        at.setX(min(max(at.x(), room.left()), room.right() - width))
        self._column.setContentsMargins(left, top, right, bottom)
        self.setGeometry(QRect(at, QSize(width, paper)))
        self._tip = tip - QPointF(at)
        # The tail lets the mouse through to what it points at.
        self.setMask(QRegion(self._paper().toAlignedRect().adjusted(-1, -1, 1, 1)) | self._tail_region())
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put the note away."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
            event.accept()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint sheet, fold and tail."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, paper = self._palette, self._paper()
        painter.setPen(QPen(palette.ink, 1.2))
        painter.drawLine(*self._tail())
        painter.setBrush(palette.ink)
        painter.drawEllipse(self._tip, 3.0, 3.0)
        painter.setBrush(palette.panel)
        corner = paper.topRight()
        painter.drawPolygon(
            QPolygonF(
                [
                    paper.topLeft(),
                    corner - QPointF(_FOLD_PX, 0),
                    corner + QPointF(0, _FOLD_PX),
                    paper.bottomRight(),
                    paper.bottomLeft(),
                ]
            )
        )
        painter.drawPolyline(
            QPolygonF(
                [
                    corner - QPointF(_FOLD_PX, 0),
                    corner + QPointF(-_FOLD_PX, _FOLD_PX),
                    corner + QPointF(0, _FOLD_PX),
                ]
            )
        )
        painter.end()

    def _paper(self) -> QRectF:
        box = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        if self.hint.side is Side.UP:
            return box.adjusted(0, self._tail_px, 0, 0)
        return box.adjusted(_TAIL_PX, 0, 0, 0) if self.hint.side is Side.LEFT else box.adjusted(0, 0, -_TAIL_PX, 0)

    def _tail(self) -> tuple[QPointF, QPointF]:
        paper = self._paper()
        if self.hint.side is Side.UP:
            return QPointF(min(max(self._tip.x(), paper.left() + 12), paper.right() - 12), paper.top()), self._tip
        x = paper.left() if self.hint.side is Side.LEFT else paper.right()
        return QPointF(x, self._tip.y()), self._tip

    def _tail_region(self) -> QRegion:
        start, end = self._tail()
        across = QRectF(start, end).normalized().adjusted(-4, -4, 4, 4)
        return QRegion(across.toAlignedRect())


class Hints(QObject):
    """Puts the notes on the canvas and keeps each at what it points at."""

    def __init__(self, session: Session, front: FrontView, side: SideStrip, palette: Palette) -> None:
        super().__init__(front)
        self._session, self._front, self._side = session, front, side
        self.notes = tuple(HintNote(hint, self._words(hint), palette, front) for hint in HINTS)
        for view in (front, side):
            view.installEventFilter(self)
        front.heights.changed.connect(self._place)
        front.moved_across.connect(self._place)

    def show(self) -> None:
        """Show all notes, those that were put away too."""
        self._place()
        for note in self.notes:
            note.show()
            note.raise_()

    def put_away(self) -> None:
        """Put all notes away."""
        for note in self.notes:
            note.hide()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        for note in self.notes:
            note.show_palette(palette)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep the notes in sight when the canvas gets another size."""
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.Hide):
            self._place()
        return super().eventFilter(watched, event)

    def _words(self, hint: Hint) -> str:
        return f"{hint.words} {INVENTED}" if hint.side is Side.UP else hint.words

    def _place(self) -> None:
        area = self._front.sheet_area().toAlignedRect()
        for note in self.notes:
            room = area
            if note.hint.side is Side.RIGHT:
                room = self._at_the_verdict(note, area)
            # Two notes stand side by side on the front view where there is no side view.
            most = area.width() // 2 if room is area else room.width()
            note.stand(self._tip(note.hint.side, room), room, most)

    def _at_the_verdict(self, note: HintNote, area: QRect) -> QRect:
        """Put the note into the view that stands next to the verdict, and return the room there."""
        beside: QWidget = self._side if self._side.isVisibleTo(self._side.window()) else self._front
        if note.parentWidget() is not beside:
            was_shown = not note.isHidden()
            note.setParent(beside)
            note.setVisible(was_shown)
        return area if beside is self._front else beside.rect()

    def _tip(self, side: Side, area: QRect) -> QPointF:
        if side is Side.UP:
            return self._on_a_core(area)
        if side is Side.LEFT:
            return QPointF(area.left() + 4.0, area.top() + _SHELF_PX)
        return QPointF(area.right() - 4.0, area.top() + _DAY_PX)

    def _on_a_core(self, area: QRect) -> QPointF:
        """Return a place low on the radiator; without cores one below the middle."""
        project = self._session.shown
        stack = cores(project, CoreRole.RADIATOR) or cores(project)
        middle = QPointF(area.center().x(), area.top() + area.height() * 0.6)
        if not stack:
            return middle
        at, core = stack[0].placement, stack[0]
        spot = self._front.px_of(at.y_mm + core.core_width_mm * 0.1, at.z_mm - core.core_height_mm * 0.3)
        return spot if QRectF(area).contains(spot) else middle
