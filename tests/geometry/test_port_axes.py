"""Where a port points once its part is turned, flipped, leaned and its spout clocked."""

import pytest
from msgspec.structs import replace

from grillestack.geometry.port_axes import port_axes, port_step
from grillestack.model.parts import Facing, Placement, Port, PortPurpose, Shroud


def part_with(facing, placement=None, **more):
    port = Port(purpose=PortPurpose.INLET, u_mm=100, v_mm=50, w_mm=10, facing=facing, bore_mm=40, **more)
    return Shroud(
        id="box",
        name="Box",
        width_mm=400,
        height_mm=300,
        depth_mm=60,
        ports=(port,),
        placement=placement or Placement(x_mm=200, y_mm=5, z_mm=700),
    )


def step(part):
    return port_step(part, part.ports[0])


@pytest.mark.parametrize(
    ("facing", "way"),
    [
        (Facing.RIGHT, (0, 1, 0)),
        (Facing.LEFT, (0, -1, 0)),
        (Facing.UP, (0, 0, 1)),
        (Facing.DOWN, (0, 0, -1)),
        (Facing.REAR, (1, 0, 0)),
        (Facing.FRONT, (-1, 0, 0)),
    ],
)
def test_unturned_it_points_as_it_faces(facing, way):
    assert step(part_with(facing)) == pytest.approx(way)


def test_a_quarter_turn_clockwise_from_ahead_takes_right_to_up():
    # From ahead the vehicle's right lies at the viewer's left: clockwise from there is up.
    turned = part_with(Facing.RIGHT, Placement(quarter_turns=1))
    assert step(turned) == pytest.approx((0, 0, 1))


def test_a_spout_clocked_by_a_quarter_points_as_if_the_part_were_turned():
    assert step(part_with(Facing.RIGHT, clock_deg=90.0)) == pytest.approx((0, 0, 1), abs=1e-9)
    assert step(part_with(Facing.UP, clock_deg=90.0)) == pytest.approx((0, -1, 0), abs=1e-9)
    assert step(part_with(Facing.REAR, clock_deg=33.0)) == pytest.approx((1, 0, 0), abs=1e-9)


def test_flipped_it_points_the_other_way_across_and_along():
    assert step(part_with(Facing.RIGHT, Placement(flipped=True))) == pytest.approx((0, -1, 0))
    assert step(part_with(Facing.REAR, Placement(flipped=True))) == pytest.approx((-1, 0, 0))
    assert step(part_with(Facing.UP, Placement(flipped=True))) == pytest.approx((0, 0, 1))


def test_a_lean_tips_what_points_rearward_down():
    # The top leans rearward, so a spout to the rear points down a little; cos 20° = 0.9397, sin 20° = 0.3420.
    x, y, z = step(part_with(Facing.REAR, Placement(tilt_deg=20)))
    assert (x, y, z) == pytest.approx((0.9397, 0.0, -0.3420), abs=1e-4)


def test_an_axis_lies_on_no_line_along_which_it_runs():
    (axis,) = port_axes(part_with(Facing.RIGHT))
    # Face centre at (200, 5, 700), port 100 to the right, 50 up, 10 rearward.
    assert (axis.x_mm, axis.y_mm, axis.z_mm) == (210, None, 750)
    (axis,) = port_axes(part_with(Facing.REAR))
    assert (axis.x_mm, axis.y_mm, axis.z_mm) == (None, 105, 750)


def test_a_part_without_ports_has_no_axes():
    assert port_axes(replace(part_with(Facing.UP), ports=())) == ()
