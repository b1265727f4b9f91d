"""The outline of single pieces: a rectangle where nothing cuts its cell, else what the outlines leave of it."""

from __future__ import annotations

import dataclasses
from typing import TypeAlias

import numpy as np
import shapely

from grillestack.geometry.grid import Bools, Ints
from grillestack.geometry.outlines import parted
from grillestack.geometry.piece_shapes import PieceFrame, corners_of

# Corners (y, z) of a closed ring, without repeating the first
CellRing: TypeAlias = tuple[tuple[float, float], ...]
CellRings: TypeAlias = tuple[CellRing, ...]


def cell_rings(frame: PieceFrame, members: Ints) -> tuple[CellRings, ...]:
    """Return, per piece, its closed rings in mm; a ring never has a hole."""
    y, z = frame.y_lines_mm.tolist(), frame.z_lines_mm.tolist()
    iy, iz = frame.iy[members].tolist(), frame.iz[members].tolist()
    is_cut: Bools = np.logical_or.reduce(frame.cut[members], axis=1)
    of_cut = iter(_rings_of_cut(frame, members[is_cut]))
    return tuple(
        next(of_cut) if cut else (((y[i], z[j]), (y[i + 1], z[j]), (y[i + 1], z[j + 1]), (y[i], z[j + 1])),)
        for cut, i, j in zip(is_cut.tolist(), iy, iz, strict=True)
    )


def _rings_of_cut(frame: PieceFrame, members: Ints) -> list[CellRings]:
    """Return the rings of cut pieces: nearly all are one polygon without a hole, and their corners come all at once."""
    if not len(members):
        return []
    iy, iz, inside, cut = frame.iy[members], frame.iz[members], frame.inside[members], frame.cut[members]
    y, z = frame.y_lines_mm, frame.z_lines_mm
    polygons = shapely.box(y[iy], z[iz], y[iy + 1], z[iz + 1])
    for k, outline in enumerate(frame.outlines):
        for within in (True, False):
            chosen = np.flatnonzero(cut[:, k] & (inside[:, k] == within))
            if len(chosen):
                polygons[chosen] = parted(polygons[chosen], outline, within=within)
    # Only a polygon has an exterior ring; of anything else there is none.
    plain: Bools = ~shapely.is_missing(shapely.get_exterior_ring(polygons)) & (
        shapely.get_num_interior_rings(polygons) == 0
    )
    places, owner = shapely.get_coordinates(shapely.get_exterior_ring(polygons[plain]), return_index=True)
    runs = np.split(places, np.flatnonzero(np.diff(owner)) + 1) if len(places) else []
    simple = iter([((tuple((a, b) for a, b in run[:-1].tolist())),) for run in runs])
    others = members[~plain]
    part = dataclasses.replace(
        frame, iy=frame.iy[others], iz=frame.iz[others], inside=frame.inside[others], cut=frame.cut[others]
    )
    odd = iter(corners_of(part))
    return [
        next(simple) if is_plain else tuple(tuple((float(a), float(b)) for a, b in ring) for ring in next(odd))
        for is_plain in plain.tolist()
    ]
