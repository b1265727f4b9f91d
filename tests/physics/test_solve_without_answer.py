"""Packs and conditions without an answer: finite numbers, bounds kept, and nothing called settled that is not."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.conditions import Ask
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC
from grillestack.physics.layout import PackLayout
from grillestack.physics.solve import solve
from tests.physics.balances import (
    heat_carried_out_w,
    heat_gained_w,
    is_finite_but_for_walls,
    worst_imbalance_kg_s,
)
from tests.physics.small_packs import asked, plain_pack
from tests.physics.test_solve import CONDENSER, FAN, RADIATOR, SPEEDS, pack


def _shut(layout: PackLayout) -> PackLayout:
    blocked = layout.zone_blocked_by.copy()
    blocked[:, -1] = True
    return replace(layout, zone_blocked_by=blocked)


@pytest.mark.parametrize("ask", list(Ask))
def test_without_air_all_is_finite_the_heat_is_nothing_and_the_unknown_stands_at_its_bound(ask):
    layout = _shut(pack())
    conditions = asked(layout, size=4, ask=int(ask), road_speed_m_s=SPEEDS)
    solution = solve(layout, conditions)
    assert is_finite_but_for_walls(solution, layout)
    assert not solution.heat_w.any()
    assert not solution.flow.mass_kg_s[:, solution.ranges.zones].any()
    assert np.isposinf(solution.sweep.tube_in_degc[:, 0]).all()
    if ask is Ask.TOP_TANK:
        assert (solution.top_tank_degc == HIGHEST_DEGC).all()
    if ask is Ask.AMBIENT:
        assert (solution.ambient_degc == LOWEST_DEGC).all()


def test_standing_still_with_the_fan_off_nothing_moves_and_nothing_is_shed():
    layout = pack()
    solution = solve(layout, asked(layout, road_speed_m_s=0.0, fan_speed_ratio=0.0))
    assert np.abs(solution.flow.mass_kg_s).max() < 1e-9
    assert is_finite_but_for_walls(solution, layout)
    assert abs(solution.heat_w[0]) < 1e-3


@pytest.mark.parametrize("what", ["coolant_flow_kg_s", "charge_flow_kg_s"])
@pytest.mark.parametrize("ask", list(Ask))
def test_without_tube_flow_that_core_sheds_next_to_nothing_and_all_is_finite(what, ask):
    layout = pack()
    conditions = asked(layout, ask=int(ask), **{what: 0.0})
    solution = solve(layout, conditions)
    assert is_finite_but_for_walls(solution, layout)
    number = {"coolant_flow_kg_s": 2, "charge_flow_kg_s": 1}[what]
    assert abs(solution.sweep.heat_w[0, number]) < 1e-3
    if what == "coolant_flow_kg_s" and ask is Ask.AMBIENT:
        assert solution.ambient_degc[0] == LOWEST_DEGC
    if what == "charge_flow_kg_s" and ask is not Ask.HEAT:
        assert solution.heat_w[0] == pytest.approx(50e3, rel=1e-5)


def test_without_openings_the_fan_only_stirs_and_all_is_finite():
    layout = replace(pack(), opening_area_m2=np.zeros(0), opening_loss=np.zeros(0))
    solution = solve(layout, asked(layout, size=4, road_speed_m_s=SPEEDS))
    assert is_finite_but_for_walls(solution, layout)
    assert worst_imbalance_kg_s(layout, solution) <= 1e-9


def test_a_pack_of_nothing_is_solved_too():
    layout = plain_pack([])
    solution = solve(layout, asked(layout, size=2))
    assert solution.converged.all()
    assert not solution.heat_w.any()


def test_the_ambient_found_never_leaves_its_bounds():
    layout = pack()
    for target in (0.0, 1e3, 60e3, 1e7):
        solution = solve(
            layout, asked(layout, size=4, ask=int(Ask.AMBIENT), road_speed_m_s=SPEEDS, heat_target_w=target)
        )
        assert ((solution.ambient_degc >= LOWEST_DEGC) & (solution.ambient_degc <= 107.0)).all()
    assert (solution.ambient_degc == LOWEST_DEGC).all()
    assert (solution.heat_w < 1e6).all()


@pytest.mark.parametrize("heat_w", [1e5, 1e6, 1e8])
def test_heat_beyond_all_sense_is_finite_and_no_state_is_called_settled_that_loses_heat(heat_w):
    layout = pack()
    for given in (
        {"given_heat_w": heat_w},
        {"surface_heat_w": heat_w},
        {"ask": int(Ask.TOP_TANK), "heat_target_w": heat_w},
    ):
        conditions = asked(layout, size=4, road_speed_m_s=SPEEDS, **given)
        solution = solve(layout, conditions)
        assert is_finite_but_for_walls(solution, layout)
        for row in np.flatnonzero(solution.converged):
            assert heat_carried_out_w(layout, solution, row) == pytest.approx(
                heat_gained_w(solution, conditions, row), rel=1e-3
            )


def test_one_core_in_dead_air_does_not_keep_the_rest_from_an_answer():
    """A condenser beside the jet, behind a gap of 1 cm²: its air grows absurdly hot, the radiator's answer stands."""
    beside = replace(CONDENSER, left=11, right=12)
    layout = plain_pack([beside, RADIATOR], fan=FAN, off_jet_columns=1, lateral_m2=1e-4, leak_m2=0.0)
    conditions = asked(layout, ask=int(Ask.TOP_TANK), road_speed_m_s=20.0)
    solution = solve(layout, conditions)
    assert solution.sweep.zone_out_degc.max() > HIGHEST_DEGC
    assert solution.converged[0]
    assert solution.heat_w[0] == pytest.approx(50e3, rel=1e-6)
    assert heat_carried_out_w(layout, solution, 0) == pytest.approx(heat_gained_w(solution, conditions, 0), rel=1e-4)
