"""Ports are set against the axes of other ports, and against the engine's connections."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.app.canvas.gestures.port_lines import port_lines, ports_along
from grillestack.app.canvas.gestures.snap import Axis
from grillestack.model.edits import replace_part, set_engine
from grillestack.model.engine import ConnectionPurpose, EngineConnection, EngineSide


def test_lines_run_through_the_ports_of_what_stays(project):
    found = {line.words: line.at_mm for line in port_lines(project, ("cac-1",), (Axis.Y, Axis.Z))}
    # The radiator's inlet faces rear at 325 to the right and 180 over its centre at 700.
    assert found["in line with radiator inlet"] == 325
    assert found["level with radiator inlet"] == 880
    # The vent points up: its axis lies on no one height.
    assert "level with radiator vent" not in found
    assert not any("CAC" in words for words in found)


def test_a_port_that_points_sideways_has_a_height_and_no_place_across(project):
    cac = project.part("cac-1")
    assert ports_along((cac,), Axis.Z) == (690, 690)
    assert ports_along((cac,), Axis.Y) == ()


def test_hidden_parts_offer_no_lines(project):
    hidden = replace_part(project, replace(project.part("radiator-1"), hidden=True))
    assert not any("radiator" in line.words for line in port_lines(hidden, (), (Axis.Z,)))


def test_a_dragged_port_comes_level_with_the_engines_connection(front, hand, session):
    place = EngineConnection(purpose=ConnectionPurpose.CHARGE_IN, side=EngineSide.RIGHT, z_mm=730.0)
    session.apply("engine", set_engine(session.project, replace(session.project.engine, connections=(place,))))
    session.select(["cac-1"])
    off = 2 / front.heights.px_per_mm
    # The CAC's ports stand at 690: 40 mm up to go.
    hand.press(330, 600)
    hand.move(334, 610)
    hand.move(343, 640 + off)
    assert "level with engine intake of the engine" in [line.words for line in front.marks.snaps]
    assert not front.grab().isNull()
    hand.release(343, 640 + off)
    assert session.project.part("cac-1").placement.z_mm == pytest.approx(670)
