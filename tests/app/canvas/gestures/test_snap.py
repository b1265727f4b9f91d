"""To which lines does a moving part jump, and are they named as one would say it."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.gestures.snap import Axis, SnapLine, front_snap_lines, nearest_snap, side_snap_lines


def line(at: float, words: str = "line", **more) -> SnapLine:
    return SnapLine(axis=Axis.Y, at_mm=at, from_mm=0, to_mm=100, words=words, **more)


def test_the_nearest_edge_is_brought_onto_the_line():
    found = nearest_snap((10.0, 60.0), [line(63.0), line(5.0)], Axis.Y, 8.0)
    assert found.shift_mm == pytest.approx(3.0)
    assert found.line.at_mm == 63.0


def test_nothing_jumps_to_a_line_out_of_reach_or_along_the_other_axis():
    assert nearest_snap((10.0, 60.0), [line(70.0)], Axis.Y, 8.0).line is None
    assert nearest_snap((10.0, 60.0), [line(60.0)], Axis.Z, 8.0).line is None


def test_middle_lines_catch_the_middle_only():
    assert nearest_snap((10.0, 60.0), [line(10.0, for_middle=True)], Axis.Y, 8.0).line is None
    assert nearest_snap((10.0, 60.0), [line(34.0, for_middle=True)], Axis.Y, 8.0).shift_mm == pytest.approx(-1.0)


def test_one_sided_lines_catch_one_edge_only():
    assert nearest_snap((10.0, 60.0), [line(60.0, side=-1)], Axis.Y, 8.0).line is None
    assert nearest_snap((10.0, 60.0), [line(12.0, side=-1)], Axis.Y, 8.0).shift_mm == pytest.approx(2.0)


def test_of_two_lines_at_one_distance_the_first_gives_the_name():
    found = nearest_snap((10.0, 60.0), [line(10.0, "opening"), line(10.0, "core")], Axis.Y, 8.0)
    assert found.line.words == "opening"


def test_a_part_never_jumps_to_itself(project):
    words = [found.words for found in front_snap_lines(project, ["cac-1"])]
    assert not any("CAC" in name for name in words)
    assert "level with radiator top" in words
    assert "in line with opening right side" in words


def test_the_vehicles_right_is_plus_y(project):
    sides = {found.words: found.at_mm for found in front_snap_lines(project, [])}
    assert sides["in line with opening right side"] == 350
    assert sides["in line with opening left side"] == -350
    assert sides["level with opening top"] == 840


def test_two_of_a_kind_are_told_apart_by_their_names(project):
    words = [found.words for found in front_snap_lines(project, [])]
    assert "centred on Fan 300 left" in words
    assert "centred on Fan 300 right" in words
    assert not any("on fan" in name for name in words)


def test_each_place_has_one_name(project):
    places = [(found.axis, round(found.at_mm, 3), found.for_middle) for found in front_snap_lines(project, [])]
    assert len(places) == len(set(places))


def test_the_side_view_knows_touching_and_the_usual_gap(project):
    # The condenser stands from x = 40 to 60; cores are usually 10 to 25 mm apart (common practice, no source).
    found = {snap.words: (snap.at_mm, snap.side) for snap in side_snap_lines(project, ["cac-1"])}
    assert found["touching the rear of the condenser"] == (60, -1)
    gap = found["usual gap behind the condenser"][0] - 60
    assert 10 <= gap <= 25
    assert found["grille plane"] == (0, -1)


def test_between_two_neighbours_equal_gaps_are_offered(project):
    # Condenser rear 60, radiator's tanks begin at 157: the middle between them is 108.5.
    found = {snap.words: snap for snap in side_snap_lines(project, ["cac-1"])}
    snap = found["equal gaps to condenser and radiator"]
    assert snap.at_mm == pytest.approx((60 + 157) / 2)
    assert snap.for_middle
