"""A part that comes from the shelf over a view: taken up, led, left in the pack or taken away again."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QMimeData, QPointF
from PySide6.QtGui import QDragLeaveEvent, QDragMoveEvent, QDropEvent

from grillestack.app.canvas.gestures.drop import PART_MIME
from grillestack.app.canvas.gestures.gesture import Gesture
from grillestack.app.canvas.mm_view import MmView
from grillestack.model.parts import Part


class ShelfDrop:
    """Turns the desktop's drag into a gesture of the view."""

    def __init__(
        self, view: MmView, find_part: Callable[[str], Part | None], gesture_for: Callable[[Part], Gesture]
    ) -> None:
        self._view = view
        self._find_part = find_part
        self._gesture_for = gesture_for
        self.at_px: QPointF | None = None

    def enter(self, event: QDragMoveEvent) -> None:
        """Take a part of the shelf over the sheet."""
        view = self._view
        part = self._part_in(event.mimeData())
        if part is None or view.in_gesture or view.tool is not None:
            event.ignore()
            return
        self.at_px = event.position()
        view.hand.take_up(self._gesture_for(part), view.pointer_at(event.position(), event.modifiers()))
        event.acceptProposedAction()

    def move(self, event: QDragMoveEvent) -> None:
        """Show the part under the pointer."""
        if self.at_px is None:
            event.ignore()
            return
        self.at_px = event.position()
        self._view.hand.lead(self._view.pointer_at(event.position(), event.modifiers()))
        event.acceptProposedAction()

    def leave(self, event: QDragLeaveEvent) -> None:
        """Take the part away again."""
        self.at_px = None
        self._view.cancel_gesture()
        event.accept()

    def drop(self, event: QDropEvent) -> None:
        """Leave the part in the pack."""
        if self.at_px is None:
            event.ignore()
            return
        self.at_px = None
        self._view.hand.let_go(self._view.pointer_at(event.position(), event.modifiers()))
        event.acceptProposedAction()

    def _part_in(self, mime: QMimeData) -> Part | None:
        if not mime.hasFormat(PART_MIME):
            return None
        return self._find_part(bytes(mime.data(PART_MIME).data()).decode("utf-8", "replace"))
