"""What a gesture is: where the pointer is, what the gesture wants drawn, and its four moments."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from grillestack.app.canvas.gestures.snap import SnapLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointer:
    """Where the pointer is on the sheet in mm, at which scale, and which keys are held.

    `across_mm` is y in the front view and x in the side strip.
    """

    across_mm: float
    z_mm: float
    px_per_mm: float
    snaps_off: bool = False
    adds: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A rubber band between two corners, in mm of the sheet."""

    across_from_mm: float
    z_from_mm: float
    across_to_mm: float
    z_to_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What is drawn over the sheet while a gesture is under way; `moved_text` heads the tag at the pointer."""

    snaps: tuple[SnapLine, ...] = ()
    band: Band | None = None
    moved_text: str = ""


NO_MARKS = Marks()


class Gesture(Protocol):
    """One act of the hand; after `finish` or `cancel` it is over."""

    @property
    def marks(self) -> Marks:
        """Return what to draw over the sheet at this moment."""

    def begin(self, at: Pointer) -> None:
        """Take hold there."""

    def update(self, at: Pointer) -> None:
        """Follow the pointer."""

    def finish(self, at: Pointer) -> None:
        """Let go there: at most one undo step."""

    def cancel(self) -> None:
        """Put everything back as it was before `begin`."""
