"""The one edit that mends a finding makes that finding go away, and makes nothing worse."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.findings import RULES, findings
from grillestack.advice.mend import GONE, NO_ROOM, Mended, mend
from grillestack.advice.rule import Facts, found
from grillestack.assess.assess import assess
from grillestack.assess.result import Finding, Mend, Severity
from grillestack.model import edits
from grillestack.model.engine import Environment
from grillestack.model.nose import Obstruction, Opening
from grillestack.model.outline import Point, SidePoint, rectangle_outline
from grillestack.model.parts import Fan, Shroud
from grillestack.model.project import cores, fans, shrouds
from tests.assess import packs


def pack():
    """Return CAC, radiator, shroud and two fans in a nose with room on all sides and sealed edges."""
    return packs.half_height_pack()


def by_mend(project, kind):
    assessment = assess(project)
    return assessment, [f for f in findings(project, assessment) if f.mend is kind]


def mended(project, kind):
    """Return the project with the first finding of that kind mended, which must be gone then."""
    assessment, (first, *_rest) = by_mend(project, kind)
    done = mend(project, assessment, first)
    assert isinstance(done, Mended), done
    assert done.title
    _, left = by_mend(done.project, kind)
    assert first.parts not in [finding.parts for finding in left]
    return done


def nearer(project, part_id, by_mm):
    return edits.move_parts(project, [part_id], dx_mm=by_mm)


def test_cores_too_close_are_set_apart_and_what_is_behind_goes_along():
    project = pack()
    cac, rad = (core.id for core in cores(project))
    gap = project.part(rad).placement.x_mm - project.part(cac).placement.x_mm - project.part(cac).depth_mm
    close = nearer(project, cac, gap - 4.0)
    done = mended(close, Mend.WIDEN_GAP)
    behind = [p.id for p in project.parts if p.id != cac]
    moved = {i: done.project.part(i).placement.x_mm - close.part(i).placement.x_mm for i in behind}
    # 10 mm are practice, 4 mm were there.
    assert set(moved.values()) == {6.0}
    assert "6 mm rearward" in done.title


def test_with_no_room_behind_those_ahead_are_moved():
    project = pack()
    cac, rad = (core.id for core in cores(project))
    gap = project.part(rad).placement.x_mm - project.part(cac).placement.x_mm - project.part(cac).depth_mm
    close = nearer(project, cac, gap - 4.0)
    rear = max(p.placement.x_mm + p.depth_mm for p in close.parts)
    stations = replace(close.nose.stations, pulley_x_mm=rear + 26.0)
    close = edits.set_nose(close, replace(close.nose, stations=stations))
    done = mended(close, Mend.WIDEN_GAP)
    assert done.project.part(rad).placement == close.part(rad).placement
    assert done.project.part(cac).placement.x_mm == pytest.approx(close.part(cac).placement.x_mm - 6.0)


def test_a_fan_against_the_fins_is_moved_off_them():
    project = edits.remove_parts(pack(), [s.id for s in shrouds(pack())])
    rad = cores(project)[-1]
    fan = fans(project)[0]
    at = replace(fan.placement, x_mm=rad.placement.x_mm + rad.depth_mm + 5.0)
    close = edits.place_part(project, fan.id, at)
    done = mended(close, Mend.FROM_FINS)
    assert done.project.part(fan.id).placement.x_mm == pytest.approx(at.x_mm + 8.0)


def with_stations(project, **changes):
    nose = project.nose
    return edits.set_nose(project, replace(nose, stations=replace(nose.stations, **changes)))


def test_a_pack_too_near_the_pulley_goes_forward_as_a_whole():
    rear = max(p.placement.x_mm + p.depth_mm for p in pack().parts)
    tight = with_stations(pack(), pulley_x_mm=rear + 10.0)
    done = mended(tight, Mend.FORWARD)
    assert {p.placement.x_mm - done.project.part(p.id).placement.x_mm for p in tight.parts} == {15.0}


def test_without_room_ahead_it_says_so_and_changes_nothing():
    project = edits.move_parts(pack(), [p.id for p in pack().parts], dx_mm=-min(p.placement.x_mm for p in pack().parts))
    rear = max(p.placement.x_mm + p.depth_mm for p in project.parts)
    tight = with_stations(project, pulley_x_mm=rear + 10.0)
    assessment, (first, *_) = by_mend(tight, Mend.FORWARD)
    assert mend(tight, assessment, first) == NO_ROOM


def test_what_stands_out_of_the_grille_goes_behind_it():
    first = min(p.placement.x_mm for p in pack().parts)
    out = edits.move_parts(pack(), [p.id for p in pack().parts], dx_mm=-first - 7.0)
    done = mended(out, Mend.REARWARD)
    assert min(p.placement.x_mm for p in done.project.parts) == pytest.approx(0.0)


def test_a_radiator_under_a_low_bonnet_goes_down_with_shroud_and_fans():
    project = pack()
    rad = cores(project)[-1]
    top = rad.placement.z_mm + rad.overall.v_max_mm
    low = with_stations(project, bonnet_line=(SidePoint(-200.0, top + 12.0), SidePoint(900.0, top + 12.0)))
    done = mended(low, Mend.LOWER)
    moved = {
        type(p): round(low.part(p.id).placement.z_mm - p.placement.z_mm, 6)
        for p in done.project.parts
        if isinstance(p, Shroud | Fan)
    }
    assert moved == {Shroud: 8.0, Fan: 8.0}


def test_a_shroud_without_a_fan_is_taken_out():
    project = edits.remove_parts(pack(), [f.id for f in fans(pack())])
    done = mended(project, Mend.TAKE_OUT)
    assert shrouds(done.project) == ()


def test_a_radiator_without_a_shroud_gets_one():
    project = edits.remove_parts(pack(), [s.id for s in shrouds(pack())])
    done = mended(project, Mend.SHROUD)
    (made,) = shrouds(done.project)
    assert made.width_mm == cores(project)[-1].core_width_mm


@pytest.mark.parametrize("lean", [22.0, -22.0])
def test_what_leans_too_far_is_set_to_the_bound(lean):
    project = pack()
    cac = cores(project)[0]
    leaning = edits.place_part(project, cac.id, replace(cac.placement, tilt_deg=lean))
    assessment = assess(leaning)
    first = next(f for f in findings(leaning, assessment) if f.mend is Mend.STEEPER)
    done = mend(leaning, assessment, first)
    assert isinstance(done, Mended)
    assert abs(done.project.part(cac.id).placement.tilt_deg) == 15.0


def test_open_edges_are_closed():
    open_pack = edits.set_environment(pack(), Environment())
    assessment = assess(open_pack)
    finding = Finding(severity=Severity.WARNING, text="air goes past", mend=Mend.SEAL)
    done = mend(open_pack, assessment, finding)
    assert isinstance(done, Mended)
    assert done.project.environment.opening_closed_off
    assert mend(done.project, assess(done.project), finding) == GONE


def test_an_outline_that_encloses_nothing_is_removed():
    flat = Obstruction(
        id="flat", name="Flat", outline=(Point(0, 0), Point(9, 0), Point(18, 0)), x_front_mm=0, x_rear_mm=5
    )
    project = edits.set_nose(pack(), replace(pack().nose, obstructions=(flat,)))
    done = mended(project, Mend.REMOVE_OUTLINE)
    assert done.project.nose.obstructions == ()


def test_radii_without_room_are_made_as_they_are_drawn():
    opening = Opening(
        id="o", name="O", outline=rectangle_outline(-340, 100, 340, 400), corner_radii_mm=(400.0, 0.0, 0.0, 0.0)
    )
    project = edits.set_nose(pack(), replace(pack().nose, openings=(opening,)))
    done = mended(project, Mend.SMALLER_RADII)
    # The shorter side is 300 mm long, and no more has room on it.
    assert done.project.nose.openings[0].corner_radii_mm[0] == pytest.approx(300.0)


def test_a_locked_part_stays_and_says_so():
    project = pack()
    cac, rad = (core.id for core in cores(project))
    gap = project.part(rad).placement.x_mm - project.part(cac).placement.x_mm - project.part(cac).depth_mm
    close = nearer(project, cac, gap - 4.0)
    close = edits.replace_part(close, replace(close.part(rad), locked=True))
    assessment, (first, *_) = by_mend(close, Mend.WIDEN_GAP)
    assert "is locked" in mend(close, assessment, first)


def test_a_finding_that_no_edit_mends_is_not_mended():
    assessment = assess(pack())
    assert mend(pack(), assessment, Finding(severity=Severity.NOTE, text="so it is")) == NO_ROOM
    stale = Finding(severity=Severity.WARNING, text="close", parts=("a", "b"), mend=Mend.WIDEN_GAP)
    assert mend(pack(), assessment, stale) == GONE


# What each rule without a mend would need that no one edit can give.
NO_ONE_EDIT = {
    "coolant_near_boiling": "what limit and cap the engine and its hoses allow is the engine maker's to say",
    "no_fan": "which fan is a choice",
    "fan_without_curve": "a figure of the maker's is wanted",
    "fan_outside_shrouds": "mended with the radiator's shroud",
    "fan_between_cores": "ahead or behind is a choice",
    "pusher_and_puller": "which fan goes is a choice",
    "tank_over_core": "moving or turning, and which of the two, is a choice",
    "whole_radiator_covered": "lowering, narrowing or shifting is a choice: the ladder tries them",
    "core_off_the_opening": "moving the core or opening the nose is a choice",
    "fans_sweep_too_little": "which fan is a choice",
    "same_space": "which of the two moves, and where to, is a choice",
    "shallow_shroud": "how deep is a choice",
    "obstruction_too_near": "which way is a choice",
    "no_opening": "it must be measured",
    "radiator_missing": "which radiator is a choice",
    "second_radiator": "calling it a cooler or removing it is a choice",
    "charge_air_cooler_missing": "which cooler is a choice",
    "hottest_day_below_design_day": "what to change first has the changes",
    "no_hottest_day": "what to change first has the changes",
    "charge_air_too_hot": "what to change first has the changes",
    "charge_loss_too_high": "which cooler is a choice",
    "condensing_too_hot": "fan, shroud or edges is a choice",
    "heat_target_estimated": "a figure of the maker's is wanted",
    "charge_flow_estimated": "a figure of the maker's is wanted",
    "pipes_not_counted": "nothing is wrong",
}
WITH_MEND = {
    "core_gap_too_small",
    "core_gap_too_large",
    "fan_against_fins",
    "pulley_too_near",
    "bonnet_too_near",
    "ahead_of_the_grille",
    "radiator_without_shroud",
    "opening_uncovered",
    "shroud_without_fan",
    "air_drawn_round_again",
    "air_past_the_radiator",
    "leans_too_far",
    "outlines_that_cannot_be_meant",
}


def test_every_rule_has_a_mend_or_a_reason_why_not():
    cautions = {rule.__name__ for rule in RULES if rule.__module__.endswith(".safety")}
    others = {rule.__name__ for rule in RULES} - cautions
    assert others == set(NO_ONE_EDIT) | WITH_MEND
    assert set(NO_ONE_EDIT).isdisjoint(WITH_MEND)


def test_cautions_are_not_mended_by_an_edit():
    project = pack()
    assessment = assess(project)
    facts = Facts(project=project, assessment=assessment, units=None)
    said = list(found([r for r in RULES if r.__module__.endswith(".safety")], facts))
    assert said
    assert all(f.mend is None for f in said)
