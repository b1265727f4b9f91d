"""Air and heat together: what the fixed point must balance, what it must not depend on, and where no answer is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.conditions import Ask
from grillestack.physics.fan_curve import derive_fan_curve
from grillestack.physics.heat import LOWEST_DEGC
from grillestack.physics.layout import FIRST_CHAMBER, PLENUM_IN_JET, LayerDuty, PackLayout
from grillestack.physics.overall import (
    CLEAN_M2_K_PER_W,
    COOLANT_FOULING_M2_K_PER_W,
    conductance_w_per_m2_k,
)
from grillestack.physics.solve import State, cold_state, solve
from grillestack.physics.tube_fluids import tube_fluids
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.balances import heat_carried_out_w, heat_gained_w, worst_imbalance_kg_s
from tests.physics.small_packs import PlainCore, asked, plain_pack

FAN = derive_fan_curve(1.2, 0.42)
TIGHT = 1e-6
CONDENSER = PlainCore(LayerDuty.GIVEN_HEAT, TypicalCore.CONDENSER_16_MM, 0, 12, 0, 8)
CHARGE = PlainCore(LayerDuty.CHARGE_AIR, TypicalCore.BAR_AND_PLATE_64_MM, 0, 12, 0, 4)
RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_48_MM, 0, 12, 0, 8)
SPEEDS = np.array([0.0, 6.0, 15.0, 30.0])


def pack(*cores: PlainCore, **given: object) -> PackLayout:
    usual = {"fan": FAN, "shrouded_columns": 9, "off_jet_columns": 3, "leak_m2": 0.006}
    return plain_pack(list(cores) or [CONDENSER, CHARGE, RADIATOR], **{**usual, **given})


# Balances.


@pytest.mark.parametrize("ask", list(Ask))
def test_all_heat_leaves_with_the_air_and_no_node_gains_or_loses_air(ask):
    layout = pack()
    conditions = asked(layout, size=4, ask=int(ask), road_speed_m_s=SPEEDS, surface_heat_w=1500.0, heat_target_w=20e3)
    solution = solve(layout, conditions, tolerance_k=TIGHT)
    assert solution.converged.all()
    assert worst_imbalance_kg_s(layout, solution) <= 1e-9
    for row in range(4):
        gained = heat_gained_w(solution, conditions, row)
        assert gained > 5000.0
        assert heat_carried_out_w(layout, solution, row) == pytest.approx(gained, rel=1e-6)


def test_each_core_s_heat_is_what_its_tube_fluid_loses():
    layout = pack()
    solution = solve(layout, asked(layout, size=4, road_speed_m_s=SPEEDS), tolerance_k=TIGHT)
    lost = solution.sweep.tube_in_degc - solution.sweep.tube_out_degc
    assert solution.sweep.heat_w[:, 0] == pytest.approx(np.full(4, 9000.0), rel=1e-9)
    assert solution.sweep.heat_w[:, 1] == pytest.approx(solution.fluids.charge_capacity_w_per_k * lost[:, 1], rel=1e-9)
    assert solution.sweep.heat_w[:, 2] == pytest.approx(solution.fluids.coolant_capacity_w_per_k * lost[:, 2], rel=1e-9)
    assert (solution.heat_w == solution.sweep.heat_w[:, 2]).all()


def test_each_node_has_the_flow_mean_of_what_enters_it_at_standstill():
    """T_p1 = (m_g·T_amb + Σ|m_rev|·T_out + lateral)/Σm, T_bay = mean of fan, unshrouded zones and the rest + Q/(m·cp)."""
    layout = pack(shrouded_columns=6)
    conditions = asked(layout, road_speed_m_s=0.0, surface_heat_w=2000.0)
    solution = solve(layout, conditions, tolerance_k=TIGHT)
    mass, node, ranges = solution.flow.mass_kg_s[0], solution.state.node_degc[0], solution.ranges
    zone, leaves = mass[ranges.zones], solution.sweep.zone_exit_degc[0]
    back = (zone < 0.0) & (layout.zone_upstream == PLENUM_IN_JET)
    opening, lateral, leak = float(mass[ranges.openings][0]), float(mass[ranges.lateral]), float(mass[ranges.leak])
    assert zone[zone < 0.0].sum() < -0.01, "standing still, bay air comes forward through the unshrouded zones"
    assert leak < -1e-3, "and through the leak"
    from_beside = max(-lateral, 0.0)
    total = opening - zone[back].sum() + from_beside
    carried = opening * 38.0 - zone[back] @ leaves[back] + from_beside * node[1]
    assert node[PLENUM_IN_JET] == pytest.approx(carried / total, abs=1e-4)
    assert node[PLENUM_IN_JET] > 38.5
    into_bay = (layout.zone_downstream == layout.bay) & (zone > 0.0)
    fan = float(mass[ranges.fans][0])
    entering = fan + zone[into_bay].sum()
    mean = (fan * node[FIRST_CHAMBER] + zone[into_bay] @ leaves[into_bay]) / entering
    assert node[layout.bay] == pytest.approx(mean + 2000.0 / (CP * entering), abs=1e-4)


def test_reversed_zones_take_the_bay_s_air_and_pass_it_on_from_core_to_core():
    layout = pack(shrouded_columns=6)
    solution = solve(layout, asked(layout, road_speed_m_s=0.0), tolerance_k=TIGHT)
    zone = solution.flow.mass_kg_s[0, solution.ranges.zones]
    back = (zone < 0.0) & (layout.zone_downstream == layout.bay)
    assert back.sum() == 48
    before, after = solution.sweep.zone_in_degc[0, back], solution.sweep.zone_out_degc[0, back]
    bay = solution.state.node_degc[0, layout.bay]
    assert before[:, 2] == pytest.approx(np.full(48, bay), abs=1e-4)
    assert (after[:, 2] > bay).all()
    assert before[:, 1] == pytest.approx(after[:, 2], abs=1e-4)
    assert before[:, 0] == pytest.approx(after[:, 1], abs=1e-4)
    assert solution.sweep.zone_exit_degc[0, back] == pytest.approx(after[:, 0], abs=1e-4)


def test_conductances_are_those_of_the_air_s_mean_temperature_in_each_core_and_of_the_tube_fluid_s():
    layout = pack()
    conditions = asked(layout, size=4, road_speed_m_s=SPEEDS)
    solution = solve(layout, conditions, tolerance_k=TIGHT)
    flux = np.abs(solution.flow.mass_kg_s[:, solution.ranges.zones]) / layout.zone_area_m2
    mean = 0.5 * (solution.sweep.zone_in_degc + solution.sweep.zone_out_degc)
    for number, layer in enumerate(layout.layers):
        fouling = COOLANT_FOULING_M2_K_PER_W if layer.duty is LayerDuty.RADIATOR else CLEAN_M2_K_PER_W
        inside = solution.fluids.conductance_w_per_m2_k[:, number, None]
        per_area = conductance_w_per_m2_k(layer.construction, flux, mean[:, :, number], inside, fouling)
        whole = (per_area * layout.zone_area_m2 * layout.zone_hit[:, number]).sum(axis=1)
        assert solution.sweep.conductance_w_per_k[:, number] == pytest.approx(whole, rel=1e-7)
    tubes = 0.5 * (solution.sweep.tube_in_degc + solution.sweep.tube_out_degc)
    again = tube_fluids(layout, conditions, solution.ambient_degc, solution.top_tank_degc, tubes)
    assert solution.fluids.conductance_w_per_m2_k == pytest.approx(again.conductance_w_per_m2_k, rel=1e-6)
    assert solution.fluids.coolant_capacity_w_per_k == pytest.approx(again.coolant_capacity_w_per_k, rel=1e-8)


# The three questions ask for the same state.


def test_heat_top_tank_and_ambient_are_three_ways_to_ask_for_one_state():
    layout = pack()
    top = solve(
        layout,
        asked(layout, size=3, ask=int(Ask.TOP_TANK), road_speed_m_s=SPEEDS[1:], heat_target_w=32e3),
        tolerance_k=TIGHT,
    )
    assert top.converged.all()
    assert top.heat_w == pytest.approx(np.full(3, 32e3), rel=1e-9)
    again = solve(
        layout, asked(layout, size=3, road_speed_m_s=SPEEDS[1:], top_tank_degc=top.top_tank_degc), tolerance_k=TIGHT
    )
    assert again.heat_w == pytest.approx(np.full(3, 32e3), rel=1e-6)
    ambient = solve(
        layout,
        asked(
            layout,
            size=3,
            ask=int(Ask.AMBIENT),
            road_speed_m_s=SPEEDS[1:],
            heat_target_w=32e3,
            charge_reference_degc=38.0,
        ),
        tolerance_k=TIGHT,
    )
    assert ambient.converged.all()
    assert ((ambient.ambient_degc > LOWEST_DEGC) & (ambient.ambient_degc < 107.0)).all()
    there = solve(
        layout,
        asked(layout, size=3, road_speed_m_s=SPEEDS[1:], ambient_degc=ambient.ambient_degc, charge_reference_degc=38.0),
        tolerance_k=TIGHT,
    )
    assert there.heat_w == pytest.approx(np.full(3, 32e3), rel=1e-6)
    assert there.flow.mass_kg_s == pytest.approx(ambient.flow.mass_kg_s, rel=1e-6, abs=1e-8)


def test_the_charge_enters_hotter_on_a_hotter_day():
    """Absolute inlet temperature scales with absolute ambient: 170 °C at 25 °C is (443.15)·311.15/298.15 − 273.15 at 38 °C."""
    layout = pack()
    solution = solve(layout, asked(layout))
    assert solution.fluids.charge_in_degc[0] == pytest.approx(443.15 * 311.15 / 298.15 - 273.15, rel=1e-9)


# What the answer does not depend on.


@pytest.mark.parametrize("left_out", [(0,), (1,), (0, 1)])
def test_cores_that_are_not_present_might_as_well_never_have_been_laid_out(left_out):
    cores = [CONDENSER, CHARGE, RADIATOR]
    present = np.array([[number not in left_out for number in range(3)]]).repeat(4, axis=0)
    full = pack(*cores)
    masked = solve(full, asked(full, size=4, road_speed_m_s=SPEEDS, present=present), tolerance_k=1e-7)
    less = pack(*[core for number, core in enumerate(cores) if number not in left_out])
    alone = solve(less, asked(less, size=4, road_speed_m_s=SPEEDS), tolerance_k=1e-7)
    assert masked.heat_w == pytest.approx(alone.heat_w, rel=1e-7)
    assert masked.flow.mass_kg_s == pytest.approx(alone.flow.mass_kg_s, rel=1e-6, abs=1e-9)
    assert masked.state.node_degc == pytest.approx(alone.state.node_degc, abs=1e-5)
    assert (masked.sweep.heat_w[:, list(left_out)] == 0.0).all()


def _scattered(layout: PackLayout, conditions: object, seed: int) -> State:
    """Return a start that is nowhere near."""
    rng = np.random.default_rng(seed)
    state = cold_state(layout, conditions)

    def anywhere(values: np.ndarray, low: float, high: float) -> np.ndarray:
        return rng.uniform(low, high, values.shape)

    return replace(
        state,
        node_degc=anywhere(state.node_degc, -20.0, 150.0),
        zone_in_degc=anywhere(state.zone_in_degc, -20.0, 150.0),
        zone_out_degc=anywhere(state.zone_out_degc, -20.0, 150.0),
        tube_mean_degc=anywhere(state.tube_mean_degc, 20.0, 120.0),
        reversed_in_degc=anywhere(state.reversed_in_degc, -20.0, 150.0),
        pressure_pa=anywhere(state.pressure_pa, -500.0, 500.0),
    )


@pytest.mark.parametrize("ask", list(Ask))
def test_the_answer_does_not_depend_on_the_start(ask):
    layout = pack()
    conditions = asked(layout, size=4, ask=int(ask), road_speed_m_s=SPEEDS, heat_target_w=25e3)
    cold = solve(layout, conditions, tolerance_k=TIGHT)
    for seed in range(3):
        other = solve(layout, conditions, _scattered(layout, conditions, seed), tolerance_k=TIGHT)
        assert other.converged.all()
        assert other.heat_w == pytest.approx(cold.heat_w, rel=1e-6)
        assert other.top_tank_degc == pytest.approx(cold.top_tank_degc, abs=1e-4)
        assert other.ambient_degc == pytest.approx(cold.ambient_degc, abs=1e-4)
        assert other.state.node_degc == pytest.approx(cold.state.node_degc, abs=1e-4)


def test_a_problem_in_a_batch_is_the_problem_alone():
    layout = pack()
    asks = np.array([int(Ask.HEAT), int(Ask.TOP_TANK), int(Ask.AMBIENT), int(Ask.TOP_TANK)])
    together = solve(
        layout, asked(layout, size=4, ask=asks, road_speed_m_s=SPEEDS, heat_target_w=25e3), tolerance_k=TIGHT
    )
    for row in range(4):
        alone = solve(
            layout, asked(layout, ask=asks[row], road_speed_m_s=SPEEDS[row], heat_target_w=25e3), tolerance_k=TIGHT
        )
        assert alone.heat_w[0] == pytest.approx(together.heat_w[row], rel=1e-7)
        assert alone.top_tank_degc[0] == pytest.approx(together.top_tank_degc[row], abs=1e-5)
        assert alone.ambient_degc[0] == pytest.approx(together.ambient_degc[row], abs=1e-5)
        assert alone.flow.mass_kg_s[0] == pytest.approx(together.flow.mass_kg_s[row], rel=1e-6, abs=1e-8)


def test_the_usual_tolerance_is_good_to_ten_watts():
    layout = pack()
    conditions = asked(layout, size=4, road_speed_m_s=SPEEDS)
    assert solve(layout, conditions).heat_w == pytest.approx(
        solve(layout, conditions, tolerance_k=1e-8).heat_w, abs=10.0
    )


# Standing still, much of the air comes back through a half shrouded pack.


@pytest.mark.parametrize("order", ["CBR", "RCB", "BRC"])
@pytest.mark.parametrize("shrouded", [2, 6])
@pytest.mark.parametrize("ask", [Ask.TOP_TANK, Ask.AMBIENT])
def test_a_pack_that_breathes_its_own_air_settles_in_few_passes(order, shrouded, ask):
    by_letter = {"C": CONDENSER, "B": replace(CHARGE, high=5), "R": RADIATOR}
    layout = plain_pack([by_letter[letter] for letter in order], fan=FAN, shrouded_columns=shrouded, opening_m2=0.05)
    conditions = asked(layout, ask=int(ask), road_speed_m_s=0.0, given_heat_w=0.0, heat_target_w=12e3)
    solution = solve(layout, conditions)
    zone = solution.flow.mass_kg_s[0, solution.ranges.zones]
    assert -zone[zone < 0.0].sum() > 0.1 * zone[zone > 0.0].sum()
    assert solution.converged[0]
    assert solution.passes <= 30
    assert solution.heat_w[0] == pytest.approx(12e3, rel=1e-4)


# Laws, where they are theorems: one chamber that covers all, no leak, no other core, air of one temperature.


def test_with_nothing_heated_more_speed_or_at_standstill_more_fan_never_means_less_air():
    """At speed more fan may mean less air: a driven fan that the road outruns holds the air back more than one that turns freely."""
    layout = plain_pack([RADIATOR], fan=FAN, leak_m2=0.0)
    by_speed = asked(layout, size=12, road_speed_m_s=np.linspace(0.0, 45.0, 12), top_tank_degc=38.0)
    by_fan = asked(layout, size=12, road_speed_m_s=0.0, fan_speed_ratio=np.linspace(0.0, 1.2, 12), top_tank_degc=38.0)
    for conditions in (by_speed, by_fan):
        solution = solve(layout, conditions)
        assert (np.diff(solution.flow.mass_kg_s[:, solution.ranges.exit]) > 0.0).all()
        assert np.abs(solution.heat_w).max() < 1e-6


def test_with_nothing_heated_a_core_ahead_never_means_more_air():
    alone, behind = (plain_pack(cores, fan=FAN, leak_m2=0.0) for cores in ([RADIATOR], [CONDENSER, RADIATOR]))
    flows = [
        solve(
            layout, asked(layout, size=4, road_speed_m_s=SPEEDS, top_tank_degc=38.0, given_heat_w=0.0)
        ).flow.mass_kg_s[:, -1]
        for layout in (alone, behind)
    ]
    assert (flows[1] < flows[0]).all()
