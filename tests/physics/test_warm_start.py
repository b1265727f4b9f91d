"""A pack that differs a little starts from the one just solved: what is carried over, and that the answer does not notice."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.conditions import Ask
from grillestack.physics.fan_curve import derive_fan_curve
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.solve import solve
from grillestack.physics.typical_cores import TypicalCore
from grillestack.physics.warm_start import carry_over
from tests.physics.small_packs import PlainCore, asked, plain_pack

FAN = derive_fan_curve(1.1, 0.4)
CONDENSER = PlainCore(LayerDuty.GIVEN_HEAT, TypicalCore.CONDENSER_16_MM, 0, 8, 0, 6)
CHARGE = PlainCore(LayerDuty.CHARGE_AIR, TypicalCore.BAR_AND_PLATE_64_MM, 1, 7, 0, 3)
RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM, 0, 8, 0, 6)
CONDITIONS = {
    "size": 3,
    "ask": np.array([int(ask) for ask in Ask]),
    "road_speed_m_s": np.array([0.0, 20.0, 30.0]),
    "heat_target_w": 20e3,
}


def pack(*cores: PlainCore, **given: object) -> PackLayout:
    usual = {"columns": 8, "rows": 6, "fan": FAN, "shrouded_columns": 6, "off_jet_columns": 2}
    return plain_pack(list(cores) or [CONDENSER, CHARGE, RADIATOR], **{**usual, **given})


def test_the_same_layout_gets_its_own_state_back_where_each_zone_is_the_only_one_of_its_kind():
    """Zones that meet the same cores between the same nodes are taken for one another; here each kind is a single zone."""
    layout = plain_pack(
        [replace(CONDENSER, right=2, high=1), replace(RADIATOR, right=3, high=1)],
        columns=3,
        rows=1,
        fan=FAN,
        off_jet_columns=1,
    )
    layout = replace(layout, zone_downstream=np.array([2, 3, 3]))
    old = solve(layout, asked(layout, **CONDITIONS)).state
    again = carry_over(layout, old, layout)
    assert again is not None
    for name in (
        "ambient_degc",
        "top_tank_degc",
        "node_degc",
        "zone_in_degc",
        "zone_out_degc",
        "tube_mean_degc",
        "pressure_pa",
    ):
        assert (getattr(again, name) == getattr(old, name)).all()
    # One piece to a zone, so that of the pieces is kept as well.
    assert again.reversed_in_degc == pytest.approx(old.reversed_in_degc, rel=1e-14)


def test_a_zone_of_a_kind_already_known_takes_its_temperatures_and_a_new_kind_the_mean_of_each_layer():
    layout = pack()
    old = solve(layout, asked(layout, **CONDITIONS)).state
    moved = pack(CONDENSER, replace(CHARGE, left=0, right=2, low=4, high=6), replace(RADIATOR, left=1))
    found = carry_over(layout, old, moved)
    assert found is not None
    assert found.zone_in_degc.shape == (3, moved.zone_area_m2.size, 3)

    def key(where: PackLayout, zone: int) -> tuple[object, ...]:
        return (*where.zone_hit[zone].tolist(), int(where.zone_upstream[zone]), int(where.zone_downstream[zone]))

    known = {key(layout, zone) for zone in range(layout.zone_area_m2.size)}
    kinds = [key(moved, zone) in known for zone in range(moved.zone_area_m2.size)]
    assert any(kinds)
    assert not all(kinds)
    for zone, is_known in enumerate(kinds):
        if is_known:
            candidates = [n for n in range(layout.zone_area_m2.size) if key(layout, n) == key(moved, zone)]
            assert any((found.zone_out_degc[:, zone] == old.zone_out_degc[:, n]).all() for n in candidates)
        else:
            assert found.zone_out_degc[:, zone] == pytest.approx(old.zone_out_degc.mean(axis=1), rel=1e-13)


@pytest.mark.parametrize(
    "other",
    [
        pack(CONDENSER, RADIATOR),
        pack(CHARGE, CONDENSER, RADIATOR),
        pack(CONDENSER, CHARGE, replace(RADIATOR, duty=LayerDuty.GIVEN_HEAT)),
        pack(fan=None),
    ],
    ids=["a core less", "another order", "another duty", "no chamber"],
)
def test_nothing_is_carried_to_other_cores_or_other_nodes(other):
    layout = pack()
    state = solve(layout, asked(layout, **CONDITIONS)).state
    assert carry_over(layout, state, other) is None
    assert carry_over(other, solve(other, asked(other, **CONDITIONS)).state, layout) is None


def test_nothing_is_carried_from_a_pack_without_zones():
    nothing = plain_pack([])
    assert carry_over(nothing, solve(nothing, asked(nothing)).state, nothing) is None


CHANGES = {
    "the cooler moves by one cell": [CONDENSER, replace(CHARGE, left=2, right=8), RADIATOR],
    "the cooler moves up": [CONDENSER, replace(CHARGE, low=3, high=6), RADIATOR],
    "another core of the same duty": [CONDENSER, CHARGE, replace(RADIATOR, core=TypicalCore.COPPER_BRASS_52_MM)],
    "the condenser shrinks to a strip": [replace(CONDENSER, right=1), CHARGE, RADIATOR],
    "tubes turn down": [CONDENSER, CHARGE, replace(RADIATOR, down_flow=True)],
}


@pytest.mark.parametrize("cores", list(CHANGES.values()), ids=list(CHANGES))
@pytest.mark.parametrize("shrouded", [6, 3])
def test_the_answer_from_a_warm_start_is_the_answer_from_a_cold_one(cores, shrouded):
    before, after = pack(), pack(*cores, shrouded_columns=shrouded)
    old = solve(before, asked(before, **CONDITIONS), tolerance_k=1e-6).state
    conditions = asked(after, **CONDITIONS)
    start = carry_over(before, old, after)
    assert start is not None
    cold, warm = solve(after, conditions, tolerance_k=1e-6), solve(after, conditions, start, tolerance_k=1e-6)
    assert cold.converged.all()
    assert warm.converged.all()
    assert warm.heat_w == pytest.approx(cold.heat_w, rel=1e-6)
    assert warm.top_tank_degc == pytest.approx(cold.top_tank_degc, abs=1e-4)
    assert warm.ambient_degc == pytest.approx(cold.ambient_degc, abs=1e-4)
    assert warm.flow.mass_kg_s == pytest.approx(cold.flow.mass_kg_s, rel=1e-5, abs=1e-8)


def test_a_small_change_at_speed_takes_fewer_passes_from_a_warm_start_to_what_a_drag_shows():
    before, after = pack(opening_m2=0.2), pack(opening_m2=0.202)
    given = {**CONDITIONS, "road_speed_m_s": np.array([15.0, 20.0, 30.0])}
    start = carry_over(before, solve(before, asked(before, **given)).state, after)
    conditions = asked(after, **given)
    assert solve(after, conditions, start, 0.05).passes < solve(after, conditions, None, 0.05).passes


@pytest.mark.parametrize(
    "before",
    [
        {"ambient_degc": 5.0},
        {"top_tank_degc": 90.0},
        {"heat_target_w": 35e3},
        {"air_pressure_pa": 80e3, "coolant_flow_kg_s": 0.6, "given_heat_w": 0.0},
        {"road_speed_m_s": np.array([30.0, 0.0, 5.0]), "fan_speed_ratio": 0.3},
        {"ask": np.array([int(Ask.AMBIENT), int(Ask.HEAT), int(Ask.TOP_TANK)])},
    ],
    ids=["another day", "another limit", "another heat", "altitude and flows", "another speed", "another question"],
)
def test_a_start_from_other_conditions_leads_to_the_answer_of_these(before):
    """Whatever changed between two trials of the same pack, the second shows its own day and its own limit."""
    layout = pack()
    old = solve(layout, asked(layout, **{**CONDITIONS, **before})).state
    start = carry_over(layout, old, layout)
    assert start is not None
    conditions = asked(layout, **CONDITIONS)
    warm, cold = solve(layout, conditions, start, tolerance_k=1e-6), solve(layout, conditions, tolerance_k=1e-6)
    assert warm.ambient_degc == pytest.approx(cold.ambient_degc, abs=1e-4)
    assert warm.top_tank_degc == pytest.approx(cold.top_tank_degc, abs=1e-4)
    assert warm.heat_w == pytest.approx(cold.heat_w, rel=1e-6)
