"""Sums and differences of outlines: where a thing's place may not be so that its outline keeps out of another's."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from grillestack.geometry.outlines import Floats, Geometry, Shape, areas_of
from grillestack.geometry.projection import Box

# Two edges this nearly parallel turn no corner.
_FLAT_MM2 = 1e-9


def convex_pieces(shape: Shape) -> tuple[Floats, ...]:
    """Return convex polygons that together cover the shape and nothing else: one row (y, z) per corner, anticlockwise."""
    if shape.box is not None:
        b = shape.box
        return (np.array([(b.y0_mm, b.z0_mm), (b.y1_mm, b.z0_mm), (b.y1_mm, b.z1_mm), (b.y0_mm, b.z1_mm)]),)
    found: list[Floats] = []
    for polygon in shapely.get_parts(areas_of(shape.polygon)):
        if _is_convex(polygon):
            found.append(_ring(polygon))
        else:
            triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(polygon))
            found += [_ring(triangle) for triangle in triangles if shapely.area(triangle) > _FLAT_MM2]
    return tuple(found)


def convex_sum(first: Floats, second: Floats) -> Geometry:
    """Return the Minkowski sum of two convex polygons: every sum of a point of one and a point of the other."""
    sums = (first[:, None, :] + second[None, :, :]).reshape(-1, 2)
    return shapely.convex_hull(shapely.multipoints(sums))


def forbidden(obstacle: Sequence[Floats], piece: Floats, clearance_mm: float, less_mm: float = 0.0) -> Geometry:
    """Return the places at which a convex piece comes nearer than the clearance, across and up, to a union of convex pieces.

    Parameters
    ----------
    obstacle
        Its convex pieces, rows (y, z) [mm].
    piece
        Corners of the piece from its part's place, rows (y, z) [mm].
    clearance_mm
        Room to keep both across and up [mm].
    less_mm
        How much smaller than the exact answer the result is [mm], so that touching is allowed.

    Notes
    -----
    The sum of the obstacle, of the piece mirrored in its part's place, and of a square of the clearance; the union of the
    sums of all pairs of convex pieces.
    """
    c = clearance_mm - less_mm
    square = np.array([(-c, -c), (c, -c), (c, c), (-c, c)])
    if c < 0:
        sums = [shapely.buffer(convex_sum(one, -piece), c, join_style="mitre", mitre_limit=100.0) for one in obstacle]
    else:
        grown = np.asarray(shapely.get_coordinates(convex_sum(-piece, square)))[:-1] if c > 0 else -piece
        sums = [convex_sum(one, grown) for one in obstacle]
    return sums[0] if len(sums) == 1 else shapely.union_all(sums)


def corners_of(box: Box) -> Floats:
    """Return the corners of a box, rows (y, z) [mm], anticlockwise."""
    return np.array([(box.y0_mm, box.z0_mm), (box.y1_mm, box.z0_mm), (box.y1_mm, box.z1_mm), (box.y0_mm, box.z1_mm)])


def _is_convex(polygon: Geometry) -> bool:
    hull = shapely.area(shapely.convex_hull(polygon))
    return bool(hull - shapely.area(polygon) <= _FLAT_MM2 * max(1.0, hull))


def _ring(polygon: Geometry) -> Floats:
    corners = np.asarray(shapely.get_coordinates(shapely.get_exterior_ring(polygon)), dtype=np.float64)[:-1]
    y, z = (corners - corners[0]).T
    turn = float(y @ np.roll(z, -1) - z @ np.roll(y, -1))
    return corners if turn > 0 else corners[::-1]
