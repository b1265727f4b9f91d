"""Two layouts side by side as values, and how each of their figures reads."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from grillestack.assess.part_changes import PartChange, changes_in_words
from grillestack.assess.result import Assessment, Verdict
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

NO_DAY: Final = "no day"
HOTTEST_DAY: Final = "Hottest day"
_SAME: Final = "same"
_ONE: Final = MappingProxyType(
    {Verdict.PASS: "passes", Verdict.CLOSE: "is close", Verdict.FAIL: "fails", Verdict.UNKNOWN: "cannot be judged yet"}
)
_BOTH: Final = MappingProxyType(
    {
        Verdict.PASS: "both pass",
        Verdict.CLOSE: "both are close",
        Verdict.FAIL: "both fail",
        Verdict.UNKNOWN: "neither can be judged yet",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """One figure of one layout: a value in the internal unit, or words in its place.

    A note says what the value leaves out.
    """

    value: float | None = None
    limit: float | None = None
    words: str = ""
    note: str = ""

    @property
    def is_over(self) -> bool:
        """Return whether the value is over its limit."""
        return self.value is not None and self.limit is not None and self.value > self.limit

    def shown(self, dimension: Dimension, units: UnitSystem) -> str:
        """Return the figure to be read, with its limit if it is over it; "not known" where nobody knows it."""
        words = self.words or show_quantity(self.value, dimension, units)
        if self.is_over:
            words += f", over {show_quantity(self.limit, dimension, units)}"
        elif dimension is Dimension.TEMPERATURE_DIFFERENCE and self.value is not None and self.value > 0:
            words = f"+{words}"
        return f"{words} {self.note}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One line of the comparison; the difference is that of the layout in hand from the other, if it is known."""

    label: str
    dimension: Dimension
    other: Amount
    in_hand: Amount
    difference: float | None

    def other_words(self, units: UnitSystem) -> str:
        """Return the other layout's figure."""
        return self.other.shown(self.dimension, units)

    def in_hand_words(self, units: UnitSystem) -> str:
        """Return the figure of the layout in hand."""
        return self.in_hand.shown(self.dimension, units)

    def difference_words(self, units: UnitSystem) -> str:
        """Return the difference with its sign, "same", or nothing where there is none to tell."""
        if self.difference is None:
            same = self.other == self.in_hand and bool(self.other.words)
            return _SAME if same else ""
        is_degrees = self.dimension is Dimension.TEMPERATURE
        words = show_quantity(
            self.difference, Dimension.TEMPERATURE_DIFFERENCE if is_degrees else self.dimension, units
        )
        if not any(digit in words.partition(" ")[0] for digit in "123456789"):
            return _SAME
        return words if words.startswith("-") else f"+{words}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Two layouts, both assessed as if each stood alone: the other one first, the one in hand against it."""

    other: Assessment
    in_hand: Assessment
    figures: tuple[Figure, ...]
    changes: tuple[PartChange, ...]

    @property
    def names(self) -> tuple[str, str]:
        """Return the names of both layouts, the other one's first."""
        return self.other.project.variant_name, self.in_hand.project.variant_name

    def headline(self, units: UnitSystem) -> str:
        """Return which layout stands the hotter day, and by how much."""
        return f"{self._of_the_days(units)}; {self._of_the_verdicts()}."

    def sentences(self, units: UnitSystem) -> tuple[str, ...]:
        """Return what differs in the parts of the layout in hand, one sentence for each part."""
        sides = [(side.project.variant_name, side.project.parts) for side in (self.other, self.in_hand)]
        return changes_in_words(self.changes, sides[0], sides[1], units)

    def _of_the_days(self, units: UnitSystem) -> str:
        there, here = self.names
        figure = next(figure for figure in self.figures if figure.label == HOTTEST_DAY)
        if figure.difference is not None:
            by = figure.difference_words(units)
            if by == _SAME:
                return f"“{here}” stands as hot a day as “{there}”"
            return f"“{here}” stands a day {by[1:]} {'hotter' if by[0] == '+' else 'cooler'} than “{there}”"
        missing = [
            name for name, side in zip(self.names, (figure.other, figure.in_hand), strict=True) if side == Amount()
        ]
        if len(missing) > 1:
            return "Neither layout's hottest day is known"
        if missing:
            return f"Which of the two stands the hotter day is not known, as the hottest day of “{missing[0]}” is not"
        if figure.other == figure.in_hand:
            return f"No day is cold enough for “{there}” or for “{here}”"
        return f"No day is cold enough for “{here if figure.in_hand.words else there}”"

    def _of_the_verdicts(self) -> str:
        there, here = self.other.verdict, self.in_hand.verdict
        if there is here:
            return _BOTH[here]
        return f"“{self.names[0]}” {_ONE[there]}, “{self.names[1]}” {_ONE[here]}"
