"""Which figures stand along a scale of colours: round numbers of the unit shown, and the ends they reach to."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from grillestack.units.display import DecimalMark, UnitSystem, display_of
from grillestack.units.factors import internal_factor
from grillestack.units.quantity import Dimension
from grillestack.units.show import marked


@dataclass(frozen=True, slots=True)
class ScaleMark:
    """One figure on a scale: where it stands between the ends, and what is written there."""

    place_frac: float
    text: str


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale between two round numbers: its ends, exact in the internal unit, the figures on it and the unit they are in."""

    ends: tuple[Fraction, Fraction]
    marks: tuple[ScaleMark, ...]
    unit: str

    def place_of(self, value: float) -> float:
        """Return where a value in the internal unit stands: 0 at the lower end, 1 at the upper one."""
        low, high = self.ends
        return float((Fraction(value) - low) / (high - low))


def scale_between(low: float, high: float, dimension: Dimension, system: UnitSystem, most_marks: int = 6) -> Scale:
    """Return the shortest scale of round steps that holds both values, in the unit in which the dimension is shown.

    Parameters
    ----------
    low, high
        In the internal unit of the dimension.
    most_marks
        No more figures than this; at least 2.

    Raises
    ------
    ValueError
        For NaN, an infinite value, or ends in the wrong order.
    """
    if not low <= high:
        raise ValueError(f"A scale cannot run from {low} to {high}")
    unit = display_of(dimension, system).unit
    factor, offset = internal_factor(unit, dimension)
    first, last = ((Fraction(value) - offset) / factor for value in (low, high))
    step = _step(last - first, max(2, most_marks), first, last)
    count_low, count_high = first // step, -(-last // step)
    if count_low == count_high:
        count_high += 1
    counts = range(int(count_low), int(count_high) + 1)
    marks = tuple(
        ScaleMark((count - counts[0]) / (counts[-1] - counts[0]), _written(count * step, system.mark))
        for count in counts
    )
    low_end, high_end = (count * step * factor + offset for count in (counts[0], counts[-1]))
    return Scale((low_end, high_end), marks, unit)


def _step(span: Fraction, most_marks: int, first: Fraction, last: Fraction) -> Fraction:
    """Return the smallest of 1, 2 and 5 times a power of ten with which no more than so many figures are needed."""
    power = Fraction(1, 100)
    while True:
        for times in (1, 2, 5):
            step = power * times
            if span <= step * (most_marks - 1) and -(-last // step) - first // step < most_marks:
                return step
        power *= 10


def _written(value: Fraction, mark: DecimalMark) -> str:
    return marked(f"{float(value):g}", mark)
