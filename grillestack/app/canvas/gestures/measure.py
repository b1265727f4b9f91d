"""Measuring between two places by clicks, by one drag or by keys; it leaves nothing in the document."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.draw import angle_words
from grillestack.app.canvas.gestures.gesture import NO_MARKS, Fact, Marks, MeasuredLine, Pointer
from grillestack.app.canvas.gestures.measure_targets import Caught, Targets
from grillestack.app.canvas.gestures.typed_length import ENTER
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_DRAG_BEGINS_PX = 6.0
_FIRST_HINT = (
    "Measure: click or drag from an edge or a corner; arrows walk from corner to corner, Enter takes hold. Esc ends."
)
_SECOND_HINT = (
    "Click the other edge or corner, or walk there by arrows and press Enter. Backspace begins anew, Esc ends."
)
_DONE_HINT = "Click to measure something else, Esc ends. Nothing of it stays in the project."


class MeasureTool:
    """One measurement after the other, in one view; `across_sign` is -1 where the sheet runs to the viewer's left."""

    def __init__(self, session: Session, targets_of: Callable[[Project], Targets], across_sign: int) -> None:
        self._session = session
        self._targets_of = targets_of
        self._across_sign = across_sign
        self._project: Project | None = None
        self._targets = Targets((), ())
        self._here: Caught | None = None
        self._start: Caught | None = None
        self._end: Caught | None = None
        self._pressed: Pointer | None = None
        self._by_keys = False
        self._is_over = False

    @property
    def is_over(self) -> bool:
        """Return whether it was ended."""
        return self._is_over

    @property
    def measured(self) -> tuple[Caught, Caught] | None:
        """Return both places, the second one at the pointer until it is set."""
        end = self._end or self._here
        return None if self._start is None or end is None else (self._start, end)

    @property
    def marks(self) -> Marks:
        """Return the line measured so far, its three lengths, and what was caught."""
        if self._is_over:
            return NO_MARKS
        hint = _FIRST_HINT if self._start is None else _SECOND_HINT if self._end is None else _DONE_HINT
        if self.measured is None:
            return Marks(
                hint=hint,
                measured=None if self._here is None else MeasuredLine(caught_mm=self._here.at_mm),
                moved_text="" if self._here is None else self._here.words,
                facts=(),
            )
        start, end = self.measured
        is_told = self._end is not None or self._by_keys
        line = MeasuredLine(caught_mm=end.at_mm, from_mm=start.at_mm, is_set=is_told)
        return Marks(
            hint=hint, measured=line, moved_text=self._length(math.dist(start.at_mm, end.at_mm)), facts=self._facts()
        )

    def _facts(self) -> tuple[Fact, ...]:
        start, end = self.measured or (Caught((0.0, 0.0)), Caught((0.0, 0.0)))
        facts = [
            Fact(words="across", now_text=self._length(abs(end.at_mm[0] - start.at_mm[0]))),
            Fact(words="up or down", now_text=self._length(abs(end.at_mm[1] - start.at_mm[1]))),
            Fact(words="angle", now_text=angle_words(start.at_mm, end.at_mm)),
        ]
        facts += [
            Fact(words=way, now_text=caught.words) for way, caught in (("from", start), ("to", end)) if caught.words
        ]
        return tuple(facts)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def hover(self, at: Pointer) -> None:
        """Catch what lies under the pointer."""
        self._by_keys = False
        self._here = self._caught(at)

    def press(self, at: Pointer) -> None:
        """Set the first place, or the second one; a third press begins anew."""
        self._pressed = at
        self.hover(at)
        self._set(self._caught(at))

    def release(self, at: Pointer) -> None:
        """Set the second place where a drag ends."""
        pressed, self._pressed = self._pressed, None
        if pressed is None or self._start is None or self._end is not None:
            return
        moved_mm = math.hypot(at.across_mm - pressed.across_mm, at.z_mm - pressed.z_mm)
        if moved_mm * at.px_per_mm >= _DRAG_BEGINS_PX:
            self._end = self._caught(at)

    def double_click(self, at: Pointer) -> None:
        """Answer a quick second click like any other."""
        self.press(at)

    def cancel(self) -> None:
        """End; nothing was changed."""
        self._is_over = True

    # --- keys -------------------------------------------------------------------------------------------------------

    def wants_key(self, key: int, text: str) -> bool:  # noqa: ARG002  the protocol's signature
        """Return whether the key walks, takes hold, begins anew or ends."""
        return key in (Qt.Key.Key_Escape, Qt.Key.Key_Backspace, *_ways(self._across_sign), *ENTER)

    def key(self, key: int, text: str) -> None:  # noqa: ARG002  the protocol's signature
        """Answer a key."""
        ways = _ways(self._across_sign)
        if key == Qt.Key.Key_Escape:
            self.cancel()
        elif key == Qt.Key.Key_Backspace:
            self._start = self._end = None
        elif key in ENTER:
            if self._here is not None:
                self._set(self._here)
        elif key in ways:
            self._walk(ways[Qt.Key(key)])

    def _walk(self, way: tuple[float, float]) -> None:
        if self._end is not None:
            return
        self._by_keys = True
        found = self._followed().next_point(self._here.at_mm if self._here else (0.0, 0.0), way)
        self._here = found or self._here

    def _set(self, caught: Caught) -> None:
        self._here = caught
        if self._start is None or self._end is not None:
            self._start, self._end = caught, None
        else:
            self._end = caught

    def _caught(self, at: Pointer) -> Caught:
        return self._followed().catch(at)

    def _followed(self) -> Targets:
        if self._project is not self._session.shown:
            self._project = self._session.shown
            self._targets = self._targets_of(self._project)
        return self._targets

    def _length(self, length_mm: float) -> str:
        return show_quantity(length_mm, Dimension.LENGTH, self._session.units)


def _ways(across_sign: int) -> dict[Qt.Key, tuple[float, float]]:
    """Return the steps (across, up) of the arrows as the hand sees them on the screen."""
    return {
        Qt.Key.Key_Left: (-float(across_sign), 0.0),
        Qt.Key.Key_Right: (float(across_sign), 0.0),
        Qt.Key.Key_Up: (0.0, 1.0),
        Qt.Key.Key_Down: (0.0, -1.0),
    }
