"""Measuring between edges and corners by real clicks, drags and keys; nothing of it is left in the project."""

from __future__ import annotations

import math

import pytest
from PySide6.QtCore import QEvent, Qt

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.measure import MeasureTool
from grillestack.app.canvas.gestures.measure_targets import front_targets, side_targets
from grillestack.geometry.projection import project_part
from grillestack.units.display import UnitSystem

NO_KEYS = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def measuring(front, session):
    """The front view with a measuring hand."""
    front.take_tool(MeasureTool(session, front_targets, front.across_sign))
    return front


def hover(hand, y, z, held=NO_KEYS):
    hand.send(QEvent.Type.MouseMove, hand.px(y, z), Qt.MouseButton.NoButton, held)


def outline(session, part_id):
    return project_part(session.project.part(part_id)).outline_box


def facts(view):
    return {fact.words: fact.now_text for fact in view.tool.marks.facts}


def test_two_clicks_near_corners_measure_between_the_corners_themselves(measuring, hand, session):
    radiator, cooler = outline(session, "radiator-1"), outline(session, "cac-1")
    hover(hand, radiator.y0_mm + 3, radiator.z1_mm - 3)
    hand.click(radiator.y0_mm + 3, radiator.z1_mm - 3)
    hover(hand, cooler.y1_mm - 2, cooler.z0_mm + 4)
    hand.click(cooler.y1_mm - 2, cooler.z0_mm + 4)
    start, end = measuring.tool.measured
    assert start.at_mm == (radiator.y0_mm, radiator.z1_mm)
    assert start.words == "corner of the radiator"
    assert end.at_mm == (cooler.y1_mm, cooler.z0_mm)
    across, up = cooler.y1_mm - radiator.y0_mm, radiator.z1_mm - cooler.z0_mm
    assert facts(measuring)["across"] == f"{across:g} mm"
    assert facts(measuring)["up or down"] == f"{up:g} mm"
    assert measuring.tool.marks.moved_text == f"{math.hypot(across, up):.1f} mm"
    assert facts(measuring)["to"] == "corner of the CAC"
    measuring.grab()


def test_one_drag_measures_too_and_a_third_press_begins_anew(measuring, hand, session):
    radiator = outline(session, "radiator-1")
    hand.drag((radiator.y0_mm, radiator.z0_mm), (radiator.y1_mm, radiator.z0_mm))
    start, end = measuring.tool.measured
    assert (start.at_mm, end.at_mm) == ((radiator.y0_mm, radiator.z0_mm), (radiator.y1_mm, radiator.z0_mm))
    assert measuring.tool.marks.measured.is_set
    assert facts(measuring)["angle"] == "level"
    hand.click(radiator.y1_mm, radiator.z1_mm)
    assert measuring.tool.marks.measured.from_mm == (radiator.y1_mm, radiator.z1_mm)
    assert not measuring.tool.marks.measured.is_set


def test_an_edge_is_caught_between_its_corners(measuring, hand, session):
    radiator = outline(session, "radiator-1")
    middle = (radiator.z0_mm + radiator.z1_mm) / 2 + 31.0
    hover(hand, radiator.y0_mm - 4.0, middle)
    line = measuring.tool.marks.measured
    assert line.caught_mm[0] == pytest.approx(radiator.y0_mm)
    assert line.caught_mm[1] == pytest.approx(middle, abs=1.5)
    assert measuring.tool.marks.moved_text == "edge of the radiator"


def test_a_held_key_lets_nothing_catch(measuring, hand, session):
    radiator = outline(session, "radiator-1")
    hover(hand, radiator.y0_mm + 3, radiator.z1_mm - 3, Qt.KeyboardModifier.AltModifier)
    assert measuring.tool.marks.measured.caught_mm != (radiator.y0_mm, radiator.z1_mm)
    assert measuring.tool.marks.moved_text == ""


def test_inches_are_told_in_fractions(measuring, hand, session):
    session.set_units(UnitSystem.INCH)
    radiator = outline(session, "radiator-1")
    hand.drag((radiator.y0_mm, radiator.z0_mm), (radiator.y1_mm, radiator.z0_mm))
    # 720 mm are 28.346 in, 28 6/16 to the nearest sixteenth
    assert radiator.y1_mm - radiator.y0_mm == 720.0
    assert measuring.tool.marks.moved_text == "28 3/8 in"


def test_keys_alone_measure_from_corner_to_corner(measuring, hand):
    measuring.tool._here = None
    for key in (Qt.Key.Key_Up, Qt.Key.Key_Return, Qt.Key.Key_Right, Qt.Key.Key_Return):
        hand.key(key)
    start, end = measuring.tool.measured
    # To the right on the screen is to the vehicle's left.
    assert end.at_mm[0] < start.at_mm[0]
    assert measuring.tool.marks.measured.is_set
    hand.key(Qt.Key.Key_Backspace)
    assert measuring.tool.measured is None
    hand.key(Qt.Key.Key_Escape)
    assert measuring.tool is None


def test_nothing_is_left_in_the_project(measuring, hand, session):
    before = session.project
    radiator = outline(session, "radiator-1")
    hand.drag((radiator.y0_mm, radiator.z0_mm), (radiator.y1_mm, radiator.z1_mm))
    hand.key(Qt.Key.Key_Escape)
    assert session.project is before
    assert session.undo_stack.count() == 0
    assert not session.in_trial
    assert session.selection == ()


def test_the_side_view_measures_depths_to_planes_and_parts(side, side_hand, session):
    side.take_tool(MeasureTool(session, side_targets, side.across_sign))
    radiator = project_part(session.project.part("radiator-1"))
    pulley = session.project.nose.stations.pulley_x_mm
    z = radiator.outline_box.z1_mm + 40.0
    side_hand.click(pulley + 1.0, z)
    corner = (radiator.x_rear_mm, radiator.outline_box.z1_mm)
    side_hand.click(*corner)
    start, end = side.tool.measured
    assert start.at_mm[0] == pulley
    assert start.words == "pulley plane"
    assert end.words == "corner of the radiator"
    side.grab()


def test_a_fan_is_measured_from_its_middle_or_its_rim(session):
    targets = front_targets(session.project)
    fan = session.project.part("fan-1")
    at = Pointer(across_mm=fan.placement.y_mm + 2.0, z_mm=fan.placement.z_mm, px_per_mm=1.0)
    assert targets.catch(at).words.startswith("middle of")
    lean = math.radians(30.0)
    y, z = (fan.placement.y_mm + 147.0 * math.cos(lean), fan.placement.z_mm + 147.0 * math.sin(lean))
    caught = targets.catch(Pointer(across_mm=y, z_mm=z, px_per_mm=1.0))
    away = math.dist(caught.at_mm, (fan.placement.y_mm, fan.placement.z_mm))
    assert away == pytest.approx(fan.ring_diameter_mm / 2)
    assert caught.words.startswith("rim of")
