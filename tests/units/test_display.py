"""Units and decimals on the screen: every dimension has both systems."""

import pytest

from grillestack.units.display import UnitSystem, display_of
from grillestack.units.quantity import Dimension


@pytest.mark.parametrize("system", UnitSystem)
@pytest.mark.parametrize("dimension", Dimension)
def test_a_field_is_never_coarser_than_what_is_shown(dimension, system):
    display = display_of(dimension, system)
    assert 0 <= display.decimals <= display.field_decimals


def test_the_two_systems_differ_wherever_the_trade_does():
    same = {
        dimension
        for dimension in Dimension
        if display_of(dimension, UnitSystem.METRIC).unit == display_of(dimension, UnitSystem.INCH).unit
    }
    assert same == {Dimension.ANGLE, Dimension.VOLTAGE, Dimension.CURRENT, Dimension.FRACTION, Dimension.COUNT}
