"""Views: which way is left, what is cut at the edge of a view, what lies between the parts."""

from __future__ import annotations

import pytest

from grillestack.geometry.depth import depth_report
from grillestack.model.nose import DepthStations, Nose
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import Fan, Placement
from grillestack.model.project import Project
from grillestack.sheets.gap_wishes import gap_wishes, room_wishes
from grillestack.sheets.vehicle_lines import Bounds, bounds_of, vehicle_lines
from grillestack.sheets.view_faces import Looking, Seen, faces_of, seen
from grillestack.sheets.view_marks import OnPaper, picture_of
from tests.geometry.packs import a_core, a_project, an_obstruction


def test_the_vehicles_right_is_at_the_left_of_the_front_view_and_of_the_plan():
    for looking in (Looking.AHEAD, Looking.ABOVE):
        assert seen(looking, 0.0, 100.0, 0.0).u_mm == -100.0


def test_the_front_is_at_the_left_of_the_left_side_view_and_at_the_right_of_the_right_one():
    assert seen(Looking.LEFT, 10.0, 0.0, 5.0) == Seen(10.0, 5.0)
    assert seen(Looking.RIGHT, 10.0, 0.0, 5.0) == Seen(-10.0, 5.0)


def test_the_front_is_at_the_bottom_of_the_plan():
    assert seen(Looking.ABOVE, -50.0, 0.0, 9.0).v_mm < seen(Looking.ABOVE, 50.0, 0.0, 9.0).v_mm


def test_a_core_is_as_wide_and_as_high_in_the_front_view_as_it_is():
    face = faces_of([a_core(size_mm=(600.0, 400.0), at_mm=(100.0, 30.0, 700.0))], Looking.AHEAD)[0]
    assert bounds_of(list(face.corners)) == Bounds(-330.0, 500.0, 270.0, 900.0)


def test_a_fan_is_round_from_ahead_and_a_box_from_the_side():
    fan = Fan(id="fan-1", name="Fan", depth_mm=60.0, ring_diameter_mm=300.0, placement=Placement(z_mm=500.0))
    (front,), (side,) = faces_of([fan], Looking.AHEAD), faces_of([fan], Looking.LEFT)
    assert (front.radius_mm, side.radius_mm) == (150.0, None)
    assert bounds_of(list(side.corners)) == Bounds(0.0, 350.0, 60.0, 650.0)


def test_the_vehicles_lines_are_cut_at_the_edge_of_the_view():
    beam = an_obstruction(rectangle_outline(-800.0, 500.0, 800.0, 600.0))
    box = Bounds(-300.0, 0.0, 300.0, 1000.0)
    lines = vehicle_lines(Nose(obstructions=(beam,)), Looking.AHEAD, box)
    assert {(line.start.u_mm, line.end.u_mm) for line in lines} == {(300.0, -300.0), (-300.0, 300.0)}
    assert {line.start.v_mm for line in lines} == {500.0, 600.0}


def test_a_line_outside_the_view_is_not_drawn():
    beam = an_obstruction(rectangle_outline(-800.0, 500.0, 800.0, 600.0))
    assert vehicle_lines(Nose(obstructions=(beam,)), Looking.AHEAD, Bounds(-9.0, 0.0, 9.0, 99.0)) == ()


def test_a_side_view_reaches_to_the_planes_that_are_near():
    project = Project(
        parts=(a_core(at_mm=(100.0, 0.0, 700.0)),),
        nose=Nose(stations=DepthStations(grille_x_mm=0.0, pulley_x_mm=900.0)),
    )
    picture = picture_of(project, Looking.LEFT, 2.0)
    # The grille, 100 mm ahead, is shown; the pulley, 760 mm behind, would only shrink the drawing.
    assert picture.bounds.u0_mm == pytest.approx(0.0, abs=2.0)
    assert picture.bounds.u1_mm < 150.0


def test_a_view_on_paper_is_as_large_as_its_scale_says():
    on = OnPaper(scale_factor=5.0, u0_mm=-100.0, v0_mm=0.0, x0_mm=20.0, y0_mm=30.0)
    assert (on.at(Seen(400.0, 250.0)).x_mm, on.at(Seen(400.0, 250.0)).y_mm) == (120.0, 80.0)


def test_gaps_are_those_of_the_depth_report_and_what_touches_is_said():
    front = a_core("a", at_mm=(50.0, 0.0, 0.0))
    project = a_project(front, a_core("b", at_mm=(105.0, 0.0, 0.0)), a_core("c", at_mm=(145.0, 0.0, 0.0)))
    drawn, said = gap_wishes(project, depth_report(project), from_top=True)
    assert [(wish.key, wish.measured_mm) for wish in drawn] == [("plan:a:gap-to-b", pytest.approx(15.0))]
    assert said == ("RAD 2 to RAD 3: touching",)


def test_parts_that_run_into_each_other_are_said_and_not_dimensioned():
    project = a_project(a_core("a", at_mm=(50.0, 0.0, 0.0)), a_core("b", at_mm=(80.0, 0.0, 0.0)))
    drawn, said = gap_wishes(project, depth_report(project), from_top=True)
    assert drawn == ()
    assert "run into each other by 10" in said[0]


def test_a_leaning_gap_is_said_as_no_straight_dimension_can_show_it():
    leaning = a_core("b", at_mm=(150.0, 0.0, 0.0), pose={"tilt_deg": 10.0})
    project = a_project(a_core("a", at_mm=(20.0, 0.0, 0.0)), leaning)
    drawn, said = gap_wishes(project, depth_report(project), from_top=True)
    assert drawn == ()
    assert said[0].startswith("RAD 1 to RAD 2: ")
    assert said[0].endswith("REF")


def test_overall_depth_and_room_are_measured_along_the_vehicle():
    project = Project(
        parts=(a_core(at_mm=(100.0, 0.0, 0.0)),),
        nose=Nose(stations=DepthStations(grille_x_mm=20.0, pulley_x_mm=200.0)),
    )
    found = {wish.key: wish.measured_mm for wish in room_wishes(project, 0.0, to_planes=True)}
    assert found == {"side:pack:overall-depth": 40.0, "side:pack:room-ahead": 80.0, "side:pack:room-behind": 60.0}
    assert len(room_wishes(project, 0.0, to_planes=False)) == 1
