"""Coolant properties: mixtures, range ends, boiling."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.coolant import (
    COOLANT_HIGHEST_DEGC,
    COOLANT_LOWEST_DEGC,
    boiling_degc,
    ethylene_glycol,
)

PROPERTIES = ("density_kg_m3", "heat_capacity_j_per_kg_k", "conductivity_w_per_m_k", "viscosity_pa_s")
FRACTIONS = (0.30, 0.33, 0.40, 0.475, 0.50, 0.575, 0.60)


@pytest.mark.parametrize("name", PROPERTIES)
def test_any_temperature_gives_a_number_and_outside_the_range_that_of_its_end(name) -> None:
    coolant = ethylene_glycol(0.5)
    values = getattr(coolant, name)(np.array([-1e30, COOLANT_LOWEST_DEGC, 60.0, COOLANT_HIGHEST_DEGC, 1e30]))
    assert np.all(np.isfinite(values) & (values > 0.0))
    assert values[0] == values[1]
    assert values[3] == values[4]


@pytest.mark.parametrize("name", PROPERTIES)
def test_shape_in_is_shape_out(name) -> None:
    coolant = ethylene_glycol(0.5)
    assert getattr(coolant, name)(np.zeros((2, 3))).shape == (2, 3)
    assert np.ndim(getattr(coolant, name)(80.0)) == 0


@pytest.mark.parametrize("frac", FRACTIONS)
def test_hot_coolant_is_thinner_lighter_and_takes_more_heat(frac) -> None:
    coolant = ethylene_glycol(frac)
    warming = np.linspace(COOLANT_LOWEST_DEGC, COOLANT_HIGHEST_DEGC, 281)
    assert np.all(np.diff(coolant.viscosity_pa_s(warming)) < 0.0)
    assert np.all(np.diff(coolant.density_kg_m3(warming)) < 0.0)
    assert np.all(np.diff(coolant.heat_capacity_j_per_kg_k(warming)) > 0.0)


def test_viscosity_has_no_step_where_its_two_fits_meet() -> None:
    either_side = ethylene_glycol(0.45).viscosity_pa_s(np.array([40.0 - 1e-6, 40.0 + 1e-6]))
    assert either_side[0] == pytest.approx(either_side[1], rel=1e-6)


def test_more_glycol_is_thicker_heavier_and_takes_less_heat() -> None:
    mixtures = [ethylene_glycol(frac) for frac in FRACTIONS]
    for temperature in (0.0, 60.0, 120.0):
        assert np.all(np.diff([float(m.viscosity_pa_s(temperature)) for m in mixtures]) > 0.0)
        assert np.all(np.diff([float(m.density_kg_m3(temperature)) for m in mixtures]) > 0.0)
        assert np.all(np.diff([float(m.heat_capacity_j_per_kg_k(temperature)) for m in mixtures]) < 0.0)


def test_a_mixture_outside_the_range_says_that_it_is_held_at_its_end() -> None:
    thin = ethylene_glycol(0.1)
    assert thin.is_held_at_range_end
    assert (thin.asked_volume_frac, thin.volume_frac) == (0.1, 0.30)
    assert float(thin.density_kg_m3(80.0)) == float(ethylene_glycol(0.30).density_kg_m3(80.0))
    assert ethylene_glycol(0.95).volume_frac == 0.60
    assert not ethylene_glycol(0.30).is_held_at_range_end
    assert not ethylene_glycol(0.60).is_held_at_range_end


@pytest.mark.parametrize("frac", [-0.1, 1.01, 50.0, float("nan")])
def test_a_share_that_is_none_is_refused(frac) -> None:
    with pytest.raises(ValueError, match="by volume"):
        ethylene_glycol(frac)


def test_boiling_point_rises_with_pressure_and_with_glycol() -> None:
    pressures = np.linspace(2.0e4, 1.0e6, 99)
    assert np.all(np.diff(boiling_degc(ethylene_glycol(0.5), pressures)) > 0.0)
    points = [float(boiling_degc(ethylene_glycol(frac), 101325.0)) for frac in FRACTIONS]
    assert np.all(np.diff(points) > 0.0)


def test_boiling_at_any_pressure_is_a_number() -> None:
    points = boiling_degc(ethylene_glycol(0.5), np.array([-1e30, 0.0, 2.0e4, 1.0e6, 1e30]))
    assert np.all(np.isfinite(points))
    assert points[0] == points[1] == points[2]
    assert points[3] == points[4]
