"""Ports against the engine: sides, what pipes turn, and the angle at which an elbow may be clocked."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from grillestack.fit.pipes import clock_step, port_match, side_of
from grillestack.model.engine import ConnectionPurpose, EngineConnection, EngineSheet, EngineSide
from grillestack.model.parts import Placement
from tests.fit.packs import a_cooler

COOLER = a_cooler("cooler", 500.0, 200.0)  # its ports stand at ∓300, 32 mm behind the front face


def engine(*connections: EngineConnection) -> EngineSheet:
    return EngineSheet(connections=connections)


def outlet(**fields) -> EngineConnection:
    return EngineConnection(**{"purpose": ConnectionPurpose.CHARGE_OUT, "side": EngineSide.LEFT, **fields})


def test_an_engine_without_connections_matches_nothing():
    assert port_match(COOLER, EngineSheet()) is None


@pytest.mark.parametrize(("side", "count"), [(EngineSide.LEFT, 1), (EngineSide.RIGHT, 0), (EngineSide.MIDDLE, 1)])
def test_a_port_counts_on_the_engines_side(side, count):
    # the compressor's outlet feeds the inlet, which stands at the vehicle's left
    match = port_match(COOLER, engine(outlet(side=side)))
    assert (match.on_side_count, match.of_count, match.bend_deg, match.pipe_mm) == (count, 1, None, None)


def test_a_flip_brings_the_inlet_to_the_other_side():
    flipped = replace(COOLER, placement=Placement(flipped=True))
    assert port_match(flipped, engine(outlet())).on_side_count == 0


def test_a_pipe_that_goes_straight_on_turns_by_nothing():
    # the inlet points to the left; the engine's outlet stands 400 further left at the same height and depth, clocked to
    # the right (270° from up, clockwise as seen from ahead, is the vehicle's right)
    straight = outlet(x_mm=32.0, y_mm=-700.0, z_mm=0.0, clock_angles_deg=(0.0, 270.0))
    match = port_match(COOLER, engine(straight))
    assert match.bend_deg == pytest.approx(0.0, abs=1e-5)
    assert match.pipe_mm == pytest.approx(400.0)


def test_an_elbow_that_cannot_be_clocked_that_way_costs_its_turn():
    up_only = outlet(x_mm=32.0, y_mm=-700.0, z_mm=0.0, clock_angles_deg=(0.0,))
    assert port_match(COOLER, engine(up_only)).bend_deg == pytest.approx(90.0)


def test_a_pipe_to_the_rear_turns_by_a_right_angle():
    behind = outlet(x_mm=832.0, y_mm=-300.0, z_mm=0.0)
    match = port_match(COOLER, engine(behind))
    assert match.bend_deg == pytest.approx(90.0)
    assert match.pipe_mm == pytest.approx(800.0)


def test_both_pipes_are_added():
    inlet = EngineConnection(
        purpose=ConnectionPurpose.CHARGE_IN, side=EngineSide.RIGHT, x_mm=432.0, y_mm=600.0, z_mm=0.0
    )
    match = port_match(COOLER, engine(outlet(x_mm=832.0, y_mm=-300.0, z_mm=0.0), inlet))
    assert (match.on_side_count, match.of_count) == (2, 2)
    assert match.pipe_mm == pytest.approx(800 + 500)
    assert match.bend_deg == pytest.approx(90 + math.degrees(math.atan2(400, 300)))


@pytest.mark.parametrize(("clock_deg", "step"), [(0, (0, 0, 1)), (90, (0, -1, 0)), (180, (0, 0, -1)), (270, (0, 1, 0))])
def test_clock_angles_run_clockwise_as_seen_from_ahead(clock_deg, step):
    assert clock_step(clock_deg) == pytest.approx(step, abs=1e-12)


def test_near_the_centre_line_is_neither_side():
    assert [side_of(y) for y in (-61.0, -60.0, 0.0, 61.0)] == [
        EngineSide.LEFT,
        EngineSide.MIDDLE,
        EngineSide.MIDDLE,
        EngineSide.RIGHT,
    ]
