"""A choice that does not change under a wheel meant for scrolling, and shows that it opens."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox

_ARROW_PX = 4.0


class QuietBox(QComboBox):
    """A combo box for cards that scroll."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the card unless the choice has the focus."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the choice and a plain arrow in its ink; the style's own would be a bevelled button."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().text().color(), 1.2))
        at = QPointF(self.width() - 11.0, self.height() / 2)
        tip = at + QPointF(0.0, _ARROW_PX / 2)
        painter.drawLine(at + QPointF(-_ARROW_PX, -_ARROW_PX / 2), tip)
        painter.drawLine(tip, at + QPointF(_ARROW_PX, -_ARROW_PX / 2))
        painter.end()
