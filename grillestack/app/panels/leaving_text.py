"""A text of several lines that tells when the cursor leaves it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QPlainTextEdit


class LeavingText(QPlainTextEdit):
    """Says `left` when what was typed shall count and `forgotten` when Esc puts it back."""

    left = Signal()
    forgotten = Signal()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Tell it."""
        super().focusOutEvent(event)
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put the shown text back."""
        if event.key() == Qt.Key.Key_Escape and self.document().isModified():
            self.forgotten.emit()
            event.accept()
            return
        super().keyPressEvent(event)
