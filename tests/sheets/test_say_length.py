"""Lengths as they are written at a dimension."""

from __future__ import annotations

import pytest

from grillestack.model.sheet_choices import DrawingUnits
from grillestack.sheets.say_length import said_angle, said_hole, said_length


@pytest.mark.parametrize(
    ("length_mm", "units", "said"),
    [
        (614.0, DrawingUnits.MILLIMETRES, "614"),
        (613.55, DrawingUnits.MILLIMETRES, "613.5"),
        (-12.04, DrawingUnits.MILLIMETRES, "−12"),
        (-0.01, DrawingUnits.MILLIMETRES, "0"),
        # 26 3/16 in = 26.1875 × 25.4 mm by definition of the inch
        (665.1625, DrawingUnits.INCH_FRACTIONS, "26 3/16"),
        (12.7, DrawingUnits.INCH_FRACTIONS, "1/2"),
        (1.5875, DrawingUnits.INCH_FRACTIONS, "1/16"),
        (0.5, DrawingUnits.INCH_FRACTIONS, "0"),
        (-25.4, DrawingUnits.INCH_FRACTIONS, "−1"),
        (665.1625, DrawingUnits.INCH_DECIMALS, "26.188"),
        (25.4, DrawingUnits.BOTH, "25.4 [1]"),
    ],
)
def test_lengths(length_mm, units, said):
    # 613.55 as a float lies just below the half, so it is rounded down.
    assert said_length(length_mm, units) == said


def test_a_fraction_is_never_further_off_than_half_a_sixteenth():
    for step in range(2000):
        length = step * 0.37
        whole, _, part = said_length(length, DrawingUnits.INCH_FRACTIONS).partition(" ")
        words = [word for word in (whole, part) if word]
        inches = sum(int(n) / int(d) if d else int(n) for n, _, d in (word.partition("/") for word in words))
        assert abs(inches * 25.4 - length) <= 25.4 / 32 + 1e-9


def test_holes_and_angles_carry_their_signs():
    assert said_hole(9.0, DrawingUnits.MILLIMETRES) == "Ø9"
    assert said_angle(12.5) == "12.5°"
