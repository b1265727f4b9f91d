"""One sweep of the air through the stack at given flows: what is carried from layer to layer, and what each core's heat is."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.conditions import Ask
from grillestack.physics.heat import HIGHEST_DEGC, Sweep, sweep_layers
from grillestack.physics.layout import FIRST_CHAMBER, LayerDuty, PackLayout, TubePass
from grillestack.physics.tube_fluids import TubeFluids, tube_fluids
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

CONDENSER = PlainCore(LayerDuty.GIVEN_HEAT, TypicalCore.CONDENSER_16_MM, 0, 4, 1, 4)
CHARGE = PlainCore(LayerDuty.CHARGE_AIR, TypicalCore.BAR_AND_PLATE_64_MM, 1, 6, 0, 2)
RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_48_MM, 0, 6, 0, 4)
ONE_ROW = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_26_MM, 0, 6, 0, 4)


def pack(*cores: PlainCore) -> PackLayout:
    return plain_pack(list(cores), columns=6, rows=4)


def swept(
    layout: PackLayout,
    mass_kg_s: np.ndarray | float,
    *,
    node_degc: np.ndarray | float = 35.0,
    rounds: int = 1,
    top_tank_degc: float | None = None,
    **given: object,
) -> tuple[Sweep, TubeFluids]:
    """Return the sweep, repeated so that reversed air arrives, with all properties held at fixed temperatures."""
    conditions = asked(layout, **given)
    size, zones, count = conditions.size, layout.zone_area_m2.size, len(layout.layers)
    fluids = tube_fluids(
        layout, conditions, conditions.ambient_degc, conditions.top_tank_degc, np.full((size, count), 90.0)
    )
    if top_tank_degc is not None:
        fluids = replace(fluids, top_tank_degc=np.full(size, top_tank_degc))
    mass = np.broadcast_to(np.asarray(mass_kg_s, dtype=float), (size, zones))
    nodes = np.broadcast_to(np.asarray(node_degc, dtype=float), (size, layout.nodes))
    back = np.full((count, size, layout.piece_zone.size), 35.0)
    for _ in range(rounds):
        sweep = sweep_layers(layout, conditions, fluids, mass, nodes, np.full((size, zones, count), 60.0), back)
        back = sweep.reversed_in_degc
    return sweep, fluids


def uneven(layout: PackLayout, seed: int = 1) -> np.ndarray:
    return np.random.default_rng(seed).uniform(0.005, 0.03, layout.zone_area_m2.size)


def _air_gain_w(sweep: Sweep, mass: np.ndarray, layer: int) -> float:
    return float((np.abs(mass) * CP * (sweep.zone_out_degc - sweep.zone_in_degc)[0, :, layer]).sum())


@pytest.mark.parametrize("down_flow", [False, True])
def test_each_core_gives_the_air_what_its_tube_fluid_loses(down_flow):
    layout = pack(replace(CONDENSER, down_flow=down_flow), replace(CHARGE, down_flow=down_flow), RADIATOR)
    mass = uneven(layout)
    sweep, fluids = swept(layout, mass)
    for layer in range(3):
        assert sweep.heat_w[0, layer] == pytest.approx(_air_gain_w(sweep, mass, layer), rel=1e-12)
    lost = sweep.tube_in_degc - sweep.tube_out_degc
    assert sweep.heat_w[0, 0] == pytest.approx(9000.0, rel=1e-12)
    assert sweep.heat_w[0, 1] == pytest.approx(fluids.charge_capacity_w_per_k[0] * lost[0, 1], rel=1e-11)
    assert sweep.heat_w[0, 2] == pytest.approx(fluids.coolant_capacity_w_per_k[0] * lost[0, 2], rel=1e-11)
    assert (sweep.heat_w > 1000.0).all()


def test_air_meets_each_core_as_it_left_the_one_ahead_zone_by_zone():
    layout = pack(CONDENSER, CHARGE, RADIATOR)
    sweep, _ = swept(layout, uneven(layout))
    assert (sweep.zone_in_degc[0, :, 0] == 35.0).all()
    for layer in (1, 2):
        assert sweep.zone_in_degc[0, :, layer] == pytest.approx(sweep.zone_out_degc[0, :, layer - 1], rel=1e-14)
        untouched = ~layout.zone_hit[:, layer]
        assert (sweep.zone_in_degc[0, untouched, layer] == sweep.zone_out_degc[0, untouched, layer]).all()
    assert (sweep.zone_exit_degc[0] == sweep.zone_out_degc[0, :, 2]).all()


def test_an_evenly_swept_one_row_radiator_is_the_formula():
    """ε = (1 − exp(−Cr·(1 − e^−NTU)))/Cr with the air the lesser stream [SS2003]; the conductance is the one reported."""
    layout = pack(ONE_ROW)
    sweep, fluids = swept(layout, 0.012)
    air, tube = 24 * 0.012 * CP, float(fluids.coolant_capacity_w_per_k[0])
    ratio, ntu = air / tube, float(sweep.conductance_w_per_k[0, 0]) / air
    expected = -math.expm1(-ratio * -math.expm1(-ntu)) / ratio * air * (107.0 - 35.0)
    assert sweep.heat_w[0, 0] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("passes", "rows"), [(2, (2, 2)), (3, (2, 1, 1))])
def test_passes_side_by_side_multiply_what_each_leaves_over(passes, rows):
    """Shah & Sekulić: 1 − P = Π(1 − P_i), P_i of one row with fresh air and the whole tube flow."""
    layout = pack(ONE_ROW)
    layer = layout.layers[0]
    cuts = np.split(layer.pieces, np.cumsum(rows)[:-1] * 6)
    split = tuple(
        TubePass(pieces=cut, cell_starts=np.arange(cut.size), strip_share=np.full(n, 1.0 / n))
        for cut, n in zip(cuts, rows, strict=True)
    )
    assert len(split) == passes
    sweep, fluids = swept(replace(layout, layers=(replace(layer, passes=split),)), 0.012)
    conductance, tube = float(sweep.conductance_w_per_k[0, 0]), float(fluids.coolant_capacity_w_per_k[0])
    left = 1.0
    for n in rows:
        air = n * 6 * 0.012 * CP
        left *= math.exp(-air / tube * -math.expm1(-conductance * n / 4 / air))
    assert (sweep.tube_out_degc[0, 0] - 35.0) / (107.0 - 35.0) == pytest.approx(left, rel=1e-12)


# The core whose heat is given.


@pytest.mark.parametrize(
    "kind", [TypicalCore.CONDENSER_16_MM, TypicalCore.ALUMINIUM_48_MM, TypicalCore.COPPER_BRASS_70_MM]
)
def test_one_wall_sheds_the_given_heat_over_the_whole_depth(kind):
    """T = (Q + ΣC·e·T_a)/ΣC·e with e = 1 − exp(−UA/C) over the whole depth, however many tube rows."""
    layout = pack(PlainCore(LayerDuty.GIVEN_HEAT, kind, 0, 6, 0, 4), RADIATOR)
    sweep, _ = swept(layout, 0.012)
    air = 24 * 0.012 * CP
    e = -math.expm1(-float(sweep.conductance_w_per_k[0, 0]) / air)
    assert sweep.tube_in_degc[0, 0] == pytest.approx((9000.0 + air * e * 35.0) / (air * e), rel=1e-12)
    assert sweep.heat_w[0, 0] == pytest.approx(9000.0, rel=1e-12)
    assert sweep.zone_out_degc[0, :, 0] == pytest.approx(np.full(24, 35.0 + 9000.0 / air), rel=1e-12)


def test_no_air_passes_the_one_wall_hotter_than_the_wall():
    layout = pack(CONDENSER, RADIATOR)
    mass = uneven(layout)
    sweep, _ = swept(layout, mass)
    hit = layout.zone_hit[:, 0]
    assert (sweep.zone_out_degc[0, hit, 0] < sweep.tube_in_degc[0, 0]).all()
    # Slow air is warmed most.
    order = np.argsort(mass[hit])
    assert (np.diff(sweep.zone_out_degc[0, hit, 0][order]) < 0.0).all()


@pytest.mark.parametrize("ahead", [True, False])
def test_without_load_the_condenser_changes_no_temperature_not_even_between_warm_and_cold_air(ahead):
    """Ahead it meets air of one temperature, behind the cooler for charge air that of many."""
    layout = pack(*((CONDENSER, CHARGE) if ahead else (CHARGE, CONDENSER)), RADIATOR)
    number, mass = 0 if ahead else 1, uneven(layout)
    sweep, _ = swept(layout, mass, given_heat_w=0.0)
    assert (sweep.zone_out_degc[..., number] == sweep.zone_in_degc[..., number]).all()
    assert np.ptp(sweep.zone_in_degc[..., number]) > (-1.0 if ahead else 10.0)
    assert sweep.heat_w[0, number] == 0.0
    without, _ = swept(pack(CHARGE, RADIATOR), mass)
    assert np.delete(sweep.heat_w[0], number) == pytest.approx(without.heat_w[0], rel=1e-13)


def test_without_air_the_wall_is_infinite_and_nothing_behind_it_is_not_a_number():
    layout = pack(CONDENSER, CHARGE, RADIATOR)
    mass = np.where(layout.zone_hit[:, 0], 0.0, 0.012)
    sweep, _ = swept(layout, mass)
    assert np.isposinf(sweep.tube_in_degc[0, 0])
    assert sweep.heat_w[0, 0] == 0.0
    assert np.isfinite(sweep.zone_out_degc).all()
    assert np.isfinite(sweep.zone_exit_degc).all()
    assert np.isfinite(sweep.heat_w).all()
    assert np.isfinite(sweep.tube_out_degc[0, 1:]).all()
    assert sweep.heat_w[0, 2] > 1000.0


# The radiator.


def test_heat_is_affine_in_the_top_tank_temperature_and_nothing_at_that_of_the_air():
    layout = pack(ONE_ROW)
    mass = uneven(layout)
    heat = [float(swept(layout, mass, top_tank_degc=top)[0].heat_w[0, 0]) for top in (35.0, 71.0, 107.0)]
    assert heat[0] == pytest.approx(0.0, abs=1e-8)
    assert heat[1] == pytest.approx(0.5 * heat[2], rel=1e-12)
    cooler = float(swept(layout, mass, node_degc=30.0)[0].heat_w[0, 0])
    assert cooler == pytest.approx(heat[2] * 77.0 / 72.0, rel=1e-12)


def test_the_top_tank_that_sheds_the_target_is_found_in_one_sweep():
    layout = pack(CONDENSER, CHARGE, RADIATOR)
    mass = uneven(layout)
    found, _ = swept(layout, mass, ask=int(Ask.TOP_TANK), heat_target_w=43_210.0)
    assert found.heat_w[0, 2] == pytest.approx(43_210.0, rel=1e-12)
    given, _ = swept(layout, mass, top_tank_degc=float(found.tube_in_degc[0, 2]))
    assert given.heat_w[0, 2] == pytest.approx(43_210.0, rel=1e-11)
    assert given.zone_out_degc == pytest.approx(found.zone_out_degc, rel=1e-11)
    assert given.tube_out_degc[0, 2] == pytest.approx(found.tube_out_degc[0, 2], rel=1e-11)


def test_the_reported_response_is_the_slope_of_heat_over_top_tank_temperature():
    layout = pack(CHARGE, RADIATOR)
    mass = uneven(layout)
    at, above = (float(swept(layout, mass, top_tank_degc=top)[0].heat_w[0, 1]) for top in (107.0, 108.0))
    for ask in (Ask.TOP_TANK, Ask.AMBIENT):
        response = float(swept(layout, mass, ask=int(ask))[0].radiator_response_w_per_k[0])
        assert response == pytest.approx(above - at, rel=1e-9)


def test_without_air_no_top_tank_sheds_the_heat_and_the_search_ends_at_its_bound():
    layout = pack(RADIATOR)
    sweep, _ = swept(layout, 0.0, ask=int(Ask.TOP_TANK))
    assert sweep.tube_in_degc[0, 0] == HIGHEST_DEGC
    assert sweep.heat_w[0, 0] == 0.0
    assert np.isfinite(sweep.zone_exit_degc).all()


# Air that runs forward.


def test_reversed_air_crosses_the_cores_from_the_rear_and_starts_at_its_chamber():
    layout = pack(replace(CONDENSER, left=0, right=6, low=0, high=4), RADIATOR)
    nodes = np.full(layout.nodes, 35.0)
    nodes[layout.bay] = 62.0
    sweep, _ = swept(layout, -0.012, node_degc=nodes, rounds=3)
    assert (sweep.zone_in_degc[0, :, 1] == 62.0).all()
    assert sweep.zone_in_degc[0, :, 0] == pytest.approx(sweep.zone_out_degc[0, :, 1], rel=1e-14)
    assert sweep.zone_exit_degc[0] == pytest.approx(sweep.zone_out_degc[0, :, 0], rel=1e-14)
    assert sweep.heat_w[0, 0] == pytest.approx(9000.0, rel=1e-12)
    assert (sweep.zone_exit_degc > sweep.zone_in_degc[..., 0]).all()


def test_reversed_air_through_one_core_is_forward_air_of_the_same_temperature():
    layout = pack(ONE_ROW)
    mass = uneven(layout)
    nodes = np.full(layout.nodes, 20.0)
    nodes[layout.bay] = 35.0
    back, _ = swept(layout, -mass, node_degc=nodes, rounds=2)
    ahead, _ = swept(layout, mass)
    assert back.heat_w == pytest.approx(ahead.heat_w, rel=1e-13)
    assert back.zone_exit_degc == pytest.approx(ahead.zone_exit_degc, rel=1e-13)


def test_energy_is_kept_where_some_zones_run_back():
    layout = pack(CONDENSER, CHARGE, RADIATOR)
    mass = uneven(layout) * np.where(np.arange(24) % 3 == 0, -1.0, 1.0)
    nodes = np.full(layout.nodes, 35.0)
    nodes[FIRST_CHAMBER:] = 70.0
    sweep, fluids = swept(layout, mass, node_degc=nodes, rounds=40)
    entered = np.where(mass > 0.0, 35.0, 70.0)
    gained = float((np.abs(mass) * CP * (sweep.zone_exit_degc[0] - entered)).sum())
    assert gained == pytest.approx(float(sweep.heat_w.sum()), rel=1e-9)
    lost = (sweep.tube_in_degc - sweep.tube_out_degc)[0]
    assert sweep.heat_w[0, 1] == pytest.approx(float(fluids.charge_capacity_w_per_k[0]) * lost[1], rel=1e-11)
    assert sweep.heat_w[0, 2] == pytest.approx(float(fluids.coolant_capacity_w_per_k[0]) * lost[2], rel=1e-11)


# How a zone's exit follows its inlet, absent cores, tilt, multipliers.


@pytest.mark.parametrize("flow", [0.001, 0.05, 1.0])
def test_what_is_left_of_an_inlet_difference_is_what_the_exit_shows_when_all_inlets_rise(flow):
    """Even tubes of one pass: the kept share is the rise of the exits over that of the inlets, as found by warming them all."""
    layout = pack(RADIATOR)
    cold, _ = swept(layout, 0.012, coolant_flow_kg_s=flow)
    warm, _ = swept(layout, 0.012, coolant_flow_kg_s=flow, node_degc=np.full(layout.nodes, 36.0))
    rise = float((warm.zone_exit_degc - cold.zone_exit_degc).mean())
    assert float(cold.zone_kept_frac.mean()) == pytest.approx(rise, abs=2e-3)


def test_where_the_heat_is_given_the_exit_follows_the_inlet_one_to_one():
    """The wall, or the tank, follows as well."""
    layout = pack(RADIATOR)
    given, _ = swept(layout, 0.012, ask=int(Ask.TOP_TANK))
    assert (given.zone_kept_frac == 1.0).all()
    condenser, _ = swept(pack(CONDENSER), 0.012)
    assert (condenser.zone_kept_frac == 1.0).all()


def test_a_core_that_is_not_there_changes_no_air():
    layout = pack(CONDENSER, CHARGE, RADIATOR)
    mass = uneven(layout)
    sweep, _ = swept(layout, mass, present=np.array([[False, False, True]]))
    alone, _ = swept(pack(RADIATOR), mass)
    assert (sweep.zone_out_degc[..., :2] == 35.0).all()
    assert (sweep.heat_w[0, :2] == 0.0).all()
    assert sweep.heat_w[0, 2] == pytest.approx(alone.heat_w[0, 0], rel=1e-13)


def test_a_tilted_core_works_with_its_true_face():
    """A core tilted by 25° shows cos 25° of its face: it is the upright core whose zones are larger by 1/cos 25°."""
    layout = pack(RADIATOR)
    more = 1.0 / math.cos(math.radians(25.0))
    tilted = replace(layout, layers=(replace(layout.layers[0], area_factor=more),))
    larger = replace(layout, zone_area_m2=layout.zone_area_m2 * more)
    mass = uneven(layout)
    assert swept(tilted, mass)[0].heat_w == pytest.approx(swept(larger, mass)[0].heat_w, rel=1e-13)


def test_the_multiplier_of_a_core_s_heat_goes_on_its_conductance():
    layout = pack(RADIATOR)
    plain, _ = swept(layout, 0.012)
    more, _ = swept(layout, 0.012, heat_factor=np.array([[1.1]]))
    assert more.conductance_w_per_k == pytest.approx(1.1 * plain.conductance_w_per_k, rel=1e-12)


def test_zones_cut_into_pieces_carry_the_same_heat_as_whole_ones():
    """One row: a zone of two half pieces in two cells is the zone of one piece, its mean taken over both."""
    whole = pack(ONE_ROW)
    cells = np.arange(24).reshape(4, 6)
    halves = np.repeat(cells, 2, axis=1)
    layer = replace(
        whole.layers[0],
        pieces=np.arange(48),
        passes=(TubePass(pieces=np.arange(48), cell_starts=np.arange(48), strip_share=np.full(4, 0.25)),),
    )
    cut = replace(whole, layers=(layer,), piece_zone=halves.ravel(), piece_share=np.full(48, 0.5))
    mass = uneven(whole)
    one, two = swept(whole, mass)[0], swept(cut, mass)[0]
    assert two.heat_w == pytest.approx(one.heat_w, rel=1e-12)
    assert two.zone_out_degc == pytest.approx(one.zone_out_degc, rel=1e-12)
