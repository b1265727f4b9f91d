"""The exact room of a part: by hand, by trying every millimetre, and by laws that hold for any nose and any part."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.geometry.room import holds, nearest_place, room_of, travel_at
from grillestack.geometry.setting import setting_of
from grillestack.geometry.taken_space import Pose
from grillestack.model.nose import DepthStations, Nose, Obstruction, SupportWindow
from grillestack.model.outline import Point, SidePoint
from grillestack.model.project import Project
from tests.geometry.packs import a_core, a_fan, a_shroud
from tests.geometry.rooms import (
    CLEAR,
    LAMP,
    a_beam,
    a_cooler,
    a_setting,
    a_window,
    at_origin,
    free_by_trying,
    grid_over,
    posed_body,
)

SLACK_MM = 1e-4
POSES = [Pose(turns, flipped) for turns in range(4) for flipped in (False, True)]


def region_of(room):
    return shapely.union_all(
        [shapely.Polygon(rings[0], rings[1:]) for rings in room.polygons_mm] or [shapely.Polygon()]
    )


def sides(room):
    b = room.bounds
    return (b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)


# By hand


def test_a_core_ahead_of_the_plate_needs_only_its_fins_before_the_window():
    # window 600 × 400, fins 300 × 120: 600 − 300 = 300 to move across, 400 − 120 = 280 up
    room = room_of(a_setting(), posed_body(a_cooler(ports=False)), 100.0)
    assert sides(room) == pytest.approx((-150, -140, 150, 140), abs=1e-5)
    assert room.area_mm2 == pytest.approx(300 * 280, rel=1e-6)


def test_a_cooler_that_crosses_the_plate_goes_through_the_window_whole_and_hot():
    # over all 300 + 2 × 40 = 380, and 6 mm of growth at either end: 600 − 392 = 208
    room = room_of(a_setting(), posed_body(a_cooler(ports=False)), 460.0)
    assert sides(room) == pytest.approx((-104, -140, 104, 140), abs=1e-5)


def test_a_turned_cooler_needs_its_width_upright():
    room = room_of(a_setting(), posed_body(a_cooler(ports=False), Pose(1)), 100.0)
    assert sides(room) == pytest.approx((-240, -50, 240, 50), abs=1e-5)


def test_an_obstruction_takes_itself_the_part_and_the_clearance():
    # beam 40 wide at the window's left edge, over its whole height: fins begin 150 from the middle, tanks 190, plus 25
    setting = a_setting(a_beam(-300, -300, -260, 300))
    room = room_of(setting, posed_body(a_cooler(ports=False)), 100.0)
    assert sides(room)[0] == pytest.approx(-260 + 25 + 190, abs=1e-5)


@pytest.mark.parametrize(("x_mm", "meets"), [(15.0, False), (16.0, True), (204.9, True), (205.0, False)])
def test_only_what_comes_nearer_than_the_clearance_along_the_vehicle_is_in_the_way(x_mm, meets):
    # beam from 100 to 180, part 60 deep: free up to 100 − 25 − 60 = 15 and from 180 + 25 = 205
    setting = a_setting(a_beam(-300, -300, 300, 300))
    assert room_of(setting, posed_body(a_cooler(ports=False)), x_mm).is_empty is meets


def test_a_part_that_fits_exactly_has_one_place():
    room = room_of(a_setting(), posed_body(a_core(size_mm=(600.0, 400.0))), 100.0)
    assert holds(room, 0.0, 0.0)
    assert not holds(room, 0.01, 0.0)


def test_a_part_wider_than_the_window_has_no_room():
    assert room_of(a_setting(), posed_body(a_core(size_mm=(600.1, 300.0))), 100.0).is_empty


def test_a_part_before_the_grille_or_too_near_the_pulley_has_no_room():
    setting = a_setting(stations=DepthStations(grille_x_mm=0.0, pulley_x_mm=300.0))
    body = posed_body(a_cooler(ports=False))
    assert not room_of(setting, body, 0.0).is_empty
    assert room_of(setting, body, -0.1).is_empty
    assert not room_of(setting, body, 300 - 25 - 60.0).is_empty
    assert room_of(setting, body, 300 - 25 - 60.0 + 0.1).is_empty


def test_the_bonnet_line_cuts_the_room_off_above():
    # lowest metal over 100…160 is at x 100: 150; less 20, less half of 120
    line = (SidePoint(0.0, 140.0), SidePoint(200.0, 160.0))
    room = room_of(a_setting(stations=DepthStations(bonnet_line=line)), posed_body(a_cooler(ports=False)), 100.0)
    assert sides(room)[3] == pytest.approx(150 - 20 - 60, abs=1e-5)


def test_a_hole_in_the_room_is_a_hole_of_its_outline():
    setting = a_setting(a_beam(-5, -5, 5, 5), window=a_window(-600, -600, 600, 600))
    room = room_of(setting, posed_body(a_core(size_mm=(100.0, 100.0))), 100.0)
    # a square of 2 × (5 + 25 + 50) = 160 is taken out of 1100 × 1100
    assert len(room.polygons_mm) == 1
    assert len(room.polygons_mm[0]) == 2
    assert room.area_mm2 == pytest.approx(1100**2 - 160**2, rel=1e-6)


def test_a_neighbours_bend_and_bracket_take_room_without_a_clearance():
    other = a_cooler()
    placed = replace(other, placement=replace(other.placement, x_mm=0.0, y_mm=0.0, z_mm=0.0))
    setting = a_setting(parts=(placed,), window=a_window(-900, -900, 900, 900))
    room = room_of(setting, posed_body(a_core(size_mm=(50.0, 20.0))), 10.0)
    # left of the tank at −190 stands a bend of 2 × 40 mm: the small core must stay 25 left of −270
    assert holds(room, -295.0, 12.0)
    assert not holds(room, -294.9, 12.0)


def test_how_far_a_part_can_be_moved_from_a_place():
    room = room_of(a_setting(), posed_body(a_cooler(ports=False)), 100.0)
    travel = travel_at(room, -30.0, 40.0)
    found = (travel.left_mm, travel.right_mm, travel.down_mm, travel.up_mm)
    assert found == pytest.approx((120, 180, 180, 100), abs=1e-5)
    assert travel.least_mm == pytest.approx(100, abs=1e-5)


def test_the_nearest_place_is_the_point_itself_or_on_the_edge():
    room = room_of(a_setting(), posed_body(a_cooler(ports=False)), 100.0)
    assert nearest_place(room, 10.0, 20.0) == (10.0, 20.0)
    assert nearest_place(room, 400.0, 20.0) == pytest.approx((150, 20), abs=1e-5)


# Every millimetre tried


def against_trying(nose, others, part, x_mm, pose, hair_mm=0.0, step_mm=1.0):
    """Assert that the region and every place tried agree; on its very edge, within the slack, both answers are right."""
    grid = grid_over(-230, -165, 230, 165, step_mm)
    project = Project(nose=nose, parts=tuple(others))
    room = room_of(setting_of(project, (), CLEAR), posed_body(part, pose), x_mm)
    within = shapely.intersects_xy(region_of(room), *grid)
    turned = at_origin(part, pose)
    narrow = free_by_trying(nose, others, turned, x_mm, grid, -SLACK_MM - hair_mm)
    wide = free_by_trying(nose, others, turned, x_mm, grid, SLACK_MM)
    assert not (narrow & ~within).any()
    assert not (within & ~wide).any()
    return within


@pytest.mark.parametrize("pose", POSES)
def test_the_room_is_what_is_found_by_trying_every_millimetre(pose):
    lamp = Obstruction(id="lamp", name="Invented lamp", outline=LAMP, x_front_mm=80.0, x_rear_mm=150.0)
    line = (SidePoint(0.0, 210.0), SidePoint(150.0, 190.0), SidePoint(300.0, 260.0))
    nose = Nose(
        support_window=a_window(x_mm=175.0),
        obstructions=(a_beam(-340.3, -260, -200.7, -120.4), lamp),
        stations=DepthStations(bonnet_line=line),
    )
    fan = a_fan("fan", 120.0, (150.0, -120.0, 130.0), 50.0)
    within = against_trying(
        nose, (fan,), a_cooler((160.0, 90.0)), 110.0, pose, 0.1
    )  # the ring, 60 mm in radius, stands as a polygon
    assert within.any()
    assert not within.all()


def test_the_room_in_a_window_with_slanted_corners_is_what_is_found_by_trying():
    outline = tuple(
        Point(*c) for c in ((-200, -200), (210, -200), (300, -80), (300, 120), (230, 200), (-300, 200), (-300, -90))
    )
    nose = Nose(support_window=SupportWindow(outline=outline, x_mm=130.0), obstructions=(a_beam(50, -250, 90, -150),))
    assert against_trying(nose, (), a_cooler((160.0, 90.0)), 110.0, Pose()).any()
    assert against_trying(nose, (), a_cooler((160.0, 90.0)), 40.0, Pose(3, flipped=True)).any()


def test_the_room_of_a_fan_is_what_is_found_by_trying_to_the_width_of_a_hair():
    # the ring stands as a polygon round it: at most its radius × (1/cos(180°/64) − 1), 0.12 mm here, too large
    nose = Nose(support_window=a_window(), obstructions=(a_beam(-40.2, -30.1, 30.3, 20.7),))
    fan = a_fan("fan", 200.0, (0.0, 0.0, 0.0), 50.0)
    grid = grid_over(-200, -100, 200, 100)
    room = room_of(setting_of(Project(nose=nose), (), CLEAR), posed_body(fan), 110.0)
    within = shapely.intersects_xy(region_of(room), *grid)
    hair = 100 * (1 / math.cos(math.pi / 64) - 1)
    assert not (within & ~free_by_trying(nose, (), fan, 110.0, grid, SLACK_MM)).any()
    assert not (free_by_trying(nose, (), fan, 110.0, grid, -2 * hair) & ~within).any()


@st.composite
def noses(draw):
    beams = [
        a_beam(y, z, y + w, z + h, x, x + d, f"beam-{k}")
        for k, (y, z, w, h, x, d) in enumerate(
            draw(
                st.lists(
                    st.tuples(
                        *(st.floats(-350, 250) for _ in range(2)),
                        *(st.floats(5, 120) for _ in range(2)),
                        st.floats(0, 250),
                        st.floats(5, 120),
                    ),
                    max_size=4,
                )
            )
        )
    ]
    return Nose(support_window=a_window(x_mm=draw(st.floats(50, 400))), obstructions=tuple(beams))


coolers = st.builds(lambda w, h, d: a_cooler((w, h), d), st.floats(60, 400), st.floats(40, 300), st.floats(20, 90))


@settings(max_examples=15, deadline=None)
@given(noses(), coolers, st.floats(0, 300), st.sampled_from(POSES))
def test_any_room_is_what_is_found_by_trying(nose, part, x_mm, pose):
    neighbour = a_shroud("shroud", (120.0, 90.0), (220.0, 100.0, -60.0), 40.0)
    against_trying(nose, (neighbour,), part, x_mm, pose, step_mm=2.0)


# Laws


def area_mm2(nose, part, x_mm, pose=Pose()):  # noqa: B008  a frozen value
    return region_of(room_of(setting_of(Project(nose=nose), (), CLEAR), posed_body(part, pose), x_mm))


@settings(max_examples=40, deadline=None)
@given(noses(), coolers, st.floats(0, 300), st.floats(0.3, 1.0), st.floats(0.3, 1.0), st.sampled_from(POSES))
def test_a_smaller_part_never_has_less_room(nose, part, x_mm, narrower, lower, pose):
    large = replace(part, ports=(), mounts=())
    small = replace(
        a_cooler((part.core_width_mm * narrower, part.core_height_mm * lower), part.depth_mm), ports=(), mounts=()
    )
    lost = shapely.difference(area_mm2(nose, large, x_mm, pose), area_mm2(nose, small, x_mm, pose))
    assert shapely.area(lost) < 1e-3


@settings(max_examples=40, deadline=None)
@given(noses(), coolers, st.floats(0, 300))
def test_taking_an_obstruction_away_never_takes_room(nose, part, x_mm):
    assume(nose.obstructions)
    fewer = replace(nose, obstructions=nose.obstructions[1:])
    lost = shapely.difference(area_mm2(nose, part, x_mm), area_mm2(fewer, part, x_mm))
    assert shapely.area(lost) < 1e-3


@settings(max_examples=30, deadline=None)
@given(noses(), coolers, st.floats(0, 300), st.floats(-40, 40), st.floats(-40, 40))
def test_a_nose_that_is_shifted_shifts_the_room(nose, part, x_mm, dy, dz):
    def moved(outline):
        return tuple(Point(p.y_mm + dy, p.z_mm + dz) for p in outline)

    shifted = replace(
        nose,
        support_window=replace(nose.support_window, outline=moved(nose.support_window.outline)),
        obstructions=tuple(replace(o, outline=moved(o.outline)) for o in nose.obstructions),
    )
    here, there = area_mm2(nose, part, x_mm), area_mm2(shifted, part, x_mm)
    there = shapely.transform(there, lambda at: at - np.array([dy, dz]))
    assert shapely.area(shapely.symmetric_difference(here, there)) < 1e-2


@settings(max_examples=30, deadline=None)
@given(noses(), coolers, st.floats(0, 300))
def test_a_part_that_is_alike_upside_down_has_the_same_room_upside_down(nose, part, x_mm):
    plain = replace(part, ports=(), mounts=())
    upright, over = area_mm2(nose, plain, x_mm), area_mm2(nose, plain, x_mm, Pose(2))
    assert shapely.area(shapely.symmetric_difference(upright, over)) < 1e-3
