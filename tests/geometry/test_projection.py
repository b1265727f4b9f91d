"""Poses by hand: each turn on its own, then together."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.projection import BodyKind, Box, Circle, placed_boxes, placed_point, project_part
from grillestack.model.outline import Rect
from grillestack.model.parts import Facing, Port, PortPurpose, Solid, SolidKind, TubeDirection
from tests.geometry.packs import a_core, a_fan, a_shroud

# One tank, 50 wide, on the vehicle's right (u > 0) of a 600 × 400 core, from 10 to 30 mm behind the front face
ONE_TANK = {
    "solids": (
        Solid(
            kind=SolidKind.TANK,
            rect=Rect(u_min_mm=300, v_min_mm=-200, u_max_mm=350, v_max_mm=200),
            front_mm=10,
            depth_mm=20,
        ),
    ),
    "overall": Rect(u_min_mm=-300, v_min_mm=-200, u_max_mm=350, v_max_mm=200),
}


def _inlet(u_mm: float, v_mm: float) -> tuple[Port, ...]:
    return (Port(purpose=PortPurpose.INLET, u_mm=u_mm, v_mm=v_mm, facing=Facing.REAR, bore_mm=38),)


def test_part_as_mounted_stands_around_its_placement():
    part = project_part(a_core(at_mm=(120, 10, 650), **ONE_TANK))
    assert part.core_box == Box(-290, 450, 310, 850)
    assert part.solid_boxes == (Box(310, 450, 360, 850),)
    assert part.solid_kinds == (SolidKind.TANK,)
    assert part.outline_box == Box(-290, 450, 360, 850)
    assert (part.x_front_mm, part.x_rear_mm) == (120, 160)
    assert (part.core_x_front_mm, part.core_x_rear_mm) == (120, 160)


def test_flip_brings_the_right_tank_to_the_left_and_mirrors_its_depth():
    part = project_part(a_core(pose={"flipped": True}, **ONE_TANK))
    assert part.solid_boxes == (Box(-350, -200, -300, 200),)
    tank = placed_boxes(a_core(pose={"flipped": True}, **ONE_TANK))[1]
    # 40 deep: what was 10 … 30 from the front is 10 … 30 from the rear, so 10 … 30 again; shift it to see it move
    assert (tank.x0_mm, tank.x1_mm) == (110, 130)
    deeper = a_core(pose={"flipped": True}, **ONE_TANK | {"depth_mm": 70})
    assert [(b.x0_mm, b.x1_mm) for b in placed_boxes(deeper)] == [(100, 170), (140, 160)]


def test_solid_that_sticks_out_behind_sticks_out_ahead_after_a_flip():
    tank = Solid(kind=SolidKind.TANK, rect=Rect(u_min_mm=300, v_min_mm=-200, u_max_mm=350, v_max_mm=200), depth_mm=65)
    as_mounted = project_part(a_core(depth_mm=40, **ONE_TANK | {"solids": (tank,)}))
    flipped = project_part(a_core(depth_mm=40, pose={"flipped": True}, **ONE_TANK | {"solids": (tank,)}))
    assert (as_mounted.x_front_mm, as_mounted.x_rear_mm) == (100, 165)
    assert (flipped.x_front_mm, flipped.x_rear_mm) == (75, 140)
    assert flipped.core_x_front_mm == 100


def test_quarter_turn_takes_the_right_tank_to_the_top():
    part = project_part(a_core(pose={"quarter_turns": 1}, **ONE_TANK))
    assert part.solid_boxes == (Box(-200, 300, 200, 350),)
    assert part.core_box == Box(-200, -300, 200, 300)


def test_four_quarter_turns_are_none():
    places = [placed_point(a_core(pose={"quarter_turns": n}), 300, 70, 20) for n in range(4)]
    assert places == [(120, 300, 70), (120, -70, 300), (120, -300, -70), (120, 70, -300)]


def test_flip_comes_before_the_quarter_turn():
    # Flip: the right tank goes left; a quarter turn takes left to down.
    part = project_part(a_core(pose={"quarter_turns": 1, "flipped": True}, **ONE_TANK))
    assert part.solid_boxes == (Box(-200, -350, 200, -300),)


def test_tilt_shortens_heights_and_leans_the_top_rearward():
    part = project_part(a_core(at_mm=(100, 0, 0), pose={"tilt_deg": 30.0}))
    assert part.cos_tilt_frac == pytest.approx(math.sqrt(3) / 2)
    assert part.core_box.z1_mm == pytest.approx(200 * math.sqrt(3) / 2)
    assert part.core_box.y1_mm == 300
    # Half the height times sin 30° ahead of the centre; behind it the same plus 40 mm of depth times cos 30°
    assert part.core_x_front_mm == pytest.approx(100 - 100)
    assert part.core_x_rear_mm == pytest.approx(100 + 100 + 40 * math.cos(math.radians(30)))
    assert placed_point(a_core(pose={"tilt_deg": 30.0}), 0, 200) == pytest.approx((200, 0, 200 * math.cos(math.pi / 6)))


def test_planes_of_a_tilted_body_run_through_its_corners():
    core = a_core(at_mm=(100, 0, 50), pose={"tilt_deg": -20.0})
    body = project_part(core).bodies[0]
    for v in (-200, 0, 200):
        x, _, z = placed_point(core, 0, v, 0)
        assert body.front_mm + body.lean_frac * (z - body.lean_z_mm) == pytest.approx(x)
        x, _, z = placed_point(core, 0, v, 40)
        assert body.rear_mm + body.lean_frac * (z - body.lean_z_mm) == pytest.approx(x)


def test_side_corners_are_the_placed_corners():
    core = a_core(at_mm=(100, 0, 50), pose={"tilt_deg": 12.0, "flipped": True})
    box = placed_boxes(core)[0]
    # Flipped: the rear face (w = 40) looks forward
    expected = [placed_point(core, 0, v, w) for v, w in ((-200, 40), (200, 40), (200, 0), (-200, 0))]
    assert [c for corner in box.side_corners_mm for c in corner] == pytest.approx(
        [c for x, _, z in expected for c in (x, z)]
    )
    assert (box.x0_mm, box.x1_mm) == pytest.approx((min(x for x, _, _ in expected), max(x for x, _, _ in expected)))


@pytest.mark.parametrize(
    ("tubes", "turns", "axis"),
    [
        (TubeDirection.CROSS_FLOW, 0, "y"),
        (TubeDirection.CROSS_FLOW, 1, "z"),
        (TubeDirection.CROSS_FLOW, 2, "y"),
        (TubeDirection.DOWN_FLOW, 0, "z"),
        (TubeDirection.DOWN_FLOW, 3, "y"),
    ],
)
def test_tubes_turn_with_the_part(tubes, turns, axis):
    assert project_part(a_core(tubes=tubes, pose={"quarter_turns": turns})).tube_axis == axis


def test_inlet_end_follows_flip_and_turns():
    left = _inlet(-320, 150)
    assert project_part(a_core(ports=left)).inlet_at_low_end is True
    assert project_part(a_core(ports=left, pose={"flipped": True})).inlet_at_low_end is False
    # A quarter turn takes left to down: the inlet is at the low end of upright tubes.
    assert project_part(a_core(ports=left, pose={"quarter_turns": 1})).inlet_at_low_end is True
    assert project_part(a_core(ports=left, pose={"quarter_turns": 2})).inlet_at_low_end is False


def test_inlet_side_is_across_the_tubes():
    assert project_part(a_core(ports=_inlet(-320, 150))).inlet_at_low_side is False
    assert project_part(a_core(ports=_inlet(-320, -150))).inlet_at_low_side is True
    assert project_part(a_core(ports=_inlet(-320, 0))).inlet_at_low_side is None


def test_without_an_inlet_nothing_is_said_of_its_end():
    outlet = (Port(purpose=PortPurpose.OUTLET, u_mm=-320, v_mm=0, facing=Facing.REAR, bore_mm=38),)
    assert project_part(a_core(ports=outlet)).inlet_at_low_end is None
    assert project_part(a_fan()).tube_axis is None


def test_fan_is_a_circle_and_a_shroud_a_box():
    fan = project_part(a_fan(diameter_mm=300, at_mm=(160, 20, -5)))
    assert fan.circle == Circle(20, -5, 150)
    assert fan.outline_box == Box(-130, -155, 170, 145)
    assert (fan.is_fan, fan.is_core, fan.is_shroud) == (True, False, False)
    shroud = project_part(a_shroud(size_mm=(500, 300)))
    assert shroud.outline_box == Box(-250, -150, 250, 150)
    assert shroud.bodies[0].kind is BodyKind.SHROUD
    assert shroud.circle is None


def test_equal_parts_share_one_projection():
    assert project_part(a_core()) is project_part(a_core())
