"""A figure that can be asked why: a dotted line under it, a press of mouse, Enter or Space asks."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtGui import QEnterEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from grillestack.app.palette import Palette
from grillestack.assess.figure import Subject

_DOTS_PX = (1.0, 2.0)


class WhySpot(QAbstractButton):
    """Lies over a figure that its parent paints, and paints no more than the dots under it and the frame of the focus."""

    def __init__(self, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self._palette = palette
        self.subject: Subject | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.WhatsThisCursor)
        self.hide()

    def lie_over(self, box: QRectF, subject: Subject, words: str) -> None:
        """Lie over that place of the parent, ask about that subject, and say these words of it to who cannot see it."""
        self.subject = subject
        name = f"{words}: why?"
        if self.accessibleName() != name:
            self.setAccessibleName(name)
            self.setAccessibleDescription("Says what this figure rests on.")
        around = box.toAlignedRect()
        if self.geometry() != around:
            self.setGeometry(around)
        if self.isHidden():
            self.show()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Enter ask too, as a press of Space does."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Show that it can be pressed."""
        super().enterEvent(event)
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """Show it at rest again."""
        super().leaveEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the dots, and the frame of the focus."""
        del event
        painter = QPainter(self)
        box = QRectF(self.rect())
        lit = self.underMouse() or self.hasFocus()
        pen = QPen(self._palette.accent if lit else self._palette.faint_ink, 1.0)
        pen.setDashPattern(list(_DOTS_PX))
        painter.setPen(pen)
        y = box.bottom() - 0.5
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
        if self.hasFocus():
            painter.setPen(QPen(self._palette.accent, 1))
            painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()


def words_box(box: QRectF, words_px: float, line_px: float, *, at_right: bool) -> QRectF:
    """Return where words of that width lie in a box that they are centred in by height, at its left or right."""
    left = box.right() - words_px if at_right else box.left()
    return QRectF(left, box.center().y() - line_px / 2, words_px, line_px + 1)
