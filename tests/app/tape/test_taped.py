"""The core that follows from what was measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.app.tape.taped import (
    Corner,
    Tanks,
    Taped,
    TapedMount,
    TapedPort,
    core_from,
    front_of,
    place_of,
    tank_place,
)
from grillestack.model.parts import CoreRole, Facing, PortPurpose, SolidKind, TubeDirection

# A cross-flow core of 600 × 400 with tanks of 50 and 70 and plates of 8: in all 720 × 416.
MEASURED = Taped(
    role=CoreRole.RADIATOR,
    core_width_mm=600,
    core_height_mm=400,
    depth_mm=40,
    overall_width_mm=720,
    overall_height_mm=416,
    core_right_mm=50,
)


def test_the_core_has_the_sizes_measured_and_may_be_changed():
    core = core_from(MEASURED)
    assert (core.core_width_mm, core.core_height_mm, core.depth_mm) == (600, 400, 40)
    assert (core.overall.width_mm, core.overall.height_mm) == (720, 416)
    assert core.own_sizes
    assert core.name == "Measured radiator"


def test_tanks_and_plates_fill_what_is_beside_the_core():
    core = core_from(MEASURED)
    # The vehicle's right is +u: the tank of 50 is there, the one of 70 at the left.
    widths = {s.rect.u_min_mm > 0: s.rect.width_mm for s in core.solids if s.kind is SolidKind.TANK}
    assert widths == {True: pytest.approx(50), False: pytest.approx(70)}
    plates = [s.rect.height_mm for s in core.solids if s.kind is SolidKind.SIDE_PLATE]
    assert plates == [pytest.approx(8), pytest.approx(8)]
    covered = sum(s.rect.width_mm * s.rect.height_mm for s in core.solids) + 600 * 400
    assert covered == pytest.approx(720 * 416)


def test_tanks_above_and_below_make_a_down_flow_core():
    down = core_from(
        replace(MEASURED, tanks=Tanks.ENDS, core_right_mm=None, overall_width_mm=616, overall_height_mm=520)
    )
    assert down.tubes is TubeDirection.DOWN_FLOW
    assert {s.rect.height_mm for s in down.solids if s.kind is SolidKind.TANK} == {60}
    assert core_from(MEASURED).tubes is TubeDirection.CROSS_FLOW


@pytest.mark.parametrize(
    ("deep", "ahead", "place"),
    [(None, None, (0, 40)), (60, None, (-10, 60)), (60, 5, (-5, 60)), (60, 0, (0, 60)), (30, None, (5, 30))],
)
def test_a_tank_stands_the_same_ahead_and_behind_unless_measured(deep, ahead, place):
    assert tank_place(replace(MEASURED, tank_depth_mm=deep, tank_ahead_mm=ahead)) == pytest.approx(place)
    solid = core_from(replace(MEASURED, tank_depth_mm=deep, tank_ahead_mm=ahead)).solids[0]
    assert (solid.front_mm, solid.depth_mm) == pytest.approx(place)


@pytest.mark.parametrize(
    ("corner", "place"),
    [
        # Overall from u = -370 to 350, v = -208 to 208; 30 sideways and 60 up or down from each corner.
        (Corner.UPPER_RIGHT, (320, 148)),
        (Corner.UPPER_LEFT, (-340, 148)),
        (Corner.LOWER_RIGHT, (320, -148)),
        (Corner.LOWER_LEFT, (-340, -148)),
    ],
)
def test_a_port_is_counted_from_its_corner(corner, place):
    port = TapedPort(
        purpose=PortPurpose.OUTLET, facing=Facing.DOWN, corner=corner, across_mm=30, along_mm=60, bore_mm=38
    )
    made = core_from(replace(MEASURED, ports=(port,))).ports[0]
    assert (made.u_mm, made.v_mm) == pytest.approx(place)
    assert (made.purpose, made.facing, made.bore_mm, made.w_mm) == (PortPurpose.OUTLET, Facing.DOWN, 38, 20)


def test_mounts_and_weight_are_taken_along():
    mount = TapedMount(kind_text="pin", corner=Corner.LOWER_LEFT, across_mm=0, along_mm=0, hole_mm=16)
    core = core_from(replace(MEASURED, mounts=(mount,), weight_kg=7.5, name=" Old one "))
    assert (core.mounts[0].u_mm, core.mounts[0].v_mm, core.mounts[0].kind_text) == (-370, -208, "pin")
    assert (core.weight_kg, core.name) == (7.5, "Old one")


def test_readings_that_differ_by_a_hair_do_not_let_the_core_out():
    core = core_from(replace(MEASURED, overall_width_mm=599.7, core_right_mm=None, overall_height_mm=400))
    assert core.overall.width_mm == 600
    assert core.solids == ()


def test_nothing_is_drawn_before_the_sizes_are_there():
    assert front_of(replace(MEASURED, overall_height_mm=None)) is None
    front = front_of(MEASURED)
    assert place_of(front, TapedPort(across_mm=3)) is None
