"""How much of every cell of a grid each outline covers, exactly, by Green's theorem and without cutting anything."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from grillestack.geometry.outlines import Floats

# An edge that runs along y for less than this is upright: no area lies below or above it.
_UPRIGHT_MM = 1e-12


def areas_in_cells_mm2(outlines: Sequence[Floats], y_mm: Floats, z_mm: Floats) -> Floats:
    """Return the area of each outline in each cell [mm²].

    Of an outline whose inside lies on the left of its edges, an edge running towards −y has the inside below it, one
    towards +y above it. So the area below z = Z in a strip along z is the sum over the edges in that strip of
    ±width · mean(min(z_edge, Z)); a cell takes the difference between its top and its bottom. The mean of min(z, Z)
    over an edge from z₀ up to z₁ is min(Z, z₀) + t − t²/(2·(z₁ − z₀)) with t = Z − z₀ held within 0 … z₁ − z₀.

    Parameters
    ----------
    outlines
        For each outline its edges, one row (y, z, y, z) each [mm].
    y_mm, z_mm
        The grid's lines in ascending order [mm].

    Returns
    -------
    Array of outlines × intervals of y × intervals of z.
    """
    shape = (len(outlines), max(len(y_mm) - 1, 0), max(len(z_mm) - 1, 0))
    if not outlines or 0 in shape:
        return np.zeros(shape)
    edges = np.concatenate(outlines)
    owner = np.repeat(np.arange(len(outlines)), [len(rows) for rows in outlines])
    ya, za, yb, zb = edges.T
    low, high = np.minimum(ya, yb), np.maximum(ya, yb)
    first = np.maximum(np.searchsorted(y_mm, low, side="right") - 1, 0)
    last = np.minimum(np.searchsorted(y_mm, high, side="left"), shape[1])
    count = np.maximum(last - first, 0)
    count[high - low < _UPRIGHT_MM] = 0
    edge = np.repeat(np.arange(len(edges)), count)
    strip = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count) + first[edge]
    left = np.maximum(low[edge], y_mm[strip])
    right = np.minimum(high[edge], y_mm[strip + 1])
    slope = (zb[edge] - za[edge]) / (yb[edge] - ya[edge])
    heights = np.sort(za[edge] + slope * (np.stack((left, right)) - ya[edge]), axis=0)
    signed_width = np.where(ya[edge] > yb[edge], right - left, left - right)
    foot, rise = heights[0][:, None], (heights[1] - heights[0])[:, None]
    above = np.minimum(np.maximum(z_mm - foot, 0.0), rise)
    mean = np.minimum(z_mm, foot) + above - above * above / (2 * np.maximum(rise, 1e-300))
    shares = signed_width[:, None] * (mean[:, 1:] - mean[:, :-1])
    cell = (owner[edge] * shape[1] + strip)[:, None] * shape[2] + np.arange(shape[2])
    total = np.bincount(cell.ravel(), weights=shares.ravel(), minlength=shape[0] * shape[1] * shape[2])
    return total.astype(np.float64, copy=False).reshape(shape)
