"""Films and losses inside the tubes, by hand and at their ends."""

from __future__ import annotations

import math
from dataclasses import replace

import fluids
import numpy as np
import pytest

from grillestack.physics import air, offset_strip
from grillestack.physics.construction import Construction
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.fin_efficiency import inner_fin_efficiency
from grillestack.physics.tube_side import (
    Transition,
    charge_core_loss_pa,
    charge_film_w_per_m2_k,
    coolant_core_loss_pa,
    coolant_film_w_per_m2_k,
    nusselt_flat_tube,
)
from grillestack.physics.typical_cores import TypicalCore, typical_construction

RADIATOR = typical_construction(TypicalCore.ALUMINIUM_26_MM)
CHARGE_AIR = typical_construction(TypicalCore.BAR_AND_PLATE_64_MM)
PLAIN_CHARGE_AIR = replace(CHARGE_AIR, inner_fin=None)
ROUND_TUBE = replace(RADIATOR, tube_thickness_m=8e-3, tube_depth_m=8e-3, tube_pitch_m=15e-3, tube_wall_m=1e-3)
ANY_FLOW = np.array([-1e30, -1.0, -1e-30, 0.0, 1e-30, 1e-3, 1.0, 1e30])

COOLANT = ethylene_glycol(0.5)
VISCOSITY, CONDUCTIVITY, HEAT_CAPACITY, DENSITY = (
    float(of_temperature(90.0))
    for of_temperature in (
        COOLANT.viscosity_pa_s,
        COOLANT.conductivity_w_per_m_k,
        COOLANT.heat_capacity_j_per_kg_k,
        COOLANT.density_kg_m3,
    )
)


def _ends(core: Construction) -> float:
    """Give entrance plus exit loss, in heads of the tube, from the library alone."""
    open_frac = core.bore_area_m2 * core.tubes_per_m / core.flow_depth_m
    side = math.sqrt(open_frac)
    return float(fluids.contraction_sharp(1.0, side)) + (1.0 - open_frac) ** 2


def test_coolant_film_by_hand() -> None:
    flow = 0.03
    reynolds = flow / RADIATOR.bore_area_m2 * RADIATOR.bore_hydraulic_diameter_m / VISCOSITY
    prandtl = VISCOSITY * HEAT_CAPACITY / CONDUCTIVITY
    nusselt = float(nusselt_flat_tube(reynolds, prandtl, RADIATOR.bore_aspect))
    by_hand = nusselt * CONDUCTIVITY / RADIATOR.bore_hydraulic_diameter_m
    assert float(coolant_film_w_per_m2_k(RADIATOR, flow, VISCOSITY, CONDUCTIVITY, HEAT_CAPACITY)) == pytest.approx(
        by_hand
    )


def test_enhancement_multiplies_the_film() -> None:
    dimpled = replace(RADIATOR, tube_enhancement_factor=1.3)
    plain = coolant_film_w_per_m2_k(RADIATOR, 0.02, VISCOSITY, CONDUCTIVITY, HEAT_CAPACITY)
    assert coolant_film_w_per_m2_k(dimpled, 0.02, VISCOSITY, CONDUCTIVITY, HEAT_CAPACITY) == pytest.approx(1.3 * plain)
    for core in (CHARGE_AIR, PLAIN_CHARGE_AIR):
        assert charge_film_w_per_m2_k(replace(core, tube_enhancement_factor=1.2), 0.01, 100.0) > charge_film_w_per_m2_k(
            core, 0.01, 100.0
        )


def test_standing_and_reversed_coolant_has_the_laminar_film() -> None:
    films = coolant_film_w_per_m2_k(
        RADIATOR, np.array([-1e30, -0.1, 0.0, 0.005]), VISCOSITY, CONDUCTIVITY, HEAT_CAPACITY
    )
    assert films == pytest.approx(films[-1])
    assert films[0] > 0.0


@pytest.mark.parametrize("core", [CHARGE_AIR, PLAIN_CHARGE_AIR])
def test_any_charge_flow_has_a_positive_film(core) -> None:
    films = charge_film_w_per_m2_k(core, ANY_FLOW, 100.0)
    assert np.all(np.isfinite(films) & (films > 0.0))
    assert films[0] == films[3]


def test_charge_film_over_an_inner_fin_by_hand() -> None:
    flow, temperature = 0.012, 110.0
    inner = CHARGE_AIR.inner_fin
    assert inner is not None
    flux = flow / CHARGE_AIR.bore_area_m2
    reynolds = flux * inner.hydraulic_diameter_m / float(air.viscosity_pa_s(temperature))
    film = float(offset_strip.colburn_j(inner, reynolds)) * flux * (1006.0 + 0.1 * 85.0) * 0.705 ** (-2.0 / 3.0)
    working = 1.0 - inner.fin_area_frac * (1.0 - float(inner_fin_efficiency(CHARGE_AIR, film)))
    assert float(charge_film_w_per_m2_k(CHARGE_AIR, flow, temperature)) == pytest.approx(film * working)


def test_inner_fin_carries_several_times_what_a_plain_tube_does() -> None:
    finned = float(charge_film_w_per_m2_k(CHARGE_AIR, 0.012, 110.0)) * CHARGE_AIR.inner_area_m2_per_m2
    plain = float(charge_film_w_per_m2_k(PLAIN_CHARGE_AIR, 0.012, 110.0)) * PLAIN_CHARGE_AIR.inner_area_m2_per_m2
    assert 3.0 < finned / plain < 20.0


def test_turbulent_coolant_loss_in_a_round_tube_is_the_pipe_s() -> None:
    """`fluids.one_phase_dP` is the pipe, the ends are its contraction and its expansion."""
    flow, length = 0.15, 0.66
    pipe = fluids.one_phase_dP(m=flow, rho=DENSITY, mu=VISCOSITY, D=6e-3, L=length)
    head = (flow / (math.pi / 4.0 * 6e-3**2)) ** 2 / (2.0 * DENSITY)
    ours = float(coolant_core_loss_pa(ROUND_TUBE, flow, length, DENSITY, VISCOSITY))
    assert ours == pytest.approx(pipe + _ends(ROUND_TUBE) * head, rel=1e-5)


def test_coolant_loss_has_the_sign_of_the_flow_and_grows_with_it() -> None:
    flow = np.linspace(-0.1, 0.1, 201)
    loss = coolant_core_loss_pa(RADIATOR, flow, 0.66, DENSITY, VISCOSITY)
    assert np.all(np.diff(loss) > 0.0)
    assert loss == pytest.approx(-loss[::-1])
    assert np.all(np.isfinite(coolant_core_loss_pa(RADIATOR, ANY_FLOW, 0.66, DENSITY, VISCOSITY)))


def test_early_turbulence_of_dimples_costs_pressure() -> None:
    flow = 1500.0 * VISCOSITY * RADIATOR.bore_area_m2 / RADIATOR.bore_hydraulic_diameter_m
    tripped = coolant_core_loss_pa(RADIATOR, flow, 0.66, DENSITY, VISCOSITY, Transition.TRIPPED)
    smooth = coolant_core_loss_pa(RADIATOR, flow, 0.66, DENSITY, VISCOSITY)
    assert float(tripped) >= float(smooth)


def test_charge_loss_at_even_temperature_is_ends_and_friction() -> None:
    # at a pressure so high that the loss does not thin the air
    flow, length, temperature = 0.004, 0.6, 100.0
    inner = CHARGE_AIR.inner_fin
    assert inner is not None
    density = float(air.density_kg_m3(temperature, 1.0e6))
    flux = flow / CHARGE_AIR.bore_area_m2
    reynolds = flux * inner.hydraulic_diameter_m / float(air.viscosity_pa_s(temperature))
    friction = 4.0 * float(offset_strip.fanning_f(inner, reynolds)) * length / inner.hydraulic_diameter_m
    by_hand = flux**2 / (2.0 * density) * (_ends(CHARGE_AIR) + friction)
    ours = float(charge_core_loss_pa(CHARGE_AIR, flow, length, temperature, temperature, 1.0e6))
    assert ours == pytest.approx(by_hand, rel=5e-4)


def test_cooling_gives_back_the_momentum_of_the_charge() -> None:
    # ends without loss would leave G²(1/ρ2 - 1/ρ1), plus friction at the mean density
    flow, length = 0.01, 1e-9
    flux = flow / CHARGE_AIR.bore_area_m2
    hot, cold = (float(air.density_kg_m3(t, 2.4e5)) for t in (170.0, 60.0))
    open_frac = CHARGE_AIR.bore_area_m2 * CHARGE_AIR.tubes_per_m / CHARGE_AIR.flow_depth_m
    entrance = float(fluids.contraction_sharp(1.0, math.sqrt(open_frac))) + 1.0 - open_frac**2
    recovery = 1.0 - open_frac**2 - (1.0 - open_frac) ** 2
    by_hand = flux**2 * (entrance / (2.0 * hot) + (1.0 / cold - 1.0 / hot) - recovery / (2.0 * cold))
    assert float(charge_core_loss_pa(CHARGE_AIR, flow, length, 170.0, 60.0, 2.4e5)) == pytest.approx(by_hand, rel=1e-3)


@pytest.mark.parametrize("core", [CHARGE_AIR, PLAIN_CHARGE_AIR])
def test_any_charge_flow_has_a_loss_that_is_a_number(core) -> None:
    assert np.all(np.isfinite(charge_core_loss_pa(core, ANY_FLOW, 0.6, 170.0, 60.0, 2.4e5)))
    assert float(charge_core_loss_pa(core, 0.0, 0.6, 170.0, 60.0, 2.4e5)) == 0.0


@pytest.mark.parametrize("core", [CHARGE_AIR, PLAIN_CHARGE_AIR])
def test_charge_loss_rises_with_flow_and_falls_with_pressure(core) -> None:
    by_flow = charge_core_loss_pa(core, np.linspace(0.0, 0.03, 61), 0.6, 170.0, 60.0, 2.4e5)
    assert np.all(np.diff(by_flow) > 0.0)
    by_pressure = charge_core_loss_pa(core, 0.012, 0.6, 170.0, 60.0, np.linspace(1.2e5, 4.0e5, 20))
    assert np.all(np.diff(by_pressure) < 0.0)


def test_flows_and_temperatures_broadcast() -> None:
    assert charge_film_w_per_m2_k(CHARGE_AIR, np.ones((4, 1)) * 0.01, np.full(3, 90.0)).shape == (4, 3)
    assert charge_core_loss_pa(CHARGE_AIR, np.ones((4, 1)) * 0.01, 0.6, np.full(3, 170.0), 60.0, 2.4e5).shape == (4, 3)
    assert coolant_film_w_per_m2_k(RADIATOR, np.ones((4, 1)) * 0.01, np.full(3, VISCOSITY), 0.41, 3500.0).shape == (
        4,
        3,
    )
