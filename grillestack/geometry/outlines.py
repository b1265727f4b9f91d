"""Outlines of the document as polygons: made valid, grown, shrunk, and taken apart into directed edges.

Only this package touches shapely, and of it mostly this module; it is untyped, so polygons are `Geometry` outside.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from grillestack.geometry.corners import rounded_outline
from grillestack.geometry.projection import Box
from grillestack.model.outline import Point

Geometry = Any
Floats = NDArray[np.float64]

# A mitred corner reaches at most this many times the growth: sharper corners are cut off.
MITRE_LIMIT = 2.0
# Pieces and outlines below this area are nothing but rounding.
SLIVER_MM2 = 1e-6
# Corners of the polygon that stands for a fan's ring, with the same area as the ring.
RING_CORNERS = 64

_POLYGON = 3
_RASTER_MM = 1e-6
# Decimals of a millimetre that an outline keeps
_DIGITS = 9


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """An outline as a polygon; `box` is set if it is an axis-parallel rectangle. Two shapes are equal if they are one."""

    polygon: Geometry
    box: Box | None
    crosses_itself: bool
    area_mm2: float
    # One row (y, z, y, z) per edge, the inside on its left
    edges_mm: Floats


@functools.lru_cache(maxsize=512)
def outline_shape(outline: tuple[Point, ...], corner_radii_mm: tuple[float, ...] = ()) -> Shape:
    """Return the outline with its rounded corners as a shape; where it crosses itself, every enclosed part counts as inside.

    Sharp corners are exact; how near to their arcs rounded ones run is said at `rounded_outline`.
    """
    rounded = rounded_outline(outline, corner_radii_mm)
    # Corners all in one or two places round to fewer than a polygon needs: it has no area, sharp or round.
    outline = rounded if len(rounded) >= 3 else outline
    box = rectangle_of(outline)
    if box is not None:
        return box_shape(box)
    # Corners a hair apart are one corner; left in, they make polygon operations divide by next to nothing.
    raw = shapely.Polygon([(round(p.y_mm, _DIGITS), round(p.z_mm, _DIGITS)) for p in outline])
    valid = bool(shapely.is_valid(raw))
    shape = polygon_shape(raw if valid else shapely.make_valid(raw))
    crosses = not valid and shape.area_mm2 > SLIVER_MM2
    return Shape(shape.polygon, shape.box, crosses, shape.area_mm2, shape.edges_mm)


def rectangle_of(outline: Sequence[Point]) -> Box | None:
    """Return the outline as a box if it is an axis-parallel rectangle with an area."""
    if len(outline) != 4:
        return None
    (ay, az), (by, bz), (cy, cz), (dy, dz) = ((p.y_mm, p.z_mm) for p in outline)
    lying = az == bz and by == cy and cz == dz and dy == ay
    standing = ay == by and bz == cz and cy == dy and dz == az
    box = Box(min(ay, cy), min(az, cz), max(ay, cy), max(az, cz))
    return box if (lying or standing) and box.area_mm2 > SLIVER_MM2 else None


def box_shape(box: Box) -> Shape:
    """Return a rectangle as a shape."""
    polygon = shapely.box(box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm)
    return Shape(polygon, box, crosses_itself=False, area_mm2=box.area_mm2, edges_mm=edges_of(polygon))


def polygon_shape(geometry: Geometry) -> Shape:
    """Return a geometry's polygons as a shape; its loose lines and points are dropped."""
    polygon = areas_of(geometry)
    return Shape(polygon, None, crosses_itself=False, area_mm2=float(shapely.area(polygon)), edges_mm=edges_of(polygon))


@functools.lru_cache(maxsize=512)
def ring_shape(y_mm: float, z_mm: float, radius_mm: float, flattened: float) -> Shape:
    """Return a fan's ring as a polygon of equal area; `flattened` scales its height."""
    step = 2 * math.pi / RING_CORNERS
    radius_mm *= math.sqrt(step / math.sin(step))
    angle = np.arange(RING_CORNERS) * step
    corners = np.column_stack((y_mm + radius_mm * np.cos(angle), z_mm + flattened * radius_mm * np.sin(angle)))
    edges = np.hstack((corners, np.roll(corners, -1, axis=0)))
    area = RING_CORNERS / 2 * radius_mm**2 * math.sin(step) * flattened
    return Shape(shapely.Polygon(corners), None, crosses_itself=False, area_mm2=area, edges_mm=edges)


def resized(shape: Shape, growth_mm: float) -> Shape:
    """Return the shape grown by that much on all sides with mitred corners, or shrunk if negative."""
    if growth_mm == 0 or shape.area_mm2 <= SLIVER_MM2:
        return shape
    if shape.box is not None:
        b = shape.box
        box = Box(b.y0_mm - growth_mm, b.z0_mm - growth_mm, b.y1_mm + growth_mm, b.z1_mm + growth_mm)
        flat = box.y1_mm <= box.y0_mm or box.z1_mm <= box.z0_mm
        return polygon_shape(shapely.Polygon()) if flat else box_shape(box)
    grown = polygon_shape(shapely.buffer(shape.polygon, growth_mm, join_style="mitre", mitre_limit=MITRE_LIMIT))
    return Shape(grown.polygon, None, shape.crosses_itself, grown.area_mm2, grown.edges_mm)


def united(shapes: Sequence[Shape]) -> Shape:
    """Return the union of the shapes."""
    if len(shapes) == 1:
        return shapes[0]
    return polygon_shape(shapely.union_all([shape.polygon for shape in shapes]))


def united_without(shapes: Sequence[Shape], taken: Sequence[Shape]) -> Shape:
    """Return what the union of the shapes has outside the others, with no sliver where edges coincide.

    A sliver or a slit has next to no area, but edges as long as any: corners are put on a raster of 1e-6 mm to close it.
    """
    if len(shapes) == 1 and not taken:
        return shapes[0]
    whole = shapely.union_all([shape.polygon for shape in shapes])
    gone = shapely.union_all([shape.polygon for shape in taken])
    return polygon_shape(shapely.difference(areas_of(whole), areas_of(gone), grid_size=_RASTER_MM))


@functools.lru_cache(maxsize=512)
def shared(first: Shape, second: Shape) -> Shape:
    """Return what both shapes cover.

    On a raster of 1e-9 mm: without one, an edge that runs a last digit beside another's gives back areas that only one covers.
    """
    return polygon_shape(shapely.intersection(first.polygon, second.polygon, grid_size=10.0**-_DIGITS))


def areas_of(geometry: Geometry) -> Geometry:
    """Return the polygons of a geometry, without the lines and points that operations on touching shapes leave."""
    if geometry.geom_type in ("Polygon", "MultiPolygon"):
        return geometry
    parts = shapely.get_parts(shapely.get_parts(geometry))
    polygons = parts[shapely.get_type_id(parts) == _POLYGON]
    # An empty collection is no polygon, and operations on it with mixed shapes fail.
    return shapely.union_all(polygons) if len(polygons) else shapely.Polygon()


def parted(polygons: Geometry, outline: Shape, *, within: bool) -> Geometry:
    """Return, of each polygon of an array, the part within the outline, or the part beyond it."""
    cut = shapely.intersection if within else shapely.difference
    made: Geometry = np.empty(len(polygons), dtype=object)
    made[:] = [areas_of(polygon) for polygon in cut(polygons, outline.polygon)]
    return made


def edges_of(polygon: Geometry) -> Floats:
    """Return every edge of a polygon as a row (y, z, y, z), the inside on its left.

    Returns
    -------
    Array of one row per edge, four columns in mm.
    """
    found = [np.empty((0, 4))]
    for part in shapely.get_parts(polygon):
        for place, ring in enumerate((part.exterior, *part.interiors)):
            corners = np.asarray(shapely.get_coordinates(ring), dtype=np.float64)
            if len(corners) < 4:
                continue
            y, z = (corners - corners[0]).T
            anticlockwise = float(y[:-1] @ z[1:] - y[1:] @ z[:-1]) > 0
            if anticlockwise != (place == 0):
                corners = corners[::-1]
            found.append(np.hstack((corners[:-1], corners[1:])))
    return np.vstack(found)
