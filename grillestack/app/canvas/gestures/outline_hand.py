"""The hand on a selected outline: which handle is meant, which corner is chosen, and what keys and double clicks do there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.outline_handles import (
    Held,
    OutlineHandle,
    handle_at,
    handles_of,
    side_under,
)
from grillestack.app.canvas.gestures.pull_outline import PullOutlineGesture
from grillestack.app.canvas.gestures.typed_length import ENTER, TypedLength
from grillestack.app.nose_things import find_thing, put_thing, thing_name
from grillestack.app.session import Session
from grillestack.geometry.corners import largest_radius_mm
from grillestack.model.nose import NoseThing
from grillestack.model.outline_edits import insert_corner, radii_of, remove_corner, set_radius
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension, QuantityError
from grillestack.units.show import show_quantity

_SLACK_MM = 1e-6
_TO_CORNER: Final[dict[int, int]] = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineMarks:
    """What is drawn of the handles: all of them with their places, which is under the pointer, which corner is chosen."""

    thing: NoseThing
    handles_mm: dict[OutlineHandle, tuple[float, float]]
    hovered: OutlineHandle | None
    chosen: int | None
    typed_text: str


class OutlineHand:
    """Edits the outline that is selected alone."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._of: str | None = None
        self._chosen: int | None = None
        self._pointer: Pointer | None = None
        self._typed = TypedLength()

    def thing(self) -> NoseThing | None:
        """Return the outline that is selected alone, as it is shown, or nothing."""
        chosen = self._session.selection
        found = find_thing(self._session.shown, chosen[0]) if len(chosen) == 1 else None
        name = chosen[0] if found is not None else None
        if name != self._of or (self._chosen is not None and found and self._chosen >= len(found.outline)):
            self._of, self._chosen = name, None
            self._typed.clear()
        return found

    @property
    def chosen(self) -> int | None:
        """Return the number of the chosen corner, or nothing."""
        return self._chosen if self.thing() is not None else None

    def corner_words(self) -> str:
        """Return which corner is chosen and where it is, for those who hear the screen."""
        thing, place = self.thing(), self._chosen
        if thing is None or place is None:
            return ""
        corner = thing.outline[place]

        def length(value_mm: float) -> str:
            return show_quantity(value_mm, Dimension.LENGTH, self._session.units)

        side = "right of centre" if corner.y_mm >= 0 else "left of centre"
        return (
            f"Corner {place + 1} of {len(thing.outline)} of {thing_name(thing)}: "
            f"{length(abs(corner.y_mm))} {side}, height {length(corner.z_mm)}"
        )

    def marks(self, px_per_mm: float) -> OutlineMarks | None:
        """Return the handles to draw, or nothing without an outline."""
        thing = self.thing()
        if thing is None:
            return None
        hovered = None if self._pointer is None else handle_at(thing, self._chosen, self._pointer)
        return OutlineMarks(
            thing=thing,
            handles_mm=handles_of(thing, self._chosen, px_per_mm),
            hovered=hovered,
            chosen=self._chosen,
            typed_text=self._typed.shown(self._session.units) if self._typed.text else "",
        )

    def hover(self, at: Pointer | None) -> bool:
        """Follow the pointer; say whether another handle lies under it than before."""
        thing = self.thing()
        if thing is None:
            self._pointer = at
            return False
        old = None if self._pointer is None else handle_at(thing, self._chosen, self._pointer)
        self._pointer = at
        return old != (None if at is None else handle_at(thing, self._chosen, at))

    def handle_under(self, at: Pointer) -> OutlineHandle | None:
        """Return the handle under the pointer, or nothing."""
        thing = self.thing()
        return None if thing is None else handle_at(thing, self._chosen, at)

    def press(self, at: Pointer) -> bool:
        """Choose the corner under the pointer; say whether there is any handle."""
        handle = self.handle_under(at)
        if handle is not None:
            self._chosen = handle.place if handle.held is not Held.SIDE else None
            self._typed.clear()
        return handle is not None

    def gesture(self, at: Pointer) -> PullOutlineGesture | None:
        """Return pulling by the handle under the pointer, or nothing."""
        thing, handle = self.thing(), self.handle_under(at)
        if thing is None or handle is None:
            return None
        return PullOutlineGesture(self._session, thing, handle)

    def double_click(self, at: Pointer) -> bool:
        """Put a corner on the side under the pointer; say whether there is a side and no corner."""
        thing, handle = self.thing(), self.handle_under(at)
        if thing is None or (handle is not None and handle.held is not Held.SIDE):
            return False
        return self._insert(thing, at)

    # --- keys -------------------------------------------------------------------------------------------------------

    def wants_key(self, key: int, text: str) -> bool:
        """Return whether the key is meant for a corner: remove, insert, or a radius typed for the chosen one."""
        thing = self.thing()
        if thing is None:
            return False
        if key == Qt.Key.Key_Delete:
            return self._corner_meant(thing) is not None
        if key in _TO_CORNER:
            return True
        if key == Qt.Key.Key_Insert:
            return self._chosen is not None or (
                self._pointer is not None and side_under(thing, self._pointer) is not None
            )
        if self._chosen is None:
            return False
        if key == Qt.Key.Key_Escape:
            return True
        return self._typed.wants(key, text) or (key in ENTER and bool(self._typed.text))

    def key(self, key: int, text: str) -> None:
        """Answer a key that it wants."""
        thing = self.thing()
        if thing is None:
            return
        if key == Qt.Key.Key_Delete:
            self._remove(thing)
        elif key in _TO_CORNER:
            self._go_to_corner(thing, _TO_CORNER[key])
        elif key == Qt.Key.Key_Insert:
            at = self._pointer
            if at is None or side_under(thing, at) is None:
                at = self._middle_after_corner(thing)
            self._insert(thing, at)
        elif key == Qt.Key.Key_Escape:
            self._chosen = None if not self._typed.text else self._chosen
            self._typed.clear()
        elif key in ENTER:
            self._round(thing)
        else:
            self._typed.take(key, text)

    def _corner_meant(self, thing: NoseThing) -> int | None:
        handle = None if self._pointer is None else handle_at(thing, self._chosen, self._pointer)
        if handle is not None and handle.held is Held.CORNER:
            return handle.place
        return self._chosen

    def _go_to_corner(self, thing: NoseThing, step: int) -> None:
        count = len(thing.outline)
        before = self._chosen if self._chosen is not None else (-1 if step > 0 else 0)
        self._chosen = (before + step) % count
        self._typed.clear()
        self._session.message.emit(self.corner_words())

    def _middle_after_corner(self, thing: NoseThing) -> Pointer:
        place = self._chosen or 0
        a, b = thing.outline[place], thing.outline[(place + 1) % len(thing.outline)]
        return Pointer(across_mm=(a.y_mm + b.y_mm) / 2, z_mm=(a.z_mm + b.z_mm) / 2, px_per_mm=1.0)

    def _insert(self, thing: NoseThing, at: Pointer) -> bool:
        found = side_under(thing, at)
        if found is None:
            return False
        place, on = found
        if self._apply(f"add a corner to {thing_name(thing)}", lambda: insert_corner(thing, place, on.y_mm, on.z_mm)):
            self._chosen = place + 1
        return True

    def _remove(self, thing: NoseThing) -> None:
        place = self._corner_meant(thing)
        if place is not None and self._apply(
            f"remove a corner of {thing_name(thing)}", lambda: remove_corner(thing, place)
        ):
            self._chosen = None

    def _round(self, thing: NoseThing) -> None:
        place = self._chosen
        if place is None:
            return
        try:
            radius_mm = self._typed.length_mm(self._session.units)
        except QuantityError as error:
            self._session.message.emit(str(error))
            return
        largest_mm = largest_radius_mm(thing.outline, radii_of(thing), place)
        if radius_mm > largest_mm + _SLACK_MM:
            self._session.message.emit(too_large(largest_mm, self._session))
            return
        if self._apply(f"round a corner of {thing_name(thing)}", lambda: set_radius(thing, place, radius_mm)):
            self._typed.clear()

    def _apply(self, label: str, change: Callable[[], NoseThing]) -> bool:
        try:
            self._session.apply(label, put_thing(self._session.project, change()))
        except ModelError as error:
            self._session.message.emit(str(error))
            return False
        return True


def too_large(largest_mm: float, session: Session) -> str:
    """Return the sentence for a radius that the sides of its corner have no room for."""
    most = show_quantity(largest_mm, Dimension.LENGTH, session.units)
    return f"At this corner the radius can be {most} at most: the sides beside it are no longer. Type a smaller one."
