"""What pieces look like: their corners for drawing, and few large patches for pieces that belong together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from grillestack.geometry.grid import Bools, Ints
from grillestack.geometry.outlines import Floats, Geometry, Shape, areas_of, parted

# Corners (y, z) of a closed patch, without repeating the first
Patch = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, eq=False)
class PieceFrame:
    """Where N pieces lie on the grid and what cut them: their intervals, and K outlines with one column each.

    The first `n_nose` outlines belong to the nose, the others are the fans' rings.
    """

    y_lines_mm: Floats
    z_lines_mm: Floats
    iy: Ints
    iz: Ints
    outlines: tuple[Shape, ...]
    n_nose: int
    inside: Bools
    cut: Bools

    @property
    def cell(self) -> Ints:
        """Return the number of the cell each piece lies in."""
        return self.iy * max(len(self.z_lines_mm) - 1, 1) + self.iz


def corners_of(frame: PieceFrame) -> tuple[tuple[Floats, ...], ...]:
    """Return, per piece, the corners (y, z) of each closed ring it consists of; a ring never has a hole."""
    polygons = _polygons(frame, np.arange(len(frame.iy)))
    return tuple(tuple(np.array(patch) for patch in _patches_of(polygon)) for polygon in polygons)


def patches_of(frame: PieceFrame, members: Ints, n_outlines: int) -> tuple[Patch, ...]:
    """Return the area of some pieces as closed patches, as few as come easily.

    Whole cells are merged into rectangles; so are cells that the same outlines cut, before they are cut. Only the first
    `n_outlines` are looked at: the caller says by that which outlines may part its members from the other pieces.
    """
    cell = frame.cell
    n_cells = int(cell.max(initial=-1)) + 1
    complete = np.bincount(cell, minlength=n_cells) == np.bincount(cell[members], minlength=n_cells)
    whole = complete[cell[members]]
    patches = [_corners(box) for box in _rectangles(frame, members[whole])]
    partial = members[~whole]
    if len(partial):
        cut, inside = frame.cut[partial, :n_outlines], frame.inside[partial, :n_outlines]
        looks, look_of = np.unique(np.concatenate((cut, cut & inside), axis=1), axis=0, return_inverse=True)
        for number, look in enumerate(looks):
            boxes = _rectangles(frame, partial[look_of.reshape(-1) == number])
            polygons = shapely.box(*np.array(boxes).T)
            for k in np.flatnonzero(look[:n_outlines]):
                polygons = parted(polygons, frame.outlines[k], within=bool(look[n_outlines + k]))
            patches += [patch for polygon in polygons for patch in _patches_of(polygon)]
    return tuple(patches)


def _polygons(frame: PieceFrame, members: Ints) -> list[Geometry]:
    y, z, iy, iz = frame.y_lines_mm, frame.z_lines_mm, frame.iy[members], frame.iz[members]
    if not len(members):
        return []
    polygons = shapely.box(y[iy], z[iz], y[iy + 1], z[iz + 1])
    for k, outline in enumerate(frame.outlines):
        for within in (True, False):
            chosen = np.flatnonzero(frame.cut[members, k] & (frame.inside[members, k] == within))
            if len(chosen):
                polygons[chosen] = parted(polygons[chosen], outline, within=within)
    return list(polygons)


def _patches_of(polygon: Geometry) -> list[Patch]:
    patches: list[Patch] = []
    for part in shapely.get_parts(polygon):
        if part.interiors:
            patches += [patch for half in _halves(part) for patch in _patches_of(half)]
        elif not part.is_empty:
            patches.append(tuple((float(y), float(z)) for y, z in part.exterior.coords[:-1]))
    return patches


def _halves(polygon: Geometry) -> list[Geometry]:
    """Return the polygon cut upright through the middle of its first hole, so that the hole opens to the outside."""
    y0, z0, y1, z1 = polygon.bounds
    hole = polygon.interiors[0].bounds
    middle = (hole[0] + hole[2]) / 2
    sides = shapely.box([y0 - 1, middle], z0 - 1, [middle, y1 + 1], z1 + 1)
    return [areas_of(side) for side in shapely.intersection(polygon, sides)]


def _rectangles(frame: PieceFrame, members: Ints) -> list[tuple[float, float, float, float]]:
    """Return cells as boxes (y, z, y, z): neighbours along y become strips, equal strips above each other become one."""
    filled = np.zeros((len(frame.z_lines_mm), len(frame.y_lines_mm) + 1), dtype=np.int8)
    filled[frame.iz[members], frame.iy[members] + 1] = 1
    steps = np.diff(filled, axis=1)
    rows, starts = np.nonzero(steps == 1)
    _, ends = np.nonzero(steps == -1)
    y, z = frame.y_lines_mm.tolist(), frame.z_lines_mm.tolist()
    boxes = []
    growing: dict[tuple[int, int], tuple[int, int]] = {}
    for row, a, b in zip(rows.tolist(), starts.tolist(), ends.tolist(), strict=True):
        first, last = growing.get((a, b), (row, row))
        if last < row:
            boxes.append((y[a], z[first], y[b], z[last]))
            first = row
        growing[a, b] = (first, row + 1)
    boxes += [(y[a], z[first], y[b], z[last]) for (a, b), (first, last) in growing.items()]
    return boxes


def _corners(box: tuple[float, float, float, float]) -> Patch:
    y0, z0, y1, z1 = box
    return ((y0, z0), (y1, z0), (y1, z1), (y0, z1))
