"""Faces of packs small enough to count by hand: which state wins, and what is told of it."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.exposure import OUTSIDE_OPENING, FaceState, core_faces
from grillestack.geometry.overlay import SUPPORT_PLATE, build_overlay
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project
from tests.geometry.packs import (
    OPEN_NOSE,
    a_core,
    a_demanding_pack,
    a_fan,
    a_project,
    a_shroud,
    an_obstruction,
    an_opening,
)


def _faces(*parts, openings=(OPEN_NOSE,), spread_deg=7.0, **nose):
    project = a_project(*parts, openings=openings, **nose)
    return core_faces(build_overlay(project, spread_deg), project)


def _areas(face):
    return (face.exposed_mm2, face.behind_mm2, face.off_opening_mm2, face.blocked_mm2)


def test_empty_project_has_no_face():
    assert core_faces(build_overlay(Project(), 7.0), Project()) == {}


def test_core_alone_in_an_open_nose_is_all_exposed():
    face = _faces(a_core(size_mm=(600, 400)))["core"]
    assert _areas(face) == pytest.approx((240_000, 0, 0, 0))
    assert face.core_mm2 == 240_000


def test_core_behind_an_equal_core_has_no_exposed_face():
    faces = _faces(a_core("front", at_mm=(50, 0, 0)), a_core("rear", at_mm=(100, 0, 0)))
    assert _areas(faces["front"]) == pytest.approx((240_000, 0, 0, 0))
    assert _areas(faces["rear"]) == pytest.approx((0, 240_000, 0, 0))


def test_of_two_cores_at_the_same_depth_the_first_one_stands_ahead():
    faces = _faces(a_core("one", at_mm=(100, 0, 0)), a_core("two", at_mm=(100, 0, 0)))
    assert faces["one"].exposed_mm2 == pytest.approx(240_000)
    assert faces["two"].exposed_mm2 == 0


def test_cores_that_touch_in_the_front_view_hide_nothing():
    faces = _faces(a_core("front", (300, 400), (50, -450, 0)), a_core("rear", (600, 400), (100, 0, 0)))
    assert faces["rear"].exposed_mm2 == pytest.approx(240_000)


def test_smaller_core_ahead_hides_its_own_area():
    faces = _faces(a_core("front", (200, 100), (50, 30, -40)), a_core("rear", (600, 400), (100, 0, 0)))
    assert _areas(faces["rear"]) == pytest.approx((220_000, 20_000, 0, 0))


def test_half_height_charge_air_cooler_leaves_the_rest_exposed():
    cooler = a_core("cooler", (600, 200), (50, 0, -100), tank_mm=50, role=CoreRole.CHARGE_AIR_COOLER)
    faces = _faces(cooler, a_core("radiator", (600, 400), (120, 0, 0), tank_mm=50))
    assert _areas(faces["radiator"]) == pytest.approx((600 * 200, 600 * 200, 0, 0))


def test_tank_ahead_blocks():
    # 500 wide with tanks of 50: the tanks stand over the outer 50 mm of a 600 wide core.
    faces = _faces(a_core("front", (500, 400), (50, 0, 0), tank_mm=50), a_core("rear", (600, 400), (100, 0, 0)))
    assert _areas(faces["rear"]) == pytest.approx((0, 500 * 400, 0, 2 * 50 * 400))
    assert faces["front"].blocked_mm2 == 0


def test_tank_behind_blocks_too():
    faces = _faces(a_core("front", (600, 400), (50, 0, 0)), a_core("rear", (500, 400), (100, 0, 0), tank_mm=50))
    assert _areas(faces["front"]) == pytest.approx((500 * 400, 0, 0, 2 * 50 * 400))


def test_quarter_turned_tanks_block_above_and_below():
    turned = a_core("front", (400, 200), (50, 0, 0), tank_mm=50, pose={"quarter_turns": 1})
    faces = _faces(turned, a_core("rear", (600, 600), (100, 0, 0)))
    # 200 wide and 400 high, with tanks of 50 at top and bottom
    assert _areas(faces["rear"]) == pytest.approx((360_000 - 200 * 500, 200 * 400, 0, 2 * 200 * 50))


def test_flip_moves_the_shade_of_a_one_sided_tank():
    one_sided = a_core("front", (100, 400), (50, -200, 0), tank_mm=150)
    only_right = {"solids": one_sided.solids[1:], "overall": one_sided.overall}
    rear = a_core("rear", (300, 400), (100, -300, 0))
    # The rear core reaches from -450 to -150. Right tank: -150 … 0, beside it; flipped: -400 … -250, over it.
    assert _faces(a_core("front", (100, 400), (50, -200, 0), **only_right), rear)["rear"].blocked_mm2 == 0
    flipped = a_core("front", (100, 400), (50, -200, 0), pose={"flipped": True}, **only_right)
    assert _faces(flipped, rear)["rear"].blocked_mm2 == pytest.approx(150 * 400)


def test_areas_of_a_tilted_core_are_on_its_true_face():
    # Leaning by 30° it covers 400·cos 30° of height; the window lets 200 of that through.
    window = rectangle_outline(-300, -100, 300, 100)
    face = _faces(a_core(size_mm=(600, 400), pose={"tilt_deg": 30.0}), window=window)["core"]
    assert face.core_mm2 == pytest.approx(240_000)
    assert face.exposed_mm2 == pytest.approx(600 * 200 / math.cos(math.radians(30)))
    assert face.blocked_mm2 == pytest.approx(240_000 - face.exposed_mm2)


def test_outside_the_opening_and_in_a_shadow_are_off_opening():
    opening = an_opening(rectangle_outline(-300, -100, 300, 100))
    lamp = an_obstruction(rectangle_outline(0, 0, 100, 100), 0, 50)
    face = _faces(a_core(size_mm=(600, 400)), openings=[opening], obstructions=[lamp], spread_deg=0.0)["core"]
    assert face.off_opening_mm2 == pytest.approx(600 * 200 + 100 * 100)
    assert face.exposed_mm2 == pytest.approx(600 * 200 - 100 * 100)


def test_blocked_wins_over_off_opening_and_off_opening_over_behind():
    """One rear core in four quarters of 100 × 100: each quarter has one reason more than the one before."""
    rear = a_core("rear", (400, 100), (100, 0, 0))
    opening = an_opening(rectangle_outline(-200, -50, 0, 50))
    # Ahead of all but the first quarter; its right tank stands over the last quarter.
    front = a_core("front", (200, 100), (50, 0, 0), tank_mm=100)
    faces = _faces(
        rear,
        a_core("front", (200, 100), (50, 0, 0), solids=front.solids[1:], overall=front.overall),
        openings=[opening],
        spread_deg=0.0,
    )
    face = faces["rear"]
    assert _areas(face) == pytest.approx((10_000, 10_000, 10_000, 10_000))
    told = [(z.state, z.behind, z.off_because, z.blocked_by) for z in face.zones]
    assert told == [
        (FaceState.EXPOSED, (), (), ()),
        (FaceState.BEHIND, ("front",), (), ()),
        (FaceState.OFF_OPENING, ("front",), (OUTSIDE_OPENING,), ()),
        (FaceState.BLOCKED, (), (OUTSIDE_OPENING,), ("front",)),
    ]


def test_blocked_zone_keeps_what_else_the_air_would_meet():
    front = a_core("front", (600, 400), (50, 0, 0))
    faces = _faces(front, a_core("rear", (600, 400), (100, 0, 0)), window=rectangle_outline(-200, -200, 200, 200))
    zones = {zone.state: zone for zone in faces["rear"].zones}
    assert zones[FaceState.BLOCKED].blocked_by == (SUPPORT_PLATE,)
    assert zones[FaceState.BLOCKED].behind == ("front",)
    assert zones[FaceState.BEHIND].blocked_by == ()


def test_zones_ahead_of_an_obstruction_do_not_name_it():
    latch = an_obstruction(rectangle_outline(0, 0, 100, 100), 150, 180, "latch")
    cores = (a_core("front", at_mm=(100, 0, 0)), a_core("rear", at_mm=(200, 0, 0)))
    faces = _faces(*cores, obstructions=[latch])
    assert [zone.off_because for zone in faces["front"].zones] == [()]
    assert [zone.off_because for zone in faces["rear"].zones] == [(), ("latch",)]


def test_zone_names_a_part_once_however_many_of_its_solids_stand_there():
    front = a_core("front", (100, 400), (50, 0, 0), tank_mm=100)
    double = a_core("front", (100, 400), (50, 0, 0), solids=front.solids * 2, overall=front.overall)
    blocked = [z for z in _faces(double, a_core("rear", at_mm=(100, 0, 0)))["rear"].zones if z.blocked_by]
    assert [zone.blocked_by for zone in blocked] == [("front",)]


def test_zone_names_every_core_ahead_front_to_back():
    cores = [a_core(name, at_mm=(x, 0, 0)) for name, x in (("third", 150), ("first", 50), ("second", 100))]
    assert _faces(*cores)["third"].zones[0].behind == ("first", "second")


def test_unshrouded_and_unswept_are_counted_over_the_whole_core():
    core = a_core(size_mm=(600, 400))
    shroud, fan = a_shroud(size_mm=(500, 400)), a_fan(diameter_mm=300)
    window = rectangle_outline(-100, -100, 100, 100)
    face = _faces(core, shroud, fan, window=window)["core"]
    assert face.unshrouded_mm2 == pytest.approx(100 * 400)
    assert face.unswept_mm2 == pytest.approx(240_000 - math.pi * 150**2)
    bare = _faces(core)["core"]
    assert (bare.unshrouded_mm2, bare.unswept_mm2) == pytest.approx((240_000, 240_000))


def test_shroud_without_a_fan_shrouds_nothing():
    assert _faces(a_core(), a_shroud())["core"].unshrouded_mm2 == pytest.approx(240_000)


def test_more_opening_never_exposes_less():
    exposed = [
        _faces(a_core(), openings=[an_opening(rectangle_outline(-w, -100, w, 100))])["core"].exposed_mm2
        for w in (50, 100, 200, 290, 400)
    ]
    assert exposed == sorted(exposed)


def test_faces_of_equal_packs_are_equal_and_of_moved_ones_are_not():
    def faces(y_mm):
        front = a_core("front", (200, 100), (50, y_mm, 0))
        return _faces(front, a_core("rear", (600, 400), (100, 0, 0)))

    assert faces(0.0) == faces(0.0)
    # The areas are the same; where they lie is not.
    assert faces(0.0)["rear"].exposed_mm2 == pytest.approx(faces(80.0)["rear"].exposed_mm2)
    assert faces(0.0)["rear"] != faces(80.0)["rear"]
    assert hash(faces(0.0)["rear"].zones[0]) == hash(faces(0.0)["rear"].zones[0])


def test_painted_patches_are_few():
    project = a_demanding_pack(13.7, -21.3)
    painted = core_faces(build_overlay(project, 7.0), project)["radiator"].painted
    assert sum(len(patches) for patches in painted.values()) < 60


def test_patches_of_a_plain_face_are_the_rectangles_one_would_draw():
    # A core over the lower half of another: two rectangles, whatever the grid
    faces = _faces(a_core("front", (600, 200), (50, 0, -100)), a_core("rear", (600, 400), (100, 0, 0)))
    told = {zone.state: [sorted(patch) for patch in zone.patches] for zone in faces["rear"].zones}
    assert told == {
        FaceState.EXPOSED: [[(-300, 0), (-300, 200), (300, 0), (300, 200)]],
        FaceState.BEHIND: [[(-300, -200), (-300, 0), (300, -200), (300, 0)]],
    }
