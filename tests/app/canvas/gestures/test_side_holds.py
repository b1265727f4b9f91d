"""Planes, bonnet line and obstructions pulled in the side view by real mouse events, one step each."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.side_holds import SideHeld, SideHold, line_hold_at, moved_hold

ALT = Qt.KeyboardModifier.AltModifier


def near(side, value):
    return pytest.approx(value, abs=1.5 / side.across_scale)


def test_the_grille_plane_takes_its_openings_with_it(side, side_hand, session):
    side_hand.drag((0, 960), (-25, 960), held=ALT)
    assert session.project.nose.stations.grille_x_mm == near(side, -25)
    assert session.project.nose.openings[0].x_mm == session.project.nose.stations.grille_x_mm
    assert session.undo_stack.count() == 1


def test_the_pulley_plane_is_pulled_along_the_vehicle_only(side, side_hand, session):
    side_hand.drag((420, 700), (450, 640), held=ALT)
    assert session.project.nose.stations.pulley_x_mm == near(side, 450)
    assert session.undo_stack.count() == 1


def test_a_point_of_the_bonnet_line_goes_both_ways(side, side_hand, session):
    old = session.project.nose.stations.bonnet_line
    side_hand.drag((120, 975), (140, 1000), held=ALT)
    point = session.project.nose.stations.bonnet_line[1]
    assert (point.x_mm, point.z_mm) == (near(side, 140), near(side, 1000))
    assert session.project.nose.stations.bonnet_line[::2] == old[::2]
    assert session.undo_stack.count() == 1


def test_front_and_rear_of_the_beam_are_pulled_apart(side, side_hand, session):
    side_hand.drag((-90, 545), (-110, 545), held=ALT)
    side_hand.drag((-30, 545), (-15, 545), held=ALT)
    beam = session.project.nose.obstructions[0]
    assert (beam.x_front_mm, beam.x_rear_mm) == (near(side, -110), near(side, -15))
    assert session.undo_stack.count() == 2


def test_a_rear_never_passes_its_front(session):
    moved = moved_hold(session.project, SideHold(SideHeld.REAR, identifier="beam"), -500, 0)
    beam = moved.nose.obstructions[0]
    assert beam.x_rear_mm == beam.x_front_mm == -90


def test_escape_puts_the_plane_back(side, side_hand, session):
    old = session.project
    side_hand.press(420, 700)
    side_hand.move(440, 700)
    side_hand.move(460, 700)
    assert session.shown is not old
    side_hand.key(Qt.Key.Key_Escape)
    assert session.shown is old


def test_far_from_everything_nothing_is_held(session):
    at = Pointer(across_mm=330, z_mm=100, px_per_mm=1.0)
    assert line_hold_at(session.project, at) is None
