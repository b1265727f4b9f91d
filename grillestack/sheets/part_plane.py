"""A placed part in its own plane as seen from ahead: across to the left of the vehicle, up along the part, depth behind it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from grillestack.geometry.projection import placed_point
from grillestack.model.outline import Rect
from grillestack.model.parts import Core, Fan, Part
from grillestack.sheets.paper import Area


@dataclass(frozen=True, slots=True)
class InPlane:
    """A point: across is towards the vehicle's left (to the right on paper), up along the part, depth from its front face."""

    across_mm: float
    up_mm: float
    depth_mm: float


def in_plane(part: Part, x_mm: float, y_mm: float, z_mm: float) -> InPlane:
    """Return a point of the nose as it lies to the part, whose centre of the front face is 0/0/0."""
    at = part.placement
    turn = math.radians(at.tilt_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    dx, dz = x_mm - at.x_mm, z_mm - at.z_mm
    return InPlane(at.y_mm - y_mm, dx * sin + dz * cos, dx * cos - dz * sin)


def in_nose(part: Part, point: InPlane) -> tuple[float, float, float]:
    """Return (x, y, z) of a point given in the part's plane."""
    at = part.placement
    turn = math.radians(at.tilt_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    return (
        at.x_mm + point.depth_mm * cos + point.up_mm * sin,
        at.y_mm - point.across_mm,
        at.z_mm + point.up_mm * cos - point.depth_mm * sin,
    )


def own_point(part: Part, u_mm: float, v_mm: float, w_mm: float) -> InPlane:
    """Return a point of the part's own frame, flip and quarter turns counted."""
    return in_plane(part, *placed_point(part, u_mm, v_mm, w_mm))


def plane_area(part: Part) -> Area:
    """Return the rectangle that the whole part takes in its plane."""
    rect = _own_rect(part)
    ends = [own_point(part, rect.u_min_mm, rect.v_min_mm, 0.0), own_point(part, rect.u_max_mm, rect.v_max_mm, 0.0)]
    across, up = sorted(p.across_mm for p in ends), sorted(p.up_mm for p in ends)
    return Area(across[0], up[0], across[1], up[1])


def _own_rect(part: Part) -> Rect:
    if isinstance(part, Core):
        return part.overall
    if isinstance(part, Fan):
        width = height = part.ring_diameter_mm
    else:
        width, height = part.width_mm, part.height_mm
    return Rect(u_min_mm=-width / 2, v_min_mm=-height / 2, u_max_mm=width / 2, v_max_mm=height / 2)
