"""Heat that cannot leave is seen early, and never where there is an answer."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.conditions import Ask
from grillestack.physics.heat import HIGHEST_DEGC
from grillestack.physics.solve import solve
from tests.physics.small_packs import asked, plain_pack
from tests.physics.test_solve import FAN, RADIATOR, SPEEDS, pack


def _stirring():
    """Return a radiator half under its shroud with a fan, and no way to outside air but the engine bay's far end."""
    layout = plain_pack([RADIATOR], fan=FAN, shrouded_columns=6)
    return replace(layout, opening_area_m2=np.zeros(0), opening_loss=np.zeros(0))


@pytest.mark.parametrize("ask", [Ask.TOP_TANK, Ask.AMBIENT])
def test_air_that_only_goes_round_carries_no_target_away_and_few_passes_show_it(ask):
    layout = _stirring()
    solution = solve(layout, asked(layout, ask=int(ask), road_speed_m_s=0.0))
    assert np.abs(solution.flow.mass_kg_s[0, solution.ranges.fans]).max() > 0.1
    assert solution.hopeless.all()
    assert not solution.converged.any()
    assert solution.passes <= 12


def test_the_same_pack_with_its_opening_has_an_answer():
    layout = plain_pack([RADIATOR], fan=FAN, shrouded_columns=6)
    solution = solve(layout, asked(layout, ask=int(Ask.TOP_TANK), road_speed_m_s=0.0, heat_target_w=10e3))
    assert solution.converged.all()
    assert not solution.hopeless.any()


def test_round_and_round_the_radiator_warms_the_air_to_its_own_temperature_and_that_is_an_answer():
    """Asked for the heat at a given top tank temperature: none, once the air is as warm as the coolant."""
    layout = _stirring()
    solution = solve(layout, asked(layout, ask=int(Ask.HEAT), road_speed_m_s=0.0))
    assert not solution.hopeless.any()
    assert solution.converged.all()
    assert abs(solution.heat_w[0]) < 100.0


@pytest.mark.parametrize("ask", [Ask.TOP_TANK, Ask.AMBIENT])
def test_heat_beyond_what_all_the_outside_air_could_carry_stops_early(ask):
    layout = pack()
    conditions = asked(layout, size=4, ask=int(ask), road_speed_m_s=SPEEDS, heat_target_w=1e8)
    solution = solve(layout, conditions)
    assert not (solution.converged & (solution.state.node_degc.max(axis=1) >= HIGHEST_DEGC)).any()
    assert solution.passes <= 40


def test_a_hopeless_problem_does_not_keep_its_neighbour_from_an_answer():
    layout = pack()
    conditions = asked(
        layout,
        size=2,
        ask=int(Ask.TOP_TANK),
        road_speed_m_s=np.array([25.0, 25.0]),
        heat_target_w=np.array([1e8, 40e3]),
    )
    solution = solve(layout, conditions)
    alone = solve(layout, asked(layout, ask=int(Ask.TOP_TANK), road_speed_m_s=25.0, heat_target_w=40e3))
    assert not solution.converged[0] or solution.top_tank_degc[0] >= HIGHEST_DEGC
    assert solution.converged[1]
    assert solution.top_tank_degc[1] == pytest.approx(alone.top_tank_degc[0], abs=1e-2)
