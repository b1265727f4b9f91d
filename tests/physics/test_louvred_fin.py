"""Louvred fins: range ends, creeping flow, and the film they give."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics import air
from grillestack.physics.louvred_fin import (
    HIGHEST_F_REYNOLDS,
    HIGHEST_J_REYNOLDS,
    LOWEST_LOUVRE_REYNOLDS,
    air_film_w_per_m2_k,
    colburn_j,
    fanning_f,
    range_notes,
)
from grillestack.physics.typical_cores import TypicalCore, typical_construction

CORE = typical_construction(TypicalCore.ALUMINIUM_26_MM)
ALL_CORES = [typical_construction(core) for core in TypicalCore]
ANY_FLOW = np.array([-1e30, -1.0, -1e-30, 0.0, 1e-30, 1e-3, 1.0, 10.0, 1e30])


@pytest.mark.parametrize("factor", [colburn_j, fanning_f])
def test_any_reynolds_number_gives_a_positive_factor(factor) -> None:
    for construction in ALL_CORES:
        values = factor(construction, ANY_FLOW)
        assert np.all(np.isfinite(values) & (values > 0.0))


@pytest.mark.parametrize("factor", [colburn_j, fanning_f])
def test_below_the_range_factor_times_reynolds_is_held(factor) -> None:
    at_end = float(factor(CORE, LOWEST_LOUVRE_REYNOLDS))
    assert float(factor(CORE, 5.0)) * 5.0 == pytest.approx(at_end * LOWEST_LOUVRE_REYNOLDS)
    assert float(factor(CORE, LOWEST_LOUVRE_REYNOLDS - 1e-9)) == pytest.approx(at_end)


def test_above_the_range_the_factors_are_held() -> None:
    assert float(colburn_j(CORE, 1e6)) == float(colburn_j(CORE, HIGHEST_J_REYNOLDS))
    assert float(fanning_f(CORE, 1e6)) == float(fanning_f(CORE, HIGHEST_F_REYNOLDS))


@pytest.mark.parametrize("reynolds", [130.0, 230.0])
def test_friction_has_no_step_at_the_ends_of_the_blend(reynolds) -> None:
    for construction in ALL_CORES:
        beside = fanning_f(construction, np.array([reynolds - 1e-7, reynolds + 1e-7]))
        assert beside[0] == pytest.approx(beside[1], rel=1e-6)


def test_blend_is_the_mean_of_the_squares_in_its_middle() -> None:
    ends = fanning_f(CORE, np.array([130.0, 230.0]))
    assert float(fanning_f(CORE, 180.0)) == pytest.approx(np.sqrt(np.mean(ends**2)))


def test_film_is_its_definition_by_hand() -> None:
    # h = j · G · cp · Pr^(-2/3), G the flux in the narrowest area
    flux, temperature = 5.0, 60.0
    narrowest = flux / CORE.free_flow_frac
    reynolds = narrowest * CORE.louvre_pitch_m / float(air.viscosity_pa_s(temperature))
    by_hand = float(colburn_j(CORE, reynolds)) * narrowest * 1006.0 * 0.705 ** (-2.0 / 3.0)
    assert float(air_film_w_per_m2_k(CORE, flux, temperature)) == pytest.approx(by_hand)


@pytest.mark.parametrize("construction", ALL_CORES)
def test_standing_and_reversed_air_has_the_film_of_creeping_flow(construction) -> None:
    creeping = LOWEST_LOUVRE_REYNOLDS * float(air.viscosity_pa_s(45.0)) / construction.louvre_pitch_m
    least = float(air_film_w_per_m2_k(construction, creeping * construction.free_flow_frac, 45.0))
    films = air_film_w_per_m2_k(construction, np.array([-1e30, -2.0, 0.0, 1e-9]), 45.0)
    assert films == pytest.approx(least)
    assert least > 0.0


@pytest.mark.parametrize("construction", ALL_CORES)
def test_film_never_falls_as_more_air_comes(construction) -> None:
    films = air_film_w_per_m2_k(construction, np.linspace(0.0, 60.0, 601), 45.0)
    assert np.all(np.diff(films) >= 0.0)


def test_flux_and_temperature_broadcast() -> None:
    assert air_film_w_per_m2_k(CORE, np.ones((4, 1)), np.full(3, 45.0)).shape == (4, 3)


def test_a_core_inside_the_data_has_no_notes() -> None:
    assert range_notes(CORE) == ()


def test_each_size_outside_the_data_is_named() -> None:
    deep = typical_construction(TypicalCore.COPPER_BRASS_70_MM)
    assert range_notes(deep) == (
        "Core depth 70 mm is outside 15.6 to 57.4 mm, the range of the data behind the correlation.",
    )
    steep = range_notes(replace(CORE, louvre_angle_deg=50.0, fin_thickness_m=0.02e-3))
    assert [note.split()[0] for note in steep] == ["Fin", "Louvre", "Fin"]
    assert "Louvre angle 50°" in steep[1]


def test_foil_thinner_than_the_logarithms_bear_still_gives_friction() -> None:
    foil = replace(CORE, fin_thickness_m=0.005e-3)
    values = fanning_f(foil, np.linspace(1.0, 6000.0, 200))
    assert np.all(np.isfinite(values) & (values > 0.0))
    assert any("fiftieth" in note for note in range_notes(foil))
