"""What becomes of a part whose edge is pulled."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.app.canvas.gestures.stretch import HANDLES, Handle, handle_place, stretched_part
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Part


def box(part: Part):
    return project_part(part).outline_box


@pytest.mark.parametrize("turns", [0, 1, 2, 3])
@pytest.mark.parametrize("handle", HANDLES)
def test_the_pulled_edges_move_and_the_others_stay_however_the_part_is_turned(project, turns: int, handle: Handle):
    part = project.part("cac-1")
    part = replace(part, placement=replace(part.placement, quarter_turns=turns))
    before = box(part)
    wider, higher = 24.0 * abs(handle.y_side), 12.0 * abs(handle.z_side)
    after = box(stretched_part(part, handle, wider, higher))
    assert after.y0_mm == pytest.approx(before.y0_mm - (24 if handle.y_side < 0 else 0))
    assert after.y1_mm == pytest.approx(before.y1_mm + (24 if handle.y_side > 0 else 0))
    assert after.z0_mm == pytest.approx(before.z0_mm - (12 if handle.z_side < 0 else 0))
    assert after.z1_mm == pytest.approx(before.z1_mm + (12 if handle.z_side > 0 else 0))


def test_a_leaning_part_is_pulled_by_what_the_eye_sees(project):
    part = project.part("cac-1")
    part = replace(part, placement=replace(part.placement, tilt_deg=20.0))
    before, after = box(part), box(stretched_part(part, Handle(0, 1), 0.0, 30.0))
    assert after.z1_mm - before.z1_mm == pytest.approx(30)
    assert after.z0_mm == pytest.approx(before.z0_mm)


def test_a_core_never_becomes_smaller_than_can_be_held(project):
    small = stretched_part(project.part("cac-1"), Handle(0, 1), 0.0, -5_000.0)
    assert 0 < small.core_height_mm <= 20


def test_a_shroud_is_stretched_like_a_core(project):
    before = project.part("shroud-1")
    after = stretched_part(before, Handle(-1, 0), 40.0, 0.0)
    assert after.width_mm == before.width_mm + 40
    assert box(after).y1_mm == pytest.approx(box(before).y1_mm)


def test_a_fan_stays_round_about_its_centre_and_larger_than_its_motor(project):
    before = project.part("fan-1")
    after = stretched_part(before, Handle(1, 1), 10.0, 4.0)
    assert after.ring_diameter_mm == before.ring_diameter_mm + 20
    assert after.placement == before.placement
    assert stretched_part(before, Handle(1, 0), -500.0, 0.0).ring_diameter_mm == before.motor_diameter_mm


def test_handles_stand_on_the_outline(project):
    part = project.part("cac-1")
    assert handle_place(part, Handle(1, 0)) == (360, 630)
    assert handle_place(part, Handle(-1, -1)) == (-360, 550)
