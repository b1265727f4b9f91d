"""A core by itself: its heat, and the conductance that a heat asks for."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K, STANDARD_PRESSURE_PA, density_kg_m3
from grillestack.physics.air_side import AirSide
from grillestack.physics.core_alone import Bench, conductance_from_heat, exchanged_w, heat_alone_w
from grillestack.physics.layout import LayerDuty
from grillestack.physics.overall import conductance_w_per_m2_k
from grillestack.physics.solve import solve
from grillestack.physics.tube_fluids import tube_fouling_m2_k_per_w
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.benches import BENCHES, CHARGE, CONDENSER, DEEP, RADIATOR, bench, finer
from tests.physics.small_packs import PlainCore, asked, plain_pack


@pytest.mark.parametrize(("layer", "at"), BENCHES.values(), ids=BENCHES)
def test_the_heat_of_fins_and_tubes_asks_for_their_own_conductance(layer, at):
    found = conductance_from_heat(layer, at, heat_alone_w(layer, at))
    fins = conductance_w_per_m2_k(
        layer.construction,
        at.flux_kg_s_m2,
        found.air_mean_degc,
        found.tube_conductance_w_per_m2_k,
        tube_fouling_m2_k_per_w(layer),
    )
    assert found.conductance_w_per_m2_k == pytest.approx(fins, rel=1e-9)


@pytest.mark.parametrize(("layer", "at"), BENCHES.values(), ids=BENCHES)
def test_the_conductance_found_gives_off_just_the_heat_asked_for(layer, at):
    wanted = 0.8 * heat_alone_w(layer, at)
    found = conductance_from_heat(layer, at, wanted)
    heat_capacity = 1006.0 + 0.1 * (found.tube_mean_degc - 25.0)
    if layer.duty is LayerDuty.RADIATOR:
        heat_capacity = at.coolant.heat_capacity_j_per_kg_k(found.tube_mean_degc)
    given_off = exchanged_w(layer, at, at.tube_flow_kg_s * heat_capacity, found.conductance_w_per_m2_k)
    assert given_off == pytest.approx(wanted, rel=1e-9)


def test_mean_temperatures_are_half_way_between_in_and_out():
    """By hand: 30 kW from 1.7 kg/s of coolant at 85 °C into 5 m/s of air at 25 °C, heat capacity 3.58 kJ/(kg·K) or so."""
    at = bench(5.0)
    found = conductance_from_heat(RADIATOR, at, np.array([30_000.0]))
    air_kg_s = float(at.flux_kg_s_m2[0]) * 0.7 * 0.46
    assert found.air_mean_degc == pytest.approx([25.0 + 15_000.0 / (1006.0 * air_kg_s)])
    heat_capacity = float(at.coolant.heat_capacity_j_per_kg_k(found.tube_mean_degc[0]))
    assert heat_capacity == pytest.approx(3580.0, rel=0.02)
    assert found.tube_mean_degc == pytest.approx([85.0 - 15_000.0 / (1.7 * heat_capacity)])


def test_a_wall_at_one_temperature_is_the_textbook_exponential():
    """By hand: Q = C·(1 − exp(−UA/C))·ΔT [INCROPERA]."""
    at = bench(4.0, difference_k=30.0)
    capacity = float(at.flux_kg_s_m2[0]) * 0.7 * 0.46 * AIR_HEAT_CAPACITY_J_PER_KG_K
    heat = capacity * (1.0 - math.exp(-3000.0 * 0.7 * 0.46 / capacity)) * 30.0
    assert exchanged_w(CONDENSER, at, np.full(1, np.inf), np.full(1, 3000.0)) == pytest.approx([heat])
    assert conductance_from_heat(CONDENSER, at, np.array([heat])).conductance_w_per_m2_k == pytest.approx([3000.0])


@pytest.mark.parametrize(("layer", "at"), BENCHES.values(), ids=BENCHES)
def test_no_conductance_gives_off_more_than_the_colder_stream_can_take(layer, at):
    """Law: at most C_min·ΔT goes over; what lies above what this core could exchange is answered by infinity."""
    found = conductance_from_heat(layer, at, heat_alone_w(layer, at))
    air_capacity = at.flux_kg_s_m2 * 0.7 * 0.46 * AIR_HEAT_CAPACITY_J_PER_KG_K
    assert np.all(found.limit_w <= air_capacity * (at.tube_in_degc - at.air_in_degc) * (1.0 + 1e-9))
    above = conductance_from_heat(layer, at, found.limit_w * 1.001)
    assert np.all(np.isinf(above.conductance_w_per_m2_k))
    near = conductance_from_heat(layer, at, found.limit_w * 0.9)
    assert np.all(np.isfinite(near.conductance_w_per_m2_k))


def test_the_cells_of_the_bench_are_fine_enough():
    """One row is exact in any number of cells; rows in depth converge with the square of their number [SS2003]."""
    one_row = np.array([float(heat_alone_w(finer(RADIATOR, steps), bench(5.0))[0]) for steps in (1, 24, 240)])
    assert one_row == pytest.approx(one_row[-1], rel=1e-12)
    for layer, at in (
        (dataclasses.replace(DEEP, tube_count=2 * DEEP.tube_count), bench(5.0)),
        (CHARGE, BENCHES["charge-air cooler"][1]),
    ):
        coarse, fine = heat_alone_w(finer(layer, 24), at), heat_alone_w(finer(layer, 240), at)
        assert coarse == pytest.approx(fine, rel=1e-4)


@pytest.mark.parametrize(
    ("duty", "core"),
    [(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM), (LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_56_MM)],
)
def test_a_core_in_a_plain_pack_sheds_what_it_sheds_by_itself(duty, core):
    """The whole solver: same inlets, other cells (0.06 m against 24), air even but for what the warmer cells let by less."""
    layout = plain_pack([PlainCore(duty, core, 0, 12, 0, 8)], leak_m2=0.0)
    conditions = asked(layout)
    solution = solve(layout, conditions, tolerance_k=1e-9)
    through = solution.flow.mass_kg_s[0, solution.ranges.zones]
    assert through == pytest.approx(through.mean(), rel=1e-2)
    one = np.ones(1)
    at = Bench(
        flux_kg_s_m2=one * through.mean() / 0.06**2,
        air_in_degc=one * 38.0,
        tube_in_degc=one * 107.0,
        tube_flow_kg_s=one * 1.7,
        coolant=conditions.coolant,
    )
    layer = finer(layout.layers[0], 24)
    assert float(heat_alone_w(layer, at)[0]) == pytest.approx(float(solution.heat_w[0]), rel=5e-4)


def test_what_is_measured_of_a_core_acts_on_its_heat():
    at = bench(5.0)
    plain = float(heat_alone_w(RADIATOR, at)[0])
    better = dataclasses.replace(RADIATOR, air_side=AirSide(conductance_factor=1.2))
    worse = dataclasses.replace(RADIATOR, air_side=AirSide(flux_kg_s_m2=(1.0,), resistance_factor=(1.5,)))
    assert float(heat_alone_w(worse, at)[0]) < plain < float(heat_alone_w(better, at)[0])
    found = conductance_from_heat(better, at, heat_alone_w(better, at))
    same_as = conductance_from_heat(RADIATOR, at, heat_alone_w(better, at))
    assert found.conductance_w_per_m2_k == pytest.approx(same_as.conductance_w_per_m2_k)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(sorted(BENCHES)),
    st.floats(0.4, 14.0),
    st.floats(0.02, 0.9),
    st.floats(1.01, 1.1),
)
def test_more_heat_asks_for_more_conductance(name, velocity, share, more):
    layer, at = BENCHES[name]
    at = dataclasses.replace(
        bench(velocity),
        tube_in_degc=at.tube_in_degc[:1],
        tube_flow_kg_s=at.tube_flow_kg_s[:1],
    )
    limit = conductance_from_heat(layer, at, np.array([1.0])).limit_w
    low, high = (
        conductance_from_heat(layer, at, limit * part).conductance_w_per_m2_k for part in (share, share * more)
    )
    assert 0.0 < float(low[0]) < float(high[0])


def test_air_density_of_the_bench_is_that_of_25_degrees():
    """From memory: 1.184 kg/m³ at 25 °C and 1 atm."""
    assert float(density_kg_m3(25.0, STANDARD_PRESSURE_PA)) == pytest.approx(1.184, abs=1e-3)
