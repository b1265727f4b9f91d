"""A line of words that changes with every move of the pointer and never makes the window lay itself out anew."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

_ASIDE_PX = 8


class QuietWords(QWidget):
    """Writes its text in the room it is given, cut off with an ellipsis where there is too little."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._text = ""
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def text(self) -> str:
        """Return what is written."""
        return self._text

    def setText(self, text: str) -> None:
        """Write this from now on."""
        if text != self._text:
            self._text = text
            self.setAccessibleDescription(text)
            self.update()

    def clear(self) -> None:
        """Write nothing."""
        self.setText("")

    def sizeHint(self) -> QSize:
        """Return room for one line; how wide it is, others decide."""
        return QSize(0, QFontMetrics(self.font()).height() + 2)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002  Qt's signature
        """Write the text."""
        painter = QPainter(self)
        painter.setPen(self.palette().windowText().color())
        room = self.rect().adjusted(_ASIDE_PX, 0, -_ASIDE_PX, 0)
        words = painter.fontMetrics().elidedText(self._text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), words)
