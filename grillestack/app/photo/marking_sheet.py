"""The photo as it was taken, with marks to be put on its corners: by mouse, by keys, closer with the wheel."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.photo.marks import CORNER_NAMES, POINT_NAMES, paint_loupe, paint_mark_names, paint_marks

_GRAB_PX = 16.0
_WHEEL_STEP = 1.0015
_MOST_TIMES = 12.0
_STEPS = {
    Qt.Key.Key_Left: QPointF(-1.0, 0.0),
    Qt.Key.Key_Right: QPointF(1.0, 0.0),
    Qt.Key.Key_Up: QPointF(0.0, -1.0),
    Qt.Key.Key_Down: QPointF(0.0, 1.0),
}


class MarkingSheet(QWidget):
    """Shows the photo flat; `marks_moved` says whether a mark is still in hand."""

    marks_moved = Signal(bool)

    def __init__(self, photo: QImage, marks: list[QPointF], palette: Palette) -> None:
        super().__init__()
        self._photo = photo
        self._pixmap = QPixmap.fromImage(photo)
        self.marks = list(marks)
        self.marks_palette = palette
        self.held: int | None = None
        self.chosen = 0
        self._before: list[QPointF] = []
        self._grip = QPointF()
        self._panned_from: QPointF | None = None
        self._by_key = False
        self._times = 1.0
        self._shift = QPointF()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(240, 160)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Photo as it was taken, with its marks")
        self._tell()

    @property
    def names(self) -> tuple[str, ...]:
        """Return what each mark is for."""
        return POINT_NAMES if len(self.marks) == len(POINT_NAMES) else CORNER_NAMES

    def show_marks(self, marks: list[QPointF]) -> None:
        """Put these marks on the photo."""
        self.marks, self.held, self.chosen = list(marks), None, 0
        self._tell()
        self.update()

    def to_screen(self) -> QTransform:
        """Return the map from the photo's pixels to the sheet's."""
        scale = self._fit() * self._times
        left = (self.width() - scale * self._photo.width()) / 2 + self._shift.x()
        top = (self.height() - scale * self._photo.height()) / 2 + self._shift.y()
        return QTransform(scale, 0.0, 0.0, scale, left, top)

    def sizeHint(self) -> QSize:
        """Return a size of the photo's shape."""
        return QSize(520, round(520 * self._photo.height() / self._photo.width()))

    # --- mouse ------------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the nearest mark within reach, or of the photo."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self._by_key = False
        mark = self._mark_at(event.position())
        if mark is None:
            self._panned_from = event.position()
            return
        self.held = self.chosen = mark
        self._before = list(self.marks)
        self._grip = self.to_screen().map(self.marks[mark]) - event.position()
        self._tell()
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the mark in hand, or push the enlarged photo."""
        at = event.position()
        if self.held is not None:
            self._put(self.held, self.to_screen().inverted()[0].map(at + self._grip))
            self.marks_moved.emit(True)  # noqa: FBT003  a signal has no keywords
        elif self._panned_from is not None:
            self._shift += at - self._panned_from
            self._panned_from = at
            self._keep_in_sight()
            self.update()
        else:
            over = self._mark_at(at) is not None
            self.setCursor(Qt.CursorShape.CrossCursor if over else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Leave the mark where it is."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._panned_from = None
        if self.held is not None:
            self.held = None
            self.marks_moved.emit(False)  # noqa: FBT003  a signal has no keywords
            self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Enlarge the photo at the pointer."""
        event.accept()
        under = self.to_screen().inverted()[0].map(event.position())
        self._times = min(_MOST_TIMES, max(1.0, self._times * _WHEEL_STEP ** event.angleDelta().y()))
        self._shift += event.position() - self.to_screen().map(under)
        self._keep_in_sight()
        self.update()

    # --- keys -------------------------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move the chosen mark by a pixel, with Shift by ten; Space goes on to the next mark; Esc puts a drag back."""
        key = Qt.Key(event.key())
        if key in _STEPS:
            far = 10.0 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
            self._by_key = True
            self._put(self.chosen, self.marks[self.chosen] + _STEPS[key] * far)
            self.marks_moved.emit(False)  # noqa: FBT003  a signal has no keywords
        elif key == Qt.Key.Key_Space:
            self._by_key = True
            self.chosen = (self.chosen + 1) % len(self.marks)
            self._tell()
            self.update()
        elif key == Qt.Key.Key_Escape and self.held is not None:
            self.marks, self.held = self._before, None
            self.marks_moved.emit(False)  # noqa: FBT003  a signal has no keywords
            self.update()
        else:
            event.ignore()
            return
        event.accept()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show which mark the keys move."""
        self._by_key = event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the loupe away."""
        self._by_key = False
        super().focusOutEvent(event)
        self.update()

    # --- drawing ----------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002  Qt's signature
        """Draw the photo, its marks and the loupe."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.marks_palette.panel)
        to_screen = self.to_screen()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setTransform(to_screen)
        painter.drawPixmap(0, 0, self._pixmap)
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        places = [to_screen.map(mark) for mark in self.marks]
        within = QRectF(self.rect())
        in_hand = self.chosen if self.held is not None or self._by_key else None
        paint_marks(painter, places, in_hand, self.marks_palette)
        paint_mark_names(painter, places, self.names, within, self.marks_palette)
        if in_hand is not None:
            paint_loupe(painter, self._photo, self.marks[in_hand], places[in_hand], within)
        if self._by_key:
            painter.setPen(QPen(self.marks_palette.accent, 2.0))
            painter.drawRect(within.adjusted(1.0, 1.0, -1.0, -1.0))
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the photo in sight."""
        super().resizeEvent(event)
        self._keep_in_sight()

    def _fit(self) -> float:
        return min(self.width() / self._photo.width(), self.height() / self._photo.height())

    def _keep_in_sight(self) -> None:
        scale = self._fit() * self._times
        room_x = max(0.0, scale * self._photo.width() - self.width()) / 2
        room_y = max(0.0, scale * self._photo.height() - self.height()) / 2
        self._shift = QPointF(min(room_x, max(-room_x, self._shift.x())), min(room_y, max(-room_y, self._shift.y())))

    def _mark_at(self, at: QPointF) -> int | None:
        to_screen = self.to_screen()
        far = [(to_screen.map(mark) - at).manhattanLength() for mark in self.marks]
        nearest = min(range(len(far)), key=far.__getitem__)
        return nearest if far[nearest] <= _GRAB_PX else None

    def _put(self, number: int, place: QPointF) -> None:
        inside = QPointF(
            min(max(place.x(), 0.0), float(self._photo.width())), min(max(place.y(), 0.0), float(self._photo.height()))
        )
        self.marks[number] = inside
        self._tell()
        self.update()

    def _tell(self) -> None:
        said = [f"{name} at {m.x():.0f}, {m.y():.0f} px" for name, m in zip(self.names, self.marks, strict=True)]
        self.setAccessibleDescription(f"The {self.names[self.chosen]} is chosen. " + "; ".join(said) + ".")
