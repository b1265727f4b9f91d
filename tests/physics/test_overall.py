"""Resistances in series, per square metre of face."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.fin_efficiency import air_fin_efficiency
from grillestack.physics.louvred_fin import air_film_w_per_m2_k
from grillestack.physics.overall import (
    CLEAN_M2_K_PER_W,
    COOLANT_FOULING_M2_K_PER_W,
    TREATED_WATER_FOULING_M2_K_PER_W,
    conductance_w_per_m2_k,
    wall_resistance_m2_k_per_w,
)
from grillestack.physics.typical_cores import TypicalCore, typical_construction

CORE = typical_construction(TypicalCore.ALUMINIUM_36_MM)


def test_resistances_add_up_by_hand() -> None:
    flux, temperature, tube_side = 4.4, 60.0, 19_000.0
    film = float(air_film_w_per_m2_k(CORE, flux, temperature))
    fins, bare = CORE.fin_area_m2_per_m2, CORE.prime_area_m2_per_m2
    air_side = 1.0 / (film * (bare + fins * float(air_fin_efficiency(CORE, film))))
    wall = 0.30e-3 / (180.0 * CORE.wall_area_m2_per_m2)
    deposit = 0.5e-4 / CORE.inner_area_m2_per_m2
    by_hand = 1.0 / (air_side + wall + deposit + 1.0 / tube_side)
    assert float(conductance_w_per_m2_k(CORE, flux, temperature, tube_side)) == pytest.approx(by_hand)


@pytest.mark.parametrize("core", TypicalCore)
def test_no_air_and_no_flow_in_the_tubes_still_give_a_small_positive_number(core) -> None:
    construction = typical_construction(core)
    values = conductance_w_per_m2_k(
        construction, np.array([-1e30, 0.0, 5.0])[:, None], 45.0, np.array([-1.0, 0.0, 1e-12, 2e4, 1e30])
    )
    assert values.shape == (3, 5)
    assert np.all(np.isfinite(values) & (values > 0.0))
    assert np.all(values[:, :3] < 0.01)
    assert np.all(values[1, 3:] < values[2, 3:])


def test_the_whole_conducts_less_than_any_part() -> None:
    assert float(conductance_w_per_m2_k(CORE, 5.0, 45.0, 3000.0)) < 3000.0
    endless = float(conductance_w_per_m2_k(CORE, 5.0, 45.0, 1e30, CLEAN_M2_K_PER_W))
    assert float(conductance_w_per_m2_k(CORE, 5.0, 45.0, 3000.0)) < endless


def test_deposit_costs_and_more_of_it_costs_more() -> None:
    clean, cared_for, neglected = (
        float(conductance_w_per_m2_k(CORE, 5.0, 45.0, 2e4, fouling))
        for fouling in (CLEAN_M2_K_PER_W, COOLANT_FOULING_M2_K_PER_W, TREATED_WATER_FOULING_M2_K_PER_W)
    )
    assert clean > cared_for > neglected
    assert float(conductance_w_per_m2_k(CORE, 5.0, 45.0, 2e4)) == cared_for


def test_a_thicker_wall_resists_in_proportion() -> None:
    thin = replace(CORE, tube_wall_m=0.2e-3)
    ratio = wall_resistance_m2_k_per_w(CORE, 0.0) / wall_resistance_m2_k_per_w(thin, 0.0)
    assert ratio == pytest.approx(1.5 * thin.wall_area_m2_per_m2 / CORE.wall_area_m2_per_m2)


@pytest.mark.parametrize("core", TypicalCore)
def test_conductance_never_falls_as_more_air_comes(core) -> None:
    values = conductance_w_per_m2_k(typical_construction(core), np.linspace(0.0, 30.0, 301), 45.0, 2e4)
    assert np.all(np.diff(values) >= 0.0)
