"""Which boxes of the pack and of the nose meet in the front view, and how far apart along x those that do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from grillestack.geometry.outlines import Floats, Geometry, Shape, outline_shape, ring_shape
from grillestack.geometry.projection import Box, ProjectedPart
from grillestack.model.nose import Obstruction

# Surfaces nearer than this touch; they do not overlap.
TOUCH_MM = 1e-6

# Leans that differ by less than this meet nowhere within a vehicle.
_PARALLEL = 1e-12

_Y0, _Z0, _Y1, _Z1, _FRONT, _REAR, _LEAN = range(7)


@dataclass(frozen=True, slots=True, eq=False)
class BodyTable:
    """Distances along x between things (the parts, then the obstructions), and between the boxes they are made of.

    `apart_mm[i, j]` is the smallest distance between boxes of i and j that overlap in the front view: negative by the
    length of the shortest move along x that would free them, infinite where none overlap. `meets` is where it is finite.
    """

    ids: tuple[str, ...]
    n_parts: int
    meets: NDArray[np.bool_]
    apart_mm: Floats
    body_apart_mm: Floats
    body_starts: tuple[int, ...]
    body_kinds: tuple[str, ...]

    def nearest_kinds(self, first: int, second: int) -> str:
        """Return which kinds of boxes of two things are nearest to each other, in words: "tank and core"."""
        rows, columns = (slice(self.body_starts[k], self.body_starts[k + 1]) for k in (first, second))
        block = self.body_apart_mm[rows, columns]
        i, j = divmod(int(block.argmin()), block.shape[1])
        return f"{self.body_kinds[rows.start + i]} and {self.body_kinds[columns.start + j]}"


def body_table(parts: Sequence[ProjectedPart], obstructions: Sequence[Obstruction]) -> BodyTable:
    """Return the distances between all things of the pack and of the nose."""
    shapes = [outline_shape(obstruction.outline, obstruction.corner_radii_mm) for obstruction in obstructions]
    rows = [
        _row(body.box, body.front_mm, body.rear_mm, body.lean_frac, body.lean_z_mm) for p in parts for body in p.bodies
    ]
    rows += [_row(_bounds(s), o.x_front_mm, o.x_rear_mm, 0.0, 0.0) for s, o in zip(shapes, obstructions, strict=True)]
    starts = np.cumsum([0, *(len(p.bodies) for p in parts), *(1 for _ in obstructions)])
    table = np.array(rows).reshape(-1, 7)
    overlap = _overlap_in_front_view(table)
    _round_off_fans(overlap, table, parts, starts)
    _cut_to_outlines(overlap, table, parts, shapes)
    apart_mm = np.where(overlap, _apart(table), np.inf)
    between_mm = apart_mm
    if len(rows):
        between_mm = np.minimum.reduceat(np.minimum.reduceat(apart_mm, starts[:-1], axis=0), starts[:-1], axis=1)
    return BodyTable(
        ids=(*(p.part_id for p in parts), *(o.id for o in obstructions)),
        n_parts=len(parts),
        meets=np.isfinite(between_mm),
        apart_mm=between_mm,
        body_apart_mm=apart_mm,
        body_starts=tuple(starts.tolist()),
        body_kinds=(*(body.kind.value for p in parts for body in p.bodies), *("obstruction" for _ in obstructions)),
    )


def _row(box: Box, front_mm: float, rear_mm: float, lean_frac: float, lean_z_mm: float) -> tuple[float, ...]:
    at_zero_mm = lean_frac * lean_z_mm
    return (box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm, front_mm - at_zero_mm, rear_mm - at_zero_mm, lean_frac)


def _bounds(shape: Shape) -> Box:
    if shape.box is not None:
        return shape.box
    if not len(shape.edges_mm):
        return Box(0.0, 0.0, 0.0, 0.0)
    low, high = shape.edges_mm.min(axis=0), shape.edges_mm.max(axis=0)
    return Box(float(low[0]), float(low[1]), float(high[0]), float(high[1]))


def _overlap_in_front_view(table: Floats) -> NDArray[np.bool_]:
    across = np.minimum.outer(table[:, _Y1], table[:, _Y1]) - np.maximum.outer(table[:, _Y0], table[:, _Y0])
    up = np.minimum.outer(table[:, _Z1], table[:, _Z1]) - np.maximum.outer(table[:, _Z0], table[:, _Z0])
    overlap: NDArray[np.bool_] = np.minimum(across, up) > TOUCH_MM
    return overlap


def _apart(table: Floats) -> Floats:
    """Return the distance along x of every two boxes over the heights they share.

    Box i reaches behind the front of j by r_i(z) − f_j(z), box j behind the front of i by r_j(z) − f_i(z); both are
    lines in z. The two are free of each other by minus the largest value of the smaller one, which lies at an end of
    the shared heights or where the two lines cross.
    """
    front, rear, lean = table[:, _FRONT], table[:, _REAR], table[:, _LEAN]
    into = rear[:, None] - front[None, :]
    if not lean.any():
        straight: Floats = -np.minimum(into, into.T)
        return straight
    slope = lean[:, None] - lean[None, :]
    low = np.maximum.outer(table[:, _Z0], table[:, _Z0])
    high = np.minimum.outer(table[:, _Z1], table[:, _Z1])
    crossing = np.divide(into.T - into, 2 * slope, out=low.copy(), where=np.abs(slope) > _PARALLEL)
    heights = np.stack((low, high, np.clip(crossing, low, np.maximum(low, high))))
    depth = np.minimum(into + slope * heights, into.T - slope * heights).max(axis=0)
    apart: Floats = -depth
    return apart


def _round_off_fans(
    overlap: NDArray[np.bool_], table: Floats, parts: Sequence[ProjectedPart], starts: NDArray[np.int64]
) -> None:
    fans = [
        (int(starts[k]), part.circle, part.cos_tilt_frac) for k, part in enumerate(parts) if part.circle is not None
    ]
    for row, circle, cos in fans:
        dy = circle.y_mm - np.clip(circle.y_mm, table[:, _Y0], table[:, _Y1])
        dz = (circle.z_mm - np.clip(circle.z_mm, table[:, _Z0], table[:, _Z1])) / cos
        near = np.hypot(dy, dz) < circle.radius_mm - TOUCH_MM
        for other, ring, _ in fans:
            apart_mm = np.hypot(circle.y_mm - ring.y_mm, (circle.z_mm - ring.z_mm) / cos)
            near[other] = apart_mm < circle.radius_mm + ring.radius_mm - TOUCH_MM
        overlap[row] &= near
        overlap[:, row] &= near


def _cut_to_outlines(
    overlap: NDArray[np.bool_], table: Floats, parts: Sequence[ProjectedPart], shapes: Sequence[Shape]
) -> None:
    """Keep, of the boxes that overlap an obstruction's bounds, those that overlap its true outline."""
    first = len(table) - len(shapes)
    outlines: list[Geometry] | None = None
    for row, shape in enumerate(shapes, start=first):
        touched = np.flatnonzero(overlap[row, :first])
        if shape.box is not None or not len(touched):
            continue
        outlines = outlines or [_front_outline(p, k) for p in parts for k in range(len(p.bodies))]
        common = shapely.area(shapely.intersection(shape.polygon, [outlines[k] for k in touched]))
        overlap[row, touched] = overlap[touched, row] = common > TOUCH_MM


def _front_outline(part: ProjectedPart, place: int) -> Geometry:
    if part.circle is not None:
        return ring_shape(part.circle.y_mm, part.circle.z_mm, part.circle.radius_mm, part.cos_tilt_frac).polygon
    b = part.bodies[place].box
    return shapely.box(b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)
