"""The outline of single pieces: a rectangle where nothing cuts its cell, else what the outlines leave of it."""

from __future__ import annotations

import dataclasses
from typing import TypeAlias

import numpy as np

from grillestack.geometry.grid import Bools, Ints
from grillestack.geometry.piece_shapes import PieceFrame, corners_of

# Corners (y, z) of a closed ring, without repeating the first
CellRing: TypeAlias = tuple[tuple[float, float], ...]


def cell_rings(frame: PieceFrame, members: Ints) -> tuple[tuple[CellRing, ...], ...]:
    """Return, per piece, its closed rings in mm; a ring never has a hole."""
    y, z = frame.y_lines_mm.tolist(), frame.z_lines_mm.tolist()
    iy, iz = frame.iy[members].tolist(), frame.iz[members].tolist()
    is_cut: Bools = np.logical_or.reduce(frame.cut[members], axis=1)
    taken = members[is_cut]
    part = dataclasses.replace(
        frame, iy=frame.iy[taken], iz=frame.iz[taken], inside=frame.inside[taken], cut=frame.cut[taken]
    )
    of_cut = iter(corners_of(part))
    return tuple(
        tuple(tuple((float(a), float(b)) for a, b in ring) for ring in next(of_cut))
        if cut
        else (((y[i], z[j]), (y[i + 1], z[j]), (y[i + 1], z[j + 1]), (y[i], z[j + 1])),)
        for cut, i, j in zip(is_cut.tolist(), iy, iz, strict=True)
    )
