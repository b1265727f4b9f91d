"""What a gesture is: where the pointer is, what the gesture wants drawn, and its four moments."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from grillestack.app.canvas.gestures.snap import SnapLine
from grillestack.app.canvas.gestures.typed_offset import TypedOffset, TypedRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointer:
    """Where the pointer is on the sheet in mm, at which scale, and which keys are held.

    `px_per_mm` is the scale by which a hand reaches: at the bench it is less than the drawing's, so that all is taken
    hold of from further off.

    `across_mm` is y in the front view and in the view from above, x in the side strip; `z_mm` is what runs up the sheet:
    x in the view from above.
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
class Drawing:
    """A drawing half-way: its corners, the next one at the pointer, and what mirroring adds, in mm of the sheet."""

    corners_mm: tuple[tuple[float, float], ...]
    at_mm: tuple[float, float]
    mirrored_mm: tuple[tuple[float, float], ...] = ()
    closes: bool = False
    is_outline: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A line of the tag at the pointer: a name and what it is now."""

    words: str
    now_text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredLine:
    """What is being measured: the place caught at the pointer or set, and where the line began, in mm of the sheet."""

    caught_mm: tuple[float, float]
    from_mm: tuple[float, float] | None = None
    is_set: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What is drawn over the sheet while a gesture is under way; `moved_text` heads the tag at the pointer.

    Under it stand the `facts`, or what the gesture changes of the verdict where there are none; `hint` is the next step,
    `typed` the field at what is held.
    """

    snaps: tuple[SnapLine, ...] = ()
    band: Band | None = None
    moved_text: str = ""
    drawing: Drawing | None = None
    facts: tuple[Fact, ...] | None = None
    hint: str = ""
    typed: tuple[TypedRow, ...] = ()
    measured: MeasuredLine | None = None


NO_MARKS = Marks()


class KeyTaker(Protocol):
    """What may want a key before the window's own shortcuts get it."""

    def wants_key(self, key: int, text: str) -> bool:
        """Return whether this key is meant for it at this moment."""

    def key(self, key: int, text: str) -> None:
        """Answer a key that it wants."""


class Tool(KeyTaker, Protocol):
    """One thing made by several clicks; once it is over the view puts it away."""

    @property
    def marks(self) -> Marks:
        """Return what to draw over the sheet at this moment."""

    @property
    def is_over(self) -> bool:
        """Return whether the thing is made or given up."""

    def hover(self, at: Pointer) -> None:
        """Follow the pointer."""

    def press(self, at: Pointer) -> None:
        """Answer a press of the left button."""

    def release(self, at: Pointer) -> None:
        """Answer the left button let go."""

    def double_click(self, at: Pointer) -> None:
        """Answer the second press of a double click."""

    def cancel(self) -> None:
        """Give up and leave nothing."""


class Gesture(Protocol):
    """One act of the hand; after `finish` or `cancel` it is over."""

    @property
    def typed(self) -> TypedOffset | None:
        """Return what takes a distance typed meanwhile, if it may be typed."""

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
