"""What of the pack is seen from ahead, from one side and from above: flat outlines with how near each is."""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.geometry.projection import BodyKind, PlacedBox, placed_boxes, project_part
from grillestack.model.parts import Fan, Part

_CIRCLE_CORNERS = 72


class Looking(enum.Enum):
    """From where the pack is looked at."""

    AHEAD = "ahead"
    LEFT = "left"
    RIGHT = "right"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Seen:
    """A point of a view in mm at full size: u to the right and v up on the paper."""

    u_mm: float
    v_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One body of a part as it is seen: convex corners, anticlockwise; the smaller the depth, the nearer to the eye.

    A ring that is seen round has a radius.
    """

    part_id: str
    kind: BodyKind
    corners: tuple[Seen, ...]
    depth_mm: float
    centre: Seen | None = None
    radius_mm: float | None = None


def seen(looking: Looking, x_mm: float, y_mm: float, z_mm: float) -> Seen:
    """Return where a point of the nose lies in a view; from above, the front of the vehicle is at the bottom."""
    if looking is Looking.AHEAD:
        return Seen(-y_mm, z_mm)
    if looking is Looking.ABOVE:
        return Seen(-y_mm, x_mm)
    return Seen(x_mm if looking is Looking.LEFT else -x_mm, z_mm)


def faces_of(parts: Sequence[Part], looking: Looking) -> tuple[Face, ...]:
    """Return every body of the parts as it is seen, the core (or the part itself) ahead of its solids."""
    found: list[Face] = []
    for part in parts:
        for box in placed_boxes(part):
            if looking is Looking.AHEAD and isinstance(part, Fan):
                found.append(_ring(part, box))
            else:
                found.append(_face(part, box, looking))
    return tuple(found)


def _face(part: Part, box: PlacedBox, looking: Looking) -> Face:
    if looking is Looking.AHEAD:
        # The front face alone: where the part leans, its depth would add to the height.
        (x_low, z_low), (x_high, z_high) = box.side_corners_mm[:2]
        corners = _rectangle(-box.y1_mm, z_low, -box.y0_mm, z_high)
        depth = min(x_low, x_high)
    elif looking is Looking.ABOVE:
        corners, depth = _rectangle(-box.y1_mm, box.x0_mm, -box.y0_mm, box.x1_mm), -box.z1_mm
    else:
        corners = tuple(seen(looking, x, 0.0, z) for x, z in box.side_corners_mm)
        depth = box.y0_mm if looking is Looking.LEFT else -box.y1_mm
    return Face(part_id=part.id, kind=box.kind, corners=_anticlockwise(corners), depth_mm=depth)


def _ring(fan: Fan, box: PlacedBox) -> Face:
    ring = project_part(fan)
    at, radius = fan.placement, fan.ring_diameter_mm / 2
    centre = Seen(-at.y_mm, at.z_mm)
    step = 2 * math.pi / _CIRCLE_CORNERS
    corners = tuple(
        Seen(centre.u_mm + radius * math.cos(k * step), centre.v_mm + radius * ring.cos_tilt_frac * math.sin(k * step))
        for k in range(_CIRCLE_CORNERS)
    )
    return Face(
        part_id=fan.id,
        kind=box.kind,
        corners=corners,
        depth_mm=box.x0_mm,
        centre=centre,
        radius_mm=radius if at.tilt_deg == 0 else None,
    )


def _rectangle(u0_mm: float, v0_mm: float, u1_mm: float, v1_mm: float) -> tuple[Seen, ...]:
    return Seen(u0_mm, v0_mm), Seen(u1_mm, v0_mm), Seen(u1_mm, v1_mm), Seen(u0_mm, v1_mm)


def _anticlockwise(corners: tuple[Seen, ...]) -> tuple[Seen, ...]:
    area = 0.0
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        area += a.u_mm * b.v_mm - b.u_mm * a.v_mm
    return corners if area >= 0 else tuple(reversed(corners))
