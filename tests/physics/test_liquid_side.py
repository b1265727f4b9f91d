"""Films of oil in plain tubes and of liquids between strips."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.liquid_side import (
    LIQUID_STRIP_FRAC,
    LiquidState,
    inlet_length_nusselt,
    oil_film_w_per_m2_k,
    strip_film_w_per_m2_k,
)
from grillestack.physics.offset_strip import colburn_j
from grillestack.physics.oil import TRANSMISSION_OIL
from grillestack.physics.tube_flow import Transition, laminar_nusselt
from grillestack.physics.typical_cores import TypicalCore, typical_construction

PLAIN = replace(typical_construction(TypicalCore.OIL_PLATE_36_MM), inner_fin=None)
STRIPS = typical_construction(TypicalCore.OIL_PLATE_36_MM)
FLOWS_KG_S = np.geomspace(1e-6, 0.3, 80)


def oil(at_degc: float = 90.0) -> LiquidState:
    return LiquidState(
        viscosity_pa_s=TRANSMISSION_OIL.viscosity_pa_s(at_degc),
        conductivity_w_per_m_k=TRANSMISSION_OIL.conductivity_w_per_m_k(at_degc),
        heat_capacity_j_per_kg_k=TRANSMISSION_OIL.heat_capacity_j_per_kg_k(at_degc),
    )


def test_in_a_very_long_tube_the_film_is_that_of_steady_laminar_flow():
    film = float(oil_film_w_per_m2_k(PLAIN, 0.005, 1e6, oil()))
    steady = laminar_nusselt(PLAIN.bore_aspect) * float(oil().conductivity_w_per_m_k) / PLAIN.bore_hydraulic_diameter_m
    assert film == pytest.approx(steady, rel=1e-3)


def test_a_short_tube_has_the_better_film_and_the_film_rises_with_the_flow():
    short, long = (oil_film_w_per_m2_k(PLAIN, FLOWS_KG_S, length, oil()) for length in (0.2, 0.6))
    assert np.all(short >= long)
    assert np.all(np.diff(short) >= 0.0)
    assert np.all(np.diff(long) >= 0.0)


def test_the_inlet_length_s_film_does_not_jump_where_the_flow_turns_turbulent():
    fine = np.linspace(0.02, 0.2, 4000)
    film = oil_film_w_per_m2_k(PLAIN, fine, 0.3, oil(140.0))
    assert np.max(np.abs(np.diff(film))) < 0.01 * film.max()


def test_dimples_and_the_factor_beside_them_never_make_the_film_worse():
    smooth = oil_film_w_per_m2_k(PLAIN, FLOWS_KG_S, 0.3, oil())
    assert np.all(oil_film_w_per_m2_k(PLAIN, FLOWS_KG_S, 0.3, oil(), Transition.TRIPPED) >= smooth)
    better = replace(PLAIN, tube_enhancement_factor=1.5)
    assert oil_film_w_per_m2_k(better, FLOWS_KG_S, 0.3, oil()) == pytest.approx(1.5 * smooth, rel=1e-12)


def test_oil_that_stands_still_or_runs_back_is_laminar_oil():
    assert oil_film_w_per_m2_k(PLAIN, np.array([0.0, -0.01]), 0.3, oil()) == pytest.approx(
        np.full(
            2,
            laminar_nusselt(PLAIN.bore_aspect) * float(oil().conductivity_w_per_m_k) / PLAIN.bore_hydraulic_diameter_m,
        )
    )


def test_between_strips_a_liquid_has_half_the_film_of_the_relation_for_gases():
    """At Re 400 by hand: Nu = j·Re·Pr^(1/3), halved; all of the surface working, as the fins are of no resistance."""
    ideal = replace(STRIPS, fin_conductivity_w_per_m_k=1e9)
    state, diameter = oil(120.0), ideal.bore_hydraulic_diameter_m
    flow = 400.0 * float(state.viscosity_pa_s) / diameter * ideal.bore_area_m2
    film = float(strip_film_w_per_m2_k(ideal, flow, state))
    nusselt = float(colburn_j(ideal.inner_fin, 400.0)) * 400.0 * float(np.cbrt(state.prandtl))
    assert film == pytest.approx(LIQUID_STRIP_FRAC * nusselt * float(state.conductivity_w_per_m_k) / diameter, rel=1e-6)


def test_the_film_between_strips_rises_with_the_flow_down_to_steady_laminar_flow():
    film = strip_film_w_per_m2_k(STRIPS, FLOWS_KG_S, oil())
    assert np.all(np.diff(film) >= 0.0)
    assert film[-1] > 3.0 * film[0]
    still = strip_film_w_per_m2_k(STRIPS, np.array([0.0, -1.0]), oil())
    assert still == pytest.approx(np.full(2, film[0]), rel=1e-9)


def test_a_fin_that_conducts_badly_works_less():
    poor = replace(STRIPS, fin_conductivity_w_per_m_k=2.0)
    assert float(strip_film_w_per_m2_k(poor, 0.02, oil())) < float(strip_film_w_per_m2_k(STRIPS, 0.02, oil()))


def test_without_an_inner_fin_there_are_no_strips():
    with pytest.raises(ValueError, match="no fin inside"):
        strip_film_w_per_m2_k(PLAIN, 0.02, oil())


@pytest.mark.parametrize("graetz", [0.0, 1e-9, 10.0, 1e5])
def test_the_inlet_length_adds_nothing_without_flow_and_never_takes_away(graetz):
    assert float(inlet_length_nusselt(graetz)) >= 0.0
    assert float(inlet_length_nusselt(0.0)) == 0.0
