"""How much of the radiator's face works: a bar of the effective face with exposed and required face marked on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import RadiatorFace

_BAR_PX = 16
_MARKER_PX = 7
_KEY_PX = 16
_ROOM_FOR_MARK = 1.03  # so that a mark at the end of the scale is not cut in half
_ASKED = (FigureName.CORE_FACE, FigureName.EFFECTIVE_FACE, FigureName.REQUIRED_FACE, FigureName.EXPOSED_FACE)


class FaceBar(QWidget):
    """Paints core, effective, exposed and required face of the radiator on one scale, with a key that gives the figures."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, units: UnitSystem, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._units = units
        self._face: RadiatorFace | None = None
        self._rows: tuple[tuple[str, str], ...] = ()
        self._core_words = ""
        self.spots = {figure: WhySpot(palette, self) for figure in _ASKED}
        for spot in self.spots.values():
            spot.clicked.connect(lambda _checked=False, spot=spot: self.why_asked.emit(spot))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Radiator face")
        self._word()

    def show_face(self, face: RadiatorFace | None, units: UnitSystem) -> None:
        """Show that face in those units; no face is a pack without radiator, or one nobody could assess."""
        if face == self._face and units is self._units:
            return
        self._face = face
        self._units = units
        self._word()
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for spot in self.spots.values():
            spot.show_palette(palette)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spots()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Let a press on the bar, or on a line of its key, ask as one on the figure does."""
        y, line = event.position().y(), self._line_px()
        row = int((y - self._key_top()) // line) if y >= self._key_top() else 0
        figure = FigureName.CORE_FACE if y < line else _ASKED[1:][row] if row < len(self._rows) else None
        if figure is not None and not self.spots[figure].isHidden():
            self.spots[figure].click()

    def _key_top(self) -> float:
        return self._line_px() + 4.5 + 2 * _MARKER_PX + _BAR_PX + 4

    def _place_spots(self) -> None:
        line = self._line_px()
        words = (self._core_words, *(value for _name, value in self._rows))
        tops = (0.0, *(self._key_top() + row * line for row in range(len(self._rows))))
        for (figure, spot), said, top in zip(self.spots.items(), words, tops, strict=True):
            if self._face is None:
                spot.hide()
                continue
            box = QRectF(0, top, self.width(), line)
            said_px = float(self.fontMetrics().horizontalAdvance(said))
            over = words_box(box, said_px, self.fontMetrics().height(), at_right=True)
            spot.lie_over(over, Subject(figure), f"{figure.value} {said.removeprefix('core ')}")

    def _word(self) -> None:
        face, units = self._face, self._units

        def area(value_mm2: float | None) -> str:
            return show_quantity(value_mm2, Dimension.AREA, units)

        self._core_words = "no radiator" if face is None else f"core {area(face.core_mm2)}"
        self._rows = (
            ("effective", area(face.effective_mm2 if face else None)),
            ("required", area(face.required_mm2 if face else None)),
            ("exposed", area(face.exposed_mm2 if face else None)),
        )
        words = f"{self._core_words}; " + "; ".join(f"{name} {value}" for name, value in self._rows)
        self.setAccessibleDescription(words)
        self._place_spots()

    def event(self, event: QEvent) -> bool:
        """Say on demand where the rest of the core is; words nobody reads would slow down a drag."""
        if event.type() is QEvent.Type.ToolTip:
            self.setToolTip(rest_of_core_words(self._face, self._units))
        return super().event(event)

    def sizeHint(self) -> QSize:
        """Return a size that holds the bar and its key."""
        return QSize(260, self._line_px() * 4 + _BAR_PX + 2 * _MARKER_PX + 12)

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which every figure can be read."""
        return QSize(180, self.sizeHint().height())

    def _line_px(self) -> int:
        return self.fontMetrics().height() + 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint title, bar and key."""
        del event
        painter = QPainter(self)
        line = self._line_px()
        title = QRectF(0, 0, self.width(), line)
        painter.setPen(self._palette.ink)
        painter.drawText(title, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, "Radiator face")
        painter.setPen(self._palette.faint_ink)
        painter.drawText(title, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._core_words)
        bar = QRectF(0.5, line + 4.5 + _MARKER_PX, self.width() - 1.0, _BAR_PX)
        self._paint_bar(painter, bar)
        self._paint_key(painter, bar.bottom() + _MARKER_PX + 4)
        painter.end()

    def _paint_bar(self, painter: QPainter, bar: QRectF) -> None:
        palette, face = self._palette, self._face
        if face is None:
            painter.setPen(QPen(palette.unknown_ink, 1, Qt.PenStyle.DotLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(bar)
            return
        # The effective face may exceed the core and the required face too: the scale then makes room for them.
        beyond_mm2 = max(face.effective_mm2 or 0.0, face.required_mm2 or 0.0) * _ROOM_FOR_MARK
        per_mm2 = bar.width() / max(face.core_mm2, beyond_mm2)
        core = QRectF(bar.x(), bar.y(), face.core_mm2 * per_mm2, bar.height())
        painter.setPen(QPen(palette.ink, 1))
        painter.setBrush(palette.paper)
        painter.drawRect(core)
        if face.effective_mm2 is not None:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(palette.ink)
            painter.drawRect(QRectF(bar.x(), bar.y() + 3, face.effective_mm2 * per_mm2, bar.height() - 6))
        else:
            painter.setPen(QPen(palette.unknown_ink, 1, Qt.PenStyle.DotLine))
            painter.drawLine(core.bottomLeft() + QPointF(6, -8), core.bottomRight() + QPointF(-6, -8))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if face.required_mm2 is not None:
            self._paint_required(painter, bar.x() + face.required_mm2 * per_mm2, bar)
        self._paint_exposed(painter, bar.x() + face.exposed_mm2 * per_mm2, bar)

    def _paint_required(self, painter: QPainter, x: float, bar: QRectF) -> None:
        painter.setPen(QPen(self._palette.panel, 5))
        painter.drawLine(QPointF(x, bar.top() + 1), QPointF(x, bar.bottom() - 1))
        painter.setPen(QPen(self._palette.accent, 2))
        painter.drawLine(QPointF(x, bar.top() - 1), QPointF(x, bar.bottom() + 1))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._palette.accent)
        top = bar.top() - 1
        painter.drawPolygon(QPolygonF([QPointF(x - 5, top - 6), QPointF(x + 5, top - 6), QPointF(x, top + 1)]))

    def _paint_exposed(self, painter: QPainter, x: float, bar: QRectF) -> None:
        below = bar.bottom() + 4
        painter.setPen(QPen(self._palette.faint_ink, 1.5))
        painter.drawLine(QPointF(bar.x(), below), QPointF(x, below))
        painter.drawLine(QPointF(bar.x(), below - 2.5), QPointF(bar.x(), below + 2.5))
        painter.drawLine(QPointF(x, below - 2.5), QPointF(x, below + 2.5))

    def _paint_key(self, painter: QPainter, top: float) -> None:
        line = self._line_px()
        for row, (name, value) in enumerate(self._rows):
            box = QRectF(0, top + row * line, self.width(), line)
            self._paint_sign(painter, row, QRectF(box.x(), box.y() + (line - 10) / 2, 10, 10))
            text = box.adjusted(_KEY_PX, 0, 0, 0)
            painter.setPen(self._palette.ink)
            painter.drawText(text, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, name)
            painter.drawText(text, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, value)

    def _paint_sign(self, painter: QPainter, row: int, box: QRectF) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        middle = box.center()
        if row == 0:
            painter.setBrush(self._palette.ink)
            painter.drawRect(box.adjusted(0, 2, 0, -2))
        elif row == 1:
            painter.setBrush(self._palette.accent)
            painter.drawPolygon(
                QPolygonF([QPointF(middle.x() - 5, middle.y() - 4), QPointF(middle.x() + 5, middle.y() - 4), middle])
            )
            painter.setPen(QPen(self._palette.accent, 2))
            painter.drawLine(middle, QPointF(middle.x(), box.bottom()))
        else:
            painter.setPen(QPen(self._palette.faint_ink, 1.5))
            painter.drawLine(QPointF(box.left(), middle.y()), QPointF(box.right(), middle.y()))
            painter.drawLine(QPointF(box.left(), middle.y() - 2.5), QPointF(box.left(), middle.y() + 2.5))
            painter.drawLine(QPointF(box.right(), middle.y() - 2.5), QPointF(box.right(), middle.y() + 2.5))


def rest_of_core_words(face: RadiatorFace | None, units: UnitSystem) -> str:
    """Return where the part of the core is that no fresh air reaches."""
    if face is None:
        return ""

    def area(value_mm2: float) -> str:
        return show_quantity(value_mm2, Dimension.AREA, units)

    return (
        f"Of the core, {area(face.behind_mm2)} stand behind another core, {area(face.blocked_mm2)} behind tanks or frames and "
        f"{area(face.off_opening_mm2)} off the opening; {area(face.unshrouded_mm2)} have no shroud behind them."
    )
