"""Properties of a mineral oil from three figures of its data sheet."""

from __future__ import annotations

import math

import numpy as np
import pytest

from grillestack.physics.oil import OIL_HIGHEST_DEGC, OIL_LOWEST_DEGC, TRANSMISSION_OIL, mineral_oil

PROPERTIES = ("density_kg_m3", "heat_capacity_j_per_kg_k", "conductivity_w_per_m_k", "viscosity_pa_s")
RANGE_DEGC = np.linspace(OIL_LOWEST_DEGC, OIL_HIGHEST_DEGC, 91)


def test_the_figures_of_the_data_sheet_come_back():
    oil = mineral_oil(870.0, 46.0e-6, 6.8e-6)
    assert oil.kinematic_viscosity_m2_s(40.0) == pytest.approx(46.0e-6, rel=1e-9)
    assert oil.kinematic_viscosity_m2_s(100.0) == pytest.approx(6.8e-6, rel=1e-9)
    assert oil.density_kg_m3(15.0) == pytest.approx(870.0, rel=1e-12)
    assert oil.viscosity_pa_s(40.0) == pytest.approx(46.0e-6 * oil.density_kg_m3(40.0), rel=1e-9)


def test_the_double_logarithm_of_the_viscosity_is_straight_over_that_of_temperature():
    """ASTM D341 by hand, between its two points at the mean of log T."""
    middle_k = math.sqrt(313.15 * 373.15)
    wanted = 0.5 * (math.log10(math.log10(34.0 + 0.7)) + math.log10(math.log10(7.2 + 0.7)))
    by_hand = 10.0 ** (10.0**wanted) - 0.7
    assert 1e6 * TRANSMISSION_OIL.kinematic_viscosity_m2_s(middle_k - 273.15) == pytest.approx(by_hand, rel=1e-9)


def test_warm_oil_is_thinner_lighter_and_less_conductive_and_takes_more_heat():
    for name, sign in zip(PROPERTIES, (-1.0, 1.0, -1.0, -1.0), strict=True):
        values = getattr(TRANSMISSION_OIL, name)(RANGE_DEGC)
        assert np.all(sign * np.diff(values) > 0.0), name


@pytest.mark.parametrize("name", PROPERTIES)
def test_outside_the_range_the_properties_are_those_of_the_nearer_end(name):
    ask = getattr(TRANSMISSION_OIL, name)
    assert ask(np.array([-60.0, 400.0])) == pytest.approx(ask(np.array([OIL_LOWEST_DEGC, OIL_HIGHEST_DEGC])), rel=1e-14)


def test_shapes_are_kept():
    assert TRANSMISSION_OIL.viscosity_pa_s(np.full((2, 3), 80.0)).shape == (2, 3)
