"""Where the lines of the common grid run: through every rectangle's edges, then evenly in between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.geometry.outlines import Floats
from grillestack.geometry.projection import Box

# Lines nearer than this are one line.
MERGE_MM = 1e-6
# An edge that moves less than this along an axis crosses none of that axis' lines.
_STILL_MM = 1e-12

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """The grid's lines along one axis, in ascending order, and between which of them each rectangle lies."""

    at_mm: Floats
    low: Ints
    high: Ints

    @property
    def n_cells(self) -> int:
        """Return the number of intervals."""
        return max(len(self.at_mm) - 1, 0)

    def covered(self) -> Bools:
        """Return, for each rectangle (rows) and interval (columns), whether the one spans the other."""
        interval = np.arange(self.n_cells)
        spans: Bools = (interval >= self.low[:, None]) & (interval < self.high[:, None])
        return spans


def merged(values: Floats) -> tuple[Floats, Ints]:
    """Return the distinct values in ascending order and, for every value given, its index among them.

    A run of values less than 1e-6 mm apart becomes the first of them.
    """
    order = np.argsort(values, kind="stable")
    ascending = values[order]
    begins = np.ones(len(values), dtype=bool)
    begins[1:] = ascending[1:] - ascending[:-1] > MERGE_MM
    index = np.empty(len(values), dtype=np.int64)
    index[order] = np.cumsum(begins) - 1
    return ascending[begins], index


def lines_along(edges_mm: Floats, extra_mm: Sequence[float], n_cores: int, max_cell_mm: float) -> Lines:
    """Return the lines through the rectangles' edges and the extra places, refined where cores lie.

    Parameters
    ----------
    edges_mm
        Low and high edge of each rectangle, one row each [mm]; the cores come first.
    extra_mm
        Further places of lines [mm].
    n_cores
        How many of the first rectangles are cores.
    max_cell_mm
        No interval inside a core is longer than this [mm]: longer ones are divided evenly.
    """
    base, index = merged(np.concatenate((edges_mm.ravel(), np.asarray(extra_mm, dtype=np.float64))))
    low, high = index[: edges_mm.size : 2], index[1 : edges_mm.size : 2]
    cores = Lines(base, low[:n_cores], high[:n_cores])
    in_core = cores.covered().any(axis=0)
    gaps = base[1:] - base[:-1]
    # The small allowance keeps a gap of exactly the largest size whole when its ends carry rounding.
    parts = np.where(in_core, np.ceil(gaps / max_cell_mm - 1e-9), 1.0).astype(np.int64)
    starts = np.concatenate((np.zeros(1, dtype=np.int64), np.cumsum(parts)))
    step = np.arange(starts[-1]) - np.repeat(starts[:-1], parts)
    lines = np.repeat(base[:-1], parts) + np.repeat(gaps / parts, parts) * step
    return Lines(np.concatenate((lines, base[-1:])), starts[low], starts[high])


def union_perimeter_mm(boxes: Sequence[Box]) -> float:
    """Return the length of the outline of the boxes' union [mm], the edges of its holes included."""
    if not boxes:
        return 0.0
    y, iy = merged(np.array([(b.y0_mm, b.y1_mm) for b in boxes]).ravel())
    z, iz = merged(np.array([(b.z0_mm, b.z1_mm) for b in boxes]).ravel())
    spans = Lines(y, iy[::2], iy[1::2]).covered()[:, :, None] & Lines(z, iz[::2], iz[1::2]).covered()[:, None, :]
    filled = _framed(np.logical_or.reduce(spans, axis=0))
    upright = (filled[1:, 1:-1] != filled[:-1, 1:-1]) @ (z[1:] - z[:-1])
    level = (y[1:] - y[:-1]) @ (filled[1:-1, 1:] != filled[1:-1, :-1])
    return float(upright.sum() + level.sum())


def border_inside_mm(edges_mm: Floats, y_mm: Floats, z_mm: Floats, filled: Bools) -> float:
    """Return the length of the edges that run through filled cells, or between two of them [mm].

    Parameters
    ----------
    edges_mm
        Straight edges, one row (y, z, y, z) each [mm].
    y_mm, z_mm
        The grid's lines [mm].
    filled
        Which cells count, rows along y and columns along z.
    """
    if not len(edges_mm) or not filled.any():
        return 0.0
    start, run = edges_mm[:, :2], edges_mm[:, 2:] - edges_mm[:, :2]
    # Where along each edge (0 … 1) it crosses each line; its start stands for a line it never crosses
    stops = np.zeros((len(run), len(y_mm) + len(z_mm) + 2))
    stops[:, -1] = 1.0
    for axis, lines, columns in ((0, y_mm, stops[:, : len(y_mm)]), (1, z_mm, stops[:, len(y_mm) : -2])):
        moves = np.abs(run[:, axis, None]) > _STILL_MM
        np.divide(lines - start[:, axis, None], run[:, axis, None], out=columns, where=moves)
    stops = np.minimum(np.maximum(stops, 0.0), 1.0)
    stops.sort(axis=1)
    middle = (stops[:, 1:] + stops[:, :-1]) / 2
    lengths = (stops[:, 1:] - stops[:, :-1]) * np.hypot(run[:, 0], run[:, 1])[:, None]
    framed = _framed(filled)
    # An edge on a line lies between two cells: it counts if both are filled.
    sides = []
    for slack in (-2 * MERGE_MM, 2 * MERGE_MM):
        iy = np.searchsorted(y_mm, start[:, 0, None] + middle * run[:, 0, None] + slack, side="right")
        iz = np.searchsorted(z_mm, start[:, 1, None] + middle * run[:, 1, None] + slack, side="right")
        sides.append(framed[iy, iz])
    return float(lengths[sides[0] & sides[1]].sum())


def _framed(filled: Bools) -> Bools:
    """Return the cells with a rim of empty ones around them."""
    framed = np.zeros((filled.shape[0] + 2, filled.shape[1] + 2), dtype=np.bool_)
    framed[1:-1, 1:-1] = filled
    return framed
