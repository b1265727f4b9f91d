"""What a part takes up: boxes, first bends, pads; and that they stand where the projection puts the part."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.geometry.projection import placed_boxes, placed_point
from grillestack.geometry.taken_space import (
    ELBOW_BORES_FACTOR,
    Matter,
    Pose,
    outside_mm,
    own_pieces,
    port_direction,
    posed_pieces,
)
from grillestack.model.parts import Facing, Placement, Port, PortPurpose
from tests.geometry.packs import a_core, a_fan, a_shroud
from tests.geometry.rooms import a_cooler
from tests.geometry.test_room import POSES


def a_port(**fields) -> Port:
    given = {
        "purpose": PortPurpose.INLET,
        "u_mm": 100.0,
        "v_mm": 20.0,
        "w_mm": 30.0,
        "facing": Facing.RIGHT,
        "bore_mm": 50.0,
    }
    return Port(**{**given, **fields})


def elbow(port: Port):
    return next(p for p in own_pieces(a_core(ports=(port,))) if p.matter is Matter.PORT)


def test_a_bend_of_one_and_a_half_bores_reaches_two_bores_out():
    # the middle of the bend turns on a radius of 1.5 bores, its outer edge on 2 (practice: R/D at least 1.5, published)
    assert ELBOW_BORES_FACTOR == 1.5 + 0.5
    box = elbow(a_port(outside_mm=54.0)).box
    assert (box.y0_mm, box.y1_mm) == (100.0, 200.0)
    assert (box.z0_mm, box.z1_mm) == (20 - 27, 20 + 27)


def test_a_bend_to_the_rear_reaches_rearward_only():
    piece = elbow(a_port(facing=Facing.REAR, outside_mm=54.0))
    assert (piece.front_mm, piece.rear_mm) == (30.0, 130.0)
    assert piece.box.y1_mm - piece.box.y0_mm == 54.0


def test_a_drain_asks_for_one_bore():
    assert elbow(a_port(purpose=PortPurpose.DRAIN)).box.y1_mm == 150.0


def test_a_hose_is_a_wall_thicker_than_its_bore_where_nothing_was_measured():
    assert outside_mm(a_port()) == 56.0
    assert outside_mm(a_port(outside_mm=51.0)) == 51.0


@pytest.mark.parametrize(
    ("facing", "clock_deg", "step"),
    [
        (Facing.RIGHT, 0.0, (0, 1, 0)),
        (Facing.RIGHT, 90.0, (0, 0, 1)),  # clockwise as seen from ahead, where the vehicle's right is at the left
        (Facing.UP, 90.0, (0, -1, 0)),
        (Facing.DOWN, -90.0, (0, -1, 0)),
        (Facing.REAR, 90.0, (1, 0, 0)),
    ],
)
def test_a_spout_turns_clockwise_as_seen_from_ahead(facing, clock_deg, step):
    found = port_direction(a_port(facing=facing, clock_deg=clock_deg), Pose())
    assert found == pytest.approx(step, abs=1e-12)


def test_a_spout_that_points_askew_has_a_slanted_bend():
    piece = elbow(a_port(clock_deg=45.0, outside_mm=50.0))
    assert len(piece.corners_mm) == 4
    # 100 along and 25 aside, both at 45°: (100 + 25)/√2 up from the mouth's middle
    assert piece.box.z1_mm == pytest.approx(20 + 125 / 2**0.5)


@pytest.mark.parametrize("pose", POSES)
@pytest.mark.parametrize(
    "part", [a_cooler(), a_shroud(at_mm=(0, 0, 0)), a_fan(at_mm=(0, 0, 0))], ids=lambda part: part.id
)
def test_pieces_stand_where_the_part_stands(part, pose):
    placed = replace(part, placement=Placement(quarter_turns=pose.quarter_turns, flipped=pose.flipped))
    pieces = [piece for piece in posed_pieces(part, pose) if piece.matter not in (Matter.PORT, Matter.MOUNT)]
    for piece, box in zip(pieces, placed_boxes(placed), strict=True):
        sides = (piece.box.y0_mm, piece.box.z0_mm, piece.box.y1_mm, piece.box.z1_mm)
        assert sides == pytest.approx((box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm))
        assert (piece.front_mm, piece.rear_mm) == pytest.approx((box.x0_mm, box.x1_mm))


@pytest.mark.parametrize("pose", POSES)
def test_a_port_points_where_the_projection_puts_the_point_ahead_of_it(pose):
    part = a_cooler()
    placed = replace(part, placement=Placement(quarter_turns=pose.quarter_turns, flipped=pose.flipped))
    for port, (du, dv) in zip(part.ports, ((-1, 0), (0, -1)), strict=True):
        mouth = placed_point(placed, port.u_mm, port.v_mm, port.w_mm)
        ahead = placed_point(placed, port.u_mm + du, port.v_mm + dv, port.w_mm)
        step = tuple(b - a for a, b in zip(mouth, ahead, strict=True))
        assert port_direction(port, pose) == pytest.approx(step)


def test_the_pad_of_a_bracket_keeps_one_hole_from_the_hole_to_its_edge():
    pad = next(p for p in own_pieces(a_cooler()) if p.matter is Matter.MOUNT)
    assert pad.box.y1_mm - pad.box.y0_mm == 18.0
    assert pad.rear_mm - pad.front_mm == 9.0


def test_a_rings_outline_never_lies_within_the_ring():
    ring = own_pieces(a_fan(diameter_mm=400.0))[0]
    nearest = min(
        abs(a[0] * b[1] - a[1] * b[0]) / ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        for a, b in zip(ring.corners_mm, ring.corners_mm[1:], strict=False)
    )
    assert nearest == pytest.approx(200.0)
