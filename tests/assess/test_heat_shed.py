"""What the pack sheds as the coolant warms."""

from __future__ import annotations

import dataclasses
import itertools

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import LARGEST_CELL_MM, assess, further_heat_w
from grillestack.assess.defaults import environment_value
from grillestack.assess.heat_shed import heat_shed
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import Problem, conditions_of
from grillestack.geometry.overlay import build_overlay
from grillestack.model.engine import usual_duty_cases
from grillestack.model.project import cores
from grillestack.physics.conditions import Ask
from grillestack.physics.solve import solve
from tests.assess import packs

PACK = packs.half_height_pack(*usual_duty_cases())


def test_the_steady_temperature_is_that_of_the_assessment_and_a_corner_if_the_thermostat_is_open():
    for case, asked, shed in zip(
        assess(PACK).cases, asked_cases(PACK), heat_shed(PACK, asked_cases(PACK)), strict=True
    ):
        assert shed.steady_degc == pytest.approx(case.top_tank_degc, abs=1e-3)
        if shed.steady_degc > 88.0:
            assert shed.corner_heat_w[shed.corner_degc.index(shed.steady_degc)] == asked.heat_target_w
        else:
            assert shed.corner_heat_w[0] > asked.heat_target_w


def test_the_line_begins_at_the_thermostat_passes_the_limit_and_rises_throughout():
    sheet = replace(packs.SHEET, thermostat_degc=82.0)
    pack = packs.half_height_pack(*usual_duty_cases(), sheet=sheet)
    for shed in heat_shed(pack, asked_cases(pack)):
        assert shed.corner_degc[0] == 82.0
        assert shed.corner_degc[-1] == pytest.approx(107.2 + 15.0)
        assert all(low < high for low, high in itertools.pairwise(shed.corner_degc))
        assert all(low < high for low, high in itertools.pairwise(shed.corner_heat_w))


def test_between_the_corners_the_line_meets_the_solver_within_half_a_per_cent():
    stack, asked = cores(PACK), asked_cases(PACK)
    overlay = build_overlay(PACK, environment_value(PACK.environment, "jet_spread_deg"), LARGEST_CELL_MM)
    layout = lay_out(PACK, overlay, stack).layout
    for one, shed in zip(asked, heat_shed(PACK, asked), strict=True):
        between = [0.5 * (low + high) for low, high in itertools.pairwise(shed.corner_degc)]
        problems = [Problem(dataclasses.replace(one, top_tank_limit_degc=at), Ask.HEAT) for at in between]
        heat = solve(layout, conditions_of(PACK, layout, problems, further_heat_w(stack))).heat_w
        assert np.interp(between, shed.corner_degc, shed.corner_heat_w) == pytest.approx(heat, rel=5e-3)


def test_without_air_nothing_is_shed_and_nowhere_is_steady():
    still = packs.half_height_pack(packs.warm_day(road_speed_m_s=0.0, fans_on=False))
    (shed,) = heat_shed(still, asked_cases(still))
    assert shed.steady_degc is None
    assert max(shed.corner_heat_w) < 1.0
