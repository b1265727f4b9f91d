"""How presses, moves and releases of one button become one gesture, or a click."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import QPointF, Qt

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Gesture, Marks, Pointer
from grillestack.app.canvas.gestures.typed_length import ENTER

DRAG_BEGINS_PX = 4.0


class Sheet(Protocol):
    """What a view answers about the place under the hand."""

    def pointer_at(self, px: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        """Return where that pixel is on the sheet, with the keys that matter."""

    def press_selects(self, pressed: Pointer) -> None:
        """Select what a press there takes hold of."""

    def gesture_for_drag(self, pressed: Pointer) -> Gesture | None:
        """Return what a drag that began there does."""

    def click(self, at: Pointer, *, repeated: bool) -> None:
        """Answer a click; `repeated` if the click before was at the same place."""


class GestureFeed:
    """Holds the gesture under way and decides when a press has become a drag."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._gesture: Gesture | None = None
        self._pressed_px: QPointF | None = None
        self._last_click_px: QPointF | None = None
        self._at: Pointer | None = None

    @property
    def under_way(self) -> bool:
        """Return whether a gesture has begun and is not over."""
        return self._gesture is not None

    @property
    def button_held(self) -> bool:
        """Return whether the button is down, drag or not."""
        return self._pressed_px is not None

    @property
    def marks(self) -> Marks:
        """Return what the gesture under way wants drawn."""
        return NO_MARKS if self._gesture is None else self._gesture.marks

    def press(self, px: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Take hold of what lies there."""
        if self._gesture is None:
            self._pressed_px = px
            self._sheet.press_selects(self._sheet.pointer_at(px, keys))

    def move(self, px: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Feed the gesture, or begin one once the hand has moved far enough."""
        if self._pressed_px is None:
            return
        if self._gesture is None:
            if (px - self._pressed_px).manhattanLength() < DRAG_BEGINS_PX:
                return
            self._last_click_px = None
            pressed = self._sheet.pointer_at(self._pressed_px, keys)
            gesture = self._sheet.gesture_for_drag(pressed)
            if gesture is None:
                self._pressed_px = None  # asked once: nothing here can be dragged
                return
            self.take_up(gesture, pressed)
        self.lead(self._sheet.pointer_at(px, keys))

    def release(self, px: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Finish the gesture, or take the press for a click."""
        pressed, self._pressed_px = self._pressed_px, None
        if pressed is None:
            return
        at = self._sheet.pointer_at(px, keys)
        if self._gesture is not None:
            self.let_go(at)
        elif (px - pressed).manhattanLength() < DRAG_BEGINS_PX:
            last, self._last_click_px = self._last_click_px, px
            repeated = last is not None and (px - last).manhattanLength() < DRAG_BEGINS_PX
            self._sheet.click(at, repeated=repeated)

    def take_up(self, gesture: Gesture, at: Pointer) -> None:
        """Begin a gesture, also one that no press of a button begins, such as a drop."""
        self._gesture, self._at = gesture, at
        gesture.begin(at)

    def lead(self, at: Pointer) -> None:
        """Let the gesture under way follow."""
        if self._gesture is not None:
            self._at = at
            self._gesture.update(at)

    def wants_key(self, key: int, text: str) -> bool:
        """Return whether the key writes a distance for the gesture under way."""
        typed = None if self._gesture is None else self._gesture.typed
        return typed is not None and typed.wants(key, text)

    def key(self, key: int, text: str) -> None:
        """Answer a key that is wanted: Enter ends the gesture where the typed distance has it."""
        typed = None if self._gesture is None else self._gesture.typed
        if typed is None or self._gesture is None or self._at is None:
            return
        if key not in ENTER:
            typed.take(key, text)
        elif typed.is_understood():
            self._pressed_px = None  # the button may still be held
            self.let_go(self._at)
            return
        self._gesture.update(self._at)

    def let_go(self, at: Pointer) -> None:
        """Finish the gesture under way; it is over before its edit is heard of."""
        gesture, self._gesture = self._gesture, None
        if gesture is not None:
            gesture.finish(at)

    def cancel(self) -> None:
        """Put back what the gesture under way has changed; the button may still be held."""
        gesture, self._gesture = self._gesture, None
        self._pressed_px = None
        if gesture is not None:
            gesture.cancel()
