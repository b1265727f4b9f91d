"""The pieces of the frame around a pack as frozen values, and the shapes of its arms and angles laid flat."""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass

from grillestack.sheets.bend import Bend, flat_length_mm
from grillestack.sheets.draw_list import Point
from grillestack.sheets.flat_part import BendLine, FlatPart, Hole, rectangle
from grillestack.sheets.paper import Area

# Sizes of common practice, no source: M8 bolts, room for a spanner, rubber under and over each part.
BOLT, BOLT_HOLE_MM, BOLTS_APART_MM, LEG_MM, LEG_HOLE_MM = "M8", 9.0, 20.0, 45.0, 28.0
ARM_WIDTH_MM, RUBBER_MM, LEAST_EDGE_MM = 40.0, 4.0, 12.0
# A pin stands in a rubber bush whose wall is so thick.
BUSH_WALL_MM = 4.0


class Kind(enum.Enum):
    """What a piece is."""

    ARM = "arm"
    CROSS_RAIL = "cross rail"
    SIDE_RAIL = "side rail"
    FOOT = "foot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An angle folded from one strip: its two legs over the outer faces and how long the strip's bend is."""

    seat_mm: float
    leg_mm: float
    length_mm: float
    bend: Bend


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece to be made; alike ones are one piece, several off. `remark` is said beside it."""

    name: str
    kind: Kind
    title: str
    count: int
    angle: Angle
    flat: FlatPart
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Space:
    """The room that a piece takes in the nose: across to the vehicle's left, x rearward, z up."""

    across0_mm: float
    across1_mm: float
    x0_mm: float
    x1_mm: float
    z0_mm: float
    z1_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One piece in its place, for the drawing of the whole frame."""

    name: str
    kind: Kind
    space: Space


def angle_flat(
    angle: Angle, seat_holes: tuple[Hole, ...], leg_holes: tuple[Hole, ...], *, is_up: bool = False
) -> FlatPart:
    """Return an angle laid flat, its leg below and its seat above, seen on the outer faces, so that it bends down.

    Holes are given by their distance across from the left end and from the outer face of the other leg.
    """
    bend = angle.bend
    length = flat_length_mm((angle.seat_mm, angle.leg_mm), bend)
    middle = angle.leg_mm - bend.setback_mm + bend.allowance_mm / 2
    holes = [_put(hole, angle.leg_mm + hole.at.y_mm - bend.deduction_mm) for hole in seat_holes]
    holes += [_put(hole, angle.leg_mm - hole.at.y_mm) for hole in leg_holes]
    return FlatPart(
        contour=rectangle(Area(0.0, 0.0, angle.length_mm, length)),
        holes=tuple(holes),
        bends=(BendLine(start=Point(0.0, middle), end=Point(angle.length_mm, middle), is_up=is_up),),
    )


def arm_edge_mm(hole: Hole) -> float:
    """Return how much sheet stays between the middle of a seat's hole and the end of the arm."""
    return max(LEAST_EDGE_MM, 1.5 * hole.diameter_mm, max(hole.slot_mm, hole.diameter_mm) / 2 + LEAST_EDGE_MM - 2.0)


def arm(reach_mm: float, seat_hole: Hole, bend: Bend) -> tuple[Angle, FlatPart]:
    """Return an arm: its leg is bolted to a rail, its seat reaches to the hole and a little beyond."""
    width = float(math.ceil(max(ARM_WIDTH_MM, 2.4 * seat_hole.diameter_mm)))
    angle = Angle(seat_mm=reach_mm + arm_edge_mm(seat_hole), leg_mm=LEG_MM, length_mm=width, bend=bend)
    seat = Hole(
        at=Point(width / 2, reach_mm),
        diameter_mm=seat_hole.diameter_mm,
        slot_mm=seat_hole.slot_mm,
        along_deg=90.0,
    )
    bolts = tuple(
        Hole(at=Point(width / 2 + side * BOLTS_APART_MM / 2, LEG_HOLE_MM), diameter_mm=BOLT_HOLE_MM, name=BOLT)
        for side in (-1, 1)
    )
    return angle, angle_flat(angle, (seat,), bolts)


def least_reach_mm(seat_hole: Hole, bend: Bend) -> float:
    """Return how far the hole of an arm must stand from the rail to lie on flat sheet."""
    return bend.setback_mm + max(seat_hole.slot_mm, seat_hole.diameter_mm) / 2 + bend.thickness_mm


def _put(hole: Hole, up_mm: float) -> Hole:
    return Hole(
        at=Point(hole.at.x_mm, up_mm),
        diameter_mm=hole.diameter_mm,
        slot_mm=hole.slot_mm,
        along_deg=hole.along_deg,
        name=hole.name,
    )
