"""What surrounds a part: who keeps how far from whom, what is taken out, what leans."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.geometry.setting import frame_of, setting_of
from grillestack.geometry.taken_space import Matter
from grillestack.model.nose import Nose, SupportWindow
from grillestack.model.outline import Point
from grillestack.model.project import Project
from tests.geometry.packs import a_core, a_fan, a_shroud, an_opening
from tests.geometry.rooms import CLEAR, LAMP, a_beam, a_cooler, a_window


@pytest.mark.parametrize(
    ("one", "other", "keep_mm"),
    [
        (Matter.CORE, Matter.CORE, 10.0),
        (Matter.CORE, Matter.FAN, 13.0),
        (Matter.CORE, Matter.SHROUD, 0.0),
        (Matter.CORE, Matter.NOSE, 25.0),
        (Matter.FAN, Matter.NOSE, 25.0),
        (Matter.FAN, Matter.SHROUD, None),
        (Matter.MOUNT, Matter.SHROUD, None),
        (Matter.PORT, Matter.PORT, None),
        (Matter.PORT, Matter.NOSE, 0.0),
        (Matter.PORT, Matter.CORE, 0.0),
        (Matter.FAN, Matter.FAN, 0.0),
    ],
)
def test_how_far_two_things_keep_from_each_other_either_way_round(one, other, keep_mm):
    assert CLEAR.between(one, other) == CLEAR.between(other, one) == keep_mm


def test_what_is_taken_out_is_not_in_the_way_and_all_else_is():
    project = Project(
        nose=Nose(obstructions=(a_beam(0, 0, 10, 10),)), parts=(a_core("a"), a_core("b", at_mm=(300, 0, 0)))
    )
    found = setting_of(project, ("a",), CLEAR)
    assert {o.thing_id for o in found.obstacles} == {"beam", "b"}


def test_a_bend_that_has_no_room_today_is_not_kept_free():
    # the cooler's left bend ends 80 mm left of its tank at −190; a block stands right in it
    block = a_core("block", (20.0, 20.0), (10.0, -220.0, 12.0))
    project = Project(parts=(a_cooler(), block))
    with_block = setting_of(project, (), CLEAR)
    without = setting_of(project, ("block",), CLEAR)
    assert sum(o.name == "inlet port" for o in with_block.obstacles) == 1
    assert not any(o.name == "inlet port" for o in without.obstacles)
    assert any(o.name == "outlet port" for o in without.obstacles)


def test_two_cores_of_one_lean_are_as_far_apart_at_any_height():
    core = a_core("a", at_mm=(100.0, 0.0, 0.0), depth_mm=40.0, pose={"tilt_deg": 20.0})
    setting = setting_of(Project(parts=(core,)), (), CLEAR, tilt_deg=20.0, lean_z_mm=0.0)
    (obstacle,) = setting.obstacles
    assert (obstacle.front_mm, obstacle.rear_mm) == pytest.approx((100.0, 100 + 40 / 0.9396926), abs=1e-4)
    higher = replace(core, placement=replace(core.placement, z_mm=100.0, x_mm=100 + 100 * 0.3639702))
    (moved,) = setting_of(Project(parts=(higher,)), (), CLEAR, tilt_deg=20.0, lean_z_mm=0.0).obstacles
    assert (moved.front_mm, moved.rear_mm) == pytest.approx((obstacle.front_mm, obstacle.rear_mm), abs=1e-4)


def test_an_upright_obstruction_reaches_further_along_a_plane_that_leans_never_less():
    nose = Nose(obstructions=(a_beam(-10, -50, 10, 50, 100, 180),))
    (upright,) = setting_of(Project(nose=nose), (), CLEAR).obstacles
    (leant,) = setting_of(Project(nose=nose), (), CLEAR, tilt_deg=10.0).obstacles
    assert (upright.front_mm, upright.rear_mm) == (100.0, 180.0)
    # 50 mm up or down are 50 · tan 10° = 8.8 mm along
    assert (leant.front_mm, leant.rear_mm) == pytest.approx((100 - 8.816, 180 + 8.816), abs=1e-3)


def test_what_a_slanted_window_leaves_of_its_box_is_a_frame():
    outline = (Point(0, 0), Point(100, 0), Point(100, 60), Point(60, 100), Point(0, 100))
    setting = setting_of(Project(nose=Nose(support_window=SupportWindow(outline=outline))), (), CLEAR)
    assert len(frame_of(setting.hole)) == 1
    assert frame_of(setting_of(Project(nose=Nose(support_window=a_window())), (), CLEAR).hole) == ()


def test_without_a_window_openings_and_pack_bound_the_room_and_without_them_nothing_does():
    opening = an_opening(LAMP)
    setting = setting_of(Project(nose=Nose(openings=(opening,)), parts=(a_core(at_mm=(0, 0, 0)),)), (), CLEAR)
    assert setting.hole is None
    assert (setting.limits.y0_mm, setting.limits.y1_mm) == (-300.0, 300.0)
    assert setting_of(Project(), (), CLEAR).limits is None


def test_fans_and_shrouds_are_what_they_are():
    project = Project(parts=(a_shroud(), a_fan()))
    found = {(o.matter, o.shape.box is None) for o in setting_of(project, (), CLEAR).obstacles}
    assert found == {(Matter.SHROUD, False), (Matter.FAN, True)}
