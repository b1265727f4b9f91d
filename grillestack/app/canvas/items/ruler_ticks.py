"""Where the ticks of a ruler stand, how long each is, and which carry figures: inches divide by halves, millimetres by tens."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from grillestack.app.canvas.height_ruler import ruler_step_mm
from grillestack.units.display import UnitSystem

_MM_PER_INCH = Fraction(254, 10)
_LEAST_APART_PX = 5.0
_FIGURE_PX, _HALF_PX, _QUARTER_PX, _FINE_PX = 7.0, 5.5, 4.0, 2.5
# What a tape is divided by, coarse to fine, in the unit of the ruler.
_INCH_PARTS = tuple(Fraction(1, 2**power) for power in range(5))
_MM_PARTS = (Fraction(100), Fraction(50), Fraction(10), Fraction(5), Fraction(1))


@dataclass(frozen=True, slots=True, kw_only=True)
class RulerScale:
    """How a ruler runs: mm at its first pixel, mm gained per pixel (negative if it falls), unit, unsigned figures or not."""

    first_mm: float
    mm_per_px: float
    units: UnitSystem
    both_ways: bool = False


@dataclass(frozen=True, slots=True)
class Tick:
    """One tick: where along the ruler, how long, and its figure if it carries one."""

    at_px: float
    length_px: float
    text: str


def ticks_along(ruler_px: float, scale: RulerScale) -> list[Tick]:
    """Return the ticks of a ruler so many pixels long, in the order of their figures."""
    inches = scale.units.base is UnitSystem.INCH
    unit_mm = _MM_PER_INCH if inches else Fraction(1)
    px_per_unit = float(unit_mm) / abs(scale.mm_per_px)
    step = Fraction(ruler_step_mm(1.0 / abs(scale.mm_per_px), inches=inches) / float(unit_mm)).limit_denominator(1000)
    fine = _fine_step(step, px_per_unit, _INCH_PARTS if inches else _MM_PARTS)
    ends = sorted((scale.first_mm, scale.first_mm + scale.mm_per_px * ruler_px))
    fine_mm = float(fine * unit_mm)
    found = []
    for number in range(math.ceil(ends[0] / fine_mm), math.floor(ends[1] / fine_mm) + 1):
        value = number * fine
        figure = value % step == 0
        text = _figure(abs(value) if scale.both_ways else value) if figure else ""
        at_px = (number * fine_mm - scale.first_mm) / scale.mm_per_px
        found.append(Tick(at_px, _FIGURE_PX if figure else _length_px(value, step, fine), text))
    return found


def _fine_step(step: Fraction, px_per_unit: float, parts: tuple[Fraction, ...]) -> Fraction:
    """Return the finest division of the step by which ticks stand apart: a part of a tape, else tenths, fifths or halves."""
    shares = (step / 10, step / 5, step / 2)
    fitting = [part for part in (*parts, *shares) if part <= step and step % part == 0]
    readable = [part for part in fitting if float(part) * px_per_unit >= _LEAST_APART_PX]
    finest = [part for part in readable if part >= min(parts)]
    return min(finest, default=step)


def _length_px(value: Fraction, step: Fraction, fine: Fraction) -> float:
    for part, length_px in ((step / 2, _HALF_PX), (step / 4, _QUARTER_PX)):
        if part >= fine and value % part == 0:
            return length_px
    return _FINE_PX


def _figure(value: Fraction) -> str:
    """Return a figure as it stands on a tape: whole, or with a fraction."""
    if value.denominator == 1:
        return str(value.numerator)
    whole, over = divmod(abs(value), 1)
    words = f"{whole} {over.numerator}/{over.denominator}" if whole else f"{over.numerator}/{over.denominator}"
    return f"-{words}" if value < 0 else words
