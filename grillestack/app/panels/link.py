"""A few words that do something when pressed, without the frame of a button."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QEnterEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from grillestack.app.palette import Palette


class Link(QAbstractButton):
    """Painted in the accent, underlined under the pointer, framed with the focus, faint while it cannot be pressed."""

    def __init__(self, words: str, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self.setText(words)
        self.setAccessibleName(words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def sizeHint(self) -> QSize:
        """Return a size that holds the words."""
        return QSize(self.fontMetrics().horizontalAdvance(self.text()) + 8, self.fontMetrics().height() + 6)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Show that it can be pressed."""
        super().enterEvent(event)
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """Show it at rest again."""
        super().leaveEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the words."""
        del event
        painter = QPainter(self)
        box = QRectF(self.rect())
        if self.hasFocus():
            painter.setPen(QPen(self._palette.accent, 1))
            painter.drawRect(box.adjusted(0.5, 0.5, -1.0, -1.0))
        font = painter.font()
        font.setUnderline(self.isEnabled() and self.underMouse())
        painter.setFont(font)
        painter.setPen(self._palette.accent if self.isEnabled() else self._palette.faint_ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self.text())
        painter.end()
