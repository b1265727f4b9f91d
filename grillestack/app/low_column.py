"""A column that fills the height there is, and scrolls as a whole only where that is less than it can do with."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget


class LowColumn(QScrollArea):
    """Holds one column."""

    def __init__(self, column: QWidget) -> None:
        super().__init__()
        self.setObjectName("column")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._column = column
        self.setWidget(column)
        column.installEventFilter(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the column the width there is, and the height there is or it needs."""
        super().resizeEvent(event)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow what the column needs."""
        if event.type() == QEvent.Type.LayoutRequest:
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        # Qt's own fitting asks for the height that the column would like, not for the least it needs.
        column, room = self._column, self.viewport().size()
        column.resize(room.width(), max(room.height(), column.minimumSizeHint().height()))
