"""Of the moves that come while a frame is still to be painted only the newest counts."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QPointF, Qt, QTimer


class NewestMove(QObject):
    """Lets one move of a drag through for each frame; a later one waits until the frame is on the screen.

    A hand that is faster than the answer would otherwise fill a queue, and the part would come after it.
    """

    def __init__(self, lead: Callable[[QPointF, Qt.KeyboardModifier], None], parent: QObject) -> None:
        super().__init__(parent)
        self._lead = lead
        self._waiting: tuple[QPointF, Qt.KeyboardModifier] | None = None
        self._is_frame_due = False

    @property
    def waits(self) -> bool:
        """Return whether a move waits for the frame."""
        return self._waiting is not None

    def come(self, px: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the move now, or after the frame that is due."""
        if self._is_frame_due:
            self._waiting = (px, keys)
            return
        self._is_frame_due = True
        self._lead(px, keys)

    def painted(self) -> None:
        """Note that the frame is painted; a move that waited follows as soon as the events before it are heard."""
        self._is_frame_due = False
        if self._waiting is not None:
            QTimer.singleShot(0, self, self._follow)

    def forget(self) -> None:
        """Let go of what waits: the hand is elsewhere already, or lets go."""
        self._waiting = None
        self._is_frame_due = False

    def _follow(self) -> None:
        if self._waiting is not None:
            px, keys = self._waiting
            self._waiting = None
            self.come(px, keys)
