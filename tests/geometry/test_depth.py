"""Stack, gaps, clearances and overlaps along x, measured by hand."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.depth import (
    BONNET_LINE,
    GRILLE_PLANE,
    PULLEY_PLANE,
    Gap,
    Overlap,
    StackPlace,
    depth_report,
)
from grillestack.model.nose import DepthStations, Nose
from grillestack.model.outline import Rect, SidePoint, rectangle_outline
from grillestack.model.parts import Solid, SolidKind
from grillestack.model.project import Project
from tests.geometry.packs import OCTAGON, a_core, a_demanding_pack, a_fan, a_project, a_shroud, an_obstruction


def _deep_tank(from_mm: float, depth_mm: float):
    """Return a core's fields: one tank, 50 wide, right of a 600 × 400 core."""
    rect = Rect(u_min_mm=300, v_min_mm=-200, u_max_mm=350, v_max_mm=200)
    tank = Solid(kind=SolidKind.TANK, rect=rect, front_mm=from_mm, depth_mm=depth_mm)
    return {"solids": (tank,), "overall": Rect(u_min_mm=-300, v_min_mm=-200, u_max_mm=350, v_max_mm=200)}


def _clearances(project, to):
    return {c.part_id: c.clearance_mm for c in depth_report(project).clearances if c.to == to}


def _with_stations(*parts, **stations):
    return Project(nose=Nose(stations=DepthStations(**stations)), parts=parts)


def test_empty_project_reports_nothing():
    report = depth_report(Project())
    assert (report.stack, report.gaps, report.clearances, report.overlaps) == ((), (), (), ())


def test_stack_runs_front_to_back_with_solids_in_it():
    report = depth_report(
        a_project(a_core("rear", at_mm=(100, 0, 0)), a_core("front", at_mm=(20, 0, 0), **_deep_tank(-5, 60)))
    )
    assert report.stack == (StackPlace("front", 15, 75), StackPlace("rear", 100, 140))


def test_gap_between_two_cores():
    report = depth_report(a_project(a_core("front", at_mm=(50, 0, 0)), a_core("rear", at_mm=(105, 0, 0))))
    assert report.gaps == (Gap("front", "rear", 15),)
    assert report.overlaps == ()


def test_touching_cores_have_no_gap_and_no_overlap():
    report = depth_report(a_project(a_core("front", at_mm=(50, 0, 0)), a_core("rear", at_mm=(90, 0, 0))))
    assert report.gaps == (Gap("front", "rear", 0),)
    assert report.overlaps == ()


def test_parts_side_by_side_are_no_neighbours():
    report = depth_report(a_project(a_core("left", at_mm=(50, -300, 0)), a_core("right", at_mm=(60, 300, 0))))
    assert report.gaps == ()
    assert report.overlaps == ()


def test_deep_tank_closes_the_gap():
    report = depth_report(
        a_project(
            a_core("front", at_mm=(50, 0, 0), **_deep_tank(0, 60)),
            a_core("rear", at_mm=(115, 0, 0), size_mm=(700, 400)),
        )
    )
    assert report.gaps == (Gap("front", "rear", 5),)


def test_tank_that_reaches_past_a_core_beside_it_does_not_count():
    # The tank lies at 300 … 350, the rear core ends at 300: they never meet.
    report = depth_report(
        a_project(a_core("front", at_mm=(50, 0, 0), **_deep_tank(0, 60)), a_core("rear", at_mm=(100, 0, 0)))
    )
    assert report.gaps == (Gap("front", "rear", 10),)
    assert report.overlaps == ()


def test_tank_in_a_core_is_an_overlap_by_the_move_that_frees_it():
    report = depth_report(
        a_project(
            a_core("front", at_mm=(50, 0, 0), **_deep_tank(0, 60)),
            a_core("rear", at_mm=(98, 0, 0), size_mm=(700, 400)),
        )
    )
    assert report.overlaps == (Overlap("front", "rear", "tank and core", 12),)
    assert report.gaps == (Gap("front", "rear", -12),)


def test_identical_places_overlap_by_the_whole_depth():
    report = depth_report(a_project(a_core("one"), a_core("two")))
    assert report.overlaps == (Overlap("one", "two", "core and core", 40),)


def test_thin_plate_inside_a_deep_core_is_freed_the_short_way():
    # A 10 mm core from 45 to 55 inside one from 20 to 80: 35 mm forward or backward
    report = depth_report(
        a_project(a_core("deep", at_mm=(20, 0, 0), depth_mm=60), a_core("thin", (300, 200), (45, 0, 0), depth_mm=10))
    )
    assert report.overlaps[0].depth_mm == pytest.approx(35)


def test_third_core_between_two_hides_them_from_each_other():
    cores = [a_core(name, at_mm=(x, 0, 0)) for name, x in (("a", 0), ("b", 60), ("c", 120))]
    assert depth_report(a_project(*cores)).gaps == (Gap("a", "b", 20), Gap("b", "c", 20))


def test_core_past_the_edge_of_the_one_between_is_still_measured():
    front, rear = a_core("front", (600, 400), (0, 0, 0)), a_core("rear", (600, 400), (200, 0, 0))
    beside = a_core("beside", (100, 400), (60, 400, 0))
    gaps = depth_report(a_project(front, beside, rear)).gaps
    assert gaps == (Gap("front", "rear", 160),)


def test_fan_in_its_shroud_neither_overlaps_nor_leaves_a_gap_but_is_measured_to_the_core():
    report = depth_report(a_project(a_core(at_mm=(100, 0, 0)), a_shroud(at_mm=(145, 0, 0)), a_fan(at_mm=(175, 0, 0))))
    assert report.overlaps == ()
    assert report.gaps == (Gap("core", "shroud", 5), Gap("core", "fan", 35))


def test_fan_in_somebody_elses_shroud_is_an_overlap():
    report = depth_report(
        a_project(a_shroud(size_mm=(300, 300)), a_fan(at_mm=(160, 200, 0), diameter_mm=300, depth_mm=60))
    )
    assert report.overlaps == (Overlap("shroud", "fan", "shroud and fan", 70),)


def test_fan_is_round():
    # Ring of 150 radius at the core's corner: the square around it overlaps, the ring does not.
    core = a_core(size_mm=(600, 400), at_mm=(100, 0, 0))
    assert depth_report(a_project(core, a_fan(at_mm=(110, 410, 310)))).overlaps == ()
    assert len(depth_report(a_project(core, a_fan(at_mm=(110, 390, 290)))).overlaps) == 1


def test_two_fans_side_by_side_overlap_only_if_their_rings_do():
    def overlaps(apart_mm):
        step = apart_mm / math.sqrt(2)
        return depth_report(a_project(a_fan("one"), a_fan("two", at_mm=(160, step, step)))).overlaps

    assert overlaps(300.001) == ()
    assert len(overlaps(299.9)) == 1


def test_parallel_leaning_cores_keep_their_distance():
    lean = {"tilt_deg": 30.0}
    report = depth_report(
        a_project(a_core("front", at_mm=(0, 0, 0), pose=lean), a_core("rear", at_mm=(100, 0, 0), pose=lean))
    )
    # Along x a 40 mm core that leans by 30° is 40/cos 30° deep.
    assert report.gaps[0].gap_mm == pytest.approx(100 - 40 / math.cos(math.radians(30)))
    assert report.overlaps == ()


def test_leaning_core_meets_an_upright_one_at_its_top():
    rear = a_core("rear", (600, 600), (100, 0, 0))
    front = a_core("front", at_mm=(0, 0, 0), pose={"tilt_deg": 10.0})
    # At the top of the leaning core (200·cos 10° up) its rear plane is 40/cos 10° + 200·sin 10° behind its centre.
    rear_at_top = 40 / math.cos(math.radians(10)) + 200 * math.sin(math.radians(10))
    assert depth_report(a_project(front, rear)).gaps[0].gap_mm == pytest.approx(100 - rear_at_top)


def test_crossing_leans_overlap_where_they_cross():
    one = a_core("one", at_mm=(0, 0, 0), pose={"tilt_deg": 20.0})
    two = a_core("two", at_mm=(1, 0, 0), pose={"tilt_deg": -20.0})
    assert depth_report(a_project(one, two)).overlaps[0].depth_mm == pytest.approx(40 / math.cos(math.radians(20)))


def test_clearance_to_grille_and_pulley():
    project = _with_stations(a_core(at_mm=(100, 0, 0)), a_fan(at_mm=(160, 0, 0)), grille_x_mm=-10, pulley_x_mm=210)
    assert _clearances(project, GRILLE_PLANE) == {"core": 110, "fan": 170}
    assert _clearances(project, PULLEY_PLANE) == {"core": 70, "fan": -10}


def test_without_a_pulley_or_a_bonnet_nothing_is_measured_to_them():
    assert {c.to for c in depth_report(_with_stations(a_core())).clearances} == {GRILLE_PLANE}


def test_clearance_to_the_bonnet_is_the_lowest_over_the_depth_of_the_top_edge():
    # From (0, 300) up to (200, 400): over a core from 100 to 140 the line is lowest at 100: 350.
    line = (SidePoint(0, 300), SidePoint(200, 400))
    project = _with_stations(a_core(at_mm=(100, 0, 100)), bonnet_line=line)
    assert _clearances(project, BONNET_LINE) == {"core": pytest.approx(50)}


def test_dip_of_the_bonnet_between_two_points_counts():
    line = (SidePoint(0, 300), SidePoint(120, 210), SidePoint(300, 300))
    assert _clearances(_with_stations(a_core(at_mm=(100, 0, 0)), bonnet_line=line), BONNET_LINE) == {
        "core": pytest.approx(10)
    }


def test_bonnet_line_may_run_backwards_and_have_steps():
    line = (SidePoint(300, 300), SidePoint(120, 300), SidePoint(120, 250), SidePoint(0, 250))
    project = _with_stations(
        a_core("on-the-step", at_mm=(100, 0, 0)), a_core("behind", at_mm=(130, 0, 0)), bonnet_line=line
    )
    assert _clearances(project, BONNET_LINE) == {"on-the-step": 50, "behind": 100}


def test_beyond_the_ends_of_the_bonnet_line_nothing_is_known():
    line = (SidePoint(0, 300), SidePoint(50, 300))
    assert _clearances(_with_stations(a_core(at_mm=(100, 0, 0)), bonnet_line=line), BONNET_LINE) == {}
    single = (SidePoint(120, 230),)
    assert _clearances(_with_stations(a_core(at_mm=(100, 0, 0)), bonnet_line=single), BONNET_LINE) == {"core": 30}


def test_top_of_a_leaning_core_is_measured_where_it_stands():
    # Leaning back by 30° its top edge lies 100 … 100 + 40·cos 30° behind the centre, 200·cos 30° up.
    line = (SidePoint(0, 100), SidePoint(90, 100), SidePoint(90.1, 300), SidePoint(500, 300))
    core = a_core(at_mm=(0, 0, 0), pose={"tilt_deg": 30.0})
    assert _clearances(_with_stations(core, bonnet_line=line), BONNET_LINE) == {
        "core": pytest.approx(300 - 200 * math.cos(math.radians(30)))
    }


def test_clearance_to_an_obstruction_only_where_it_stands_before_the_part():
    beam = an_obstruction(rectangle_outline(-400, -30, 400, 30), 10, 60, "beam")
    aside = an_obstruction(rectangle_outline(500, -30, 600, 30), 10, 60, "aside")
    project = a_project(a_core(at_mm=(100, 0, 0)), obstructions=[beam, aside])
    assert _clearances(project, "beam") == {"core": 40}
    assert _clearances(project, "aside") == {}


def test_obstruction_behind_a_part_is_measured_to_its_rear():
    crossmember = an_obstruction(rectangle_outline(-400, -30, 400, 30), 165, 200, "crossmember")
    assert _clearances(a_project(a_core(at_mm=(100, 0, 0)), obstructions=[crossmember]), "crossmember") == {"core": 25}


def test_obstruction_in_a_part_is_an_overlap():
    beam = an_obstruction(rectangle_outline(-400, -30, 400, 30), 10, 108, "beam")
    report = depth_report(a_project(a_core(at_mm=(100, 0, 0)), obstructions=[beam]))
    assert report.overlaps == (Overlap("core", "beam", "core and obstruction", 8),)


def test_obstruction_counts_by_its_true_outline():
    # The octagon's corner at (300, 180) is cut off: a small core there overlaps its bounds only.
    lamp = an_obstruction(OCTAGON, 0, 300, "lamp")
    corner = a_core("corner", (20, 20), (100, 285, 170))
    inner = a_core("inner", (20, 20), (100, 200, 100))
    assert [o.part_id for o in depth_report(a_project(corner, inner, obstructions=[lamp])).overlaps] == ["inner"]


def test_obstructions_may_overlap_each_other():
    beams = [an_obstruction(rectangle_outline(0, 0, 50, 50), 0, 50, name) for name in ("one", "two")]
    assert depth_report(a_project(a_core(at_mm=(100, 0, 0)), obstructions=beams)).overlaps == ()


def test_sound_pack_has_no_overlap():
    assert depth_report(a_demanding_pack()).overlaps == ()
