"""A scale's figures are round in the unit shown, and both ends are held."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.scale_marks import scale_between


def test_degrees_from_38_to_86_run_from_30_to_90_in_tens_and_more():
    # Steps of 10 would take 7 figures, so they are 20 apart
    scale = scale_between(38.0, 86.9, Dimension.TEMPERATURE, UnitSystem.METRIC)
    assert [mark.text for mark in scale.marks] == ["20", "40", "60", "80", "100"]
    assert scale.ends == (20.0, 100.0)
    assert scale.unit == "°C"
    assert scale.place_of(60.0) == pytest.approx(0.5)


def test_fahrenheit_marks_are_round_in_fahrenheit():
    # 38 °C is 100.4 °F, 86.9 °C is 188.42 °F
    scale = scale_between(38.0, 86.9, Dimension.TEMPERATURE, UnitSystem.INCH)
    assert [mark.text for mark in scale.marks] == ["100", "120", "140", "160", "180", "200"]
    assert scale.ends[0] == Fraction((100 - 32) * 10, 18)
    assert scale.ends[1] == Fraction((200 - 32) * 10, 18)


def test_one_value_only_still_has_a_length():
    scale = scale_between(40.0, 40.0, Dimension.TEMPERATURE, UnitSystem.METRIC)
    assert scale.ends[0] <= 40.0 < scale.ends[1]


@pytest.mark.parametrize("low", [-3.7, 0.0, 0.013, 2.5, 180.0])
@pytest.mark.parametrize("span", [0.0, 0.04, 1.3, 7.0, 95.0])
@pytest.mark.parametrize("system", UnitSystem)
def test_every_scale_holds_both_ends_with_few_figures(low, span, system):
    scale = scale_between(low, low + span, Dimension.FLOW_SPEED, system)
    assert scale.ends[0] <= low + 1e-9
    assert scale.ends[1] >= low + span - 1e-9
    assert 2 <= len(scale.marks) <= 6
    assert [mark.place_frac for mark in scale.marks] == sorted({mark.place_frac for mark in scale.marks})
    assert (scale.marks[0].place_frac, scale.marks[-1].place_frac) == (0.0, 1.0)


@pytest.mark.parametrize("ends", [(2.0, 1.0), (math.nan, 1.0), (0.0, math.nan)])
def test_ends_that_are_none_are_refused(ends):
    with pytest.raises(ValueError, match="scale"):
        scale_between(*ends, Dimension.FLOW_SPEED, UnitSystem.METRIC)
