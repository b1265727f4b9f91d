"""Into which pieces outlines cut the cells of a grid, each with its exact area and its list of outlines around it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from grillestack.geometry.cell_areas import areas_in_cells_mm2
from grillestack.geometry.grid import Bools, Ints
from grillestack.geometry.outlines import SLIVER_MM2, Floats, Shape, shared

# A set of outlines, as ascending indices
Members = tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Pieces:
    """Pieces of cells in the order of the cells; an uncut cell is one piece.

    `inside` and `cut` have one row per piece and one column per outline: whether the piece lies inside the outline, and
    whether the outline cuts the piece's cell.
    """

    cell: Ints
    area_mm2: Floats
    inside: Bools
    cut: Bools

    def taken(self, kept: Ints) -> Pieces:
        """Return only these pieces."""
        return Pieces(self.cell[kept], self.area_mm2[kept], self.inside[kept], self.cut[kept])


def cut_cells(shapes: Sequence[Shape], where: Bools, y_mm: Floats, z_mm: Floats) -> Pieces:
    """Return the pieces of all cells.

    Areas of overlaps of outlines come from the outlines' intersections, one for each set of outlines that meet in a
    cell, so the work grows with what really crosses. Pieces below a sliver are given to their neighbours in the cell.

    Parameters
    ----------
    shapes
        The outlines that cut; each may be in many parts and have holes.
    where
        For each outline (row) the cells (columns, y-major) in which it counts; elsewhere it is taken as absent.
    y_mm, z_mm
        The grid's lines [mm].
    """
    cell_mm2 = np.multiply.outer(y_mm[1:] - y_mm[:-1], z_mm[1:] - z_mm[:-1]).ravel()
    covered = areas_in_cells_mm2([shape.edges_mm for shape in shapes], y_mm, z_mm)
    covered = covered.reshape(len(shapes), cell_mm2.size)
    covered = np.where(where, np.minimum(np.maximum(covered, 0.0), cell_mm2), 0.0)
    cut = np.minimum(covered, cell_mm2 - covered) > SLIVER_MM2
    inside = 2 * covered > cell_mm2
    n_cuts = cut.sum(axis=0)
    whole, once, often = np.flatnonzero(n_cuts == 0), np.flatnonzero(n_cuts == 1), np.flatnonzero(n_cuts > 1)
    made = [(whole, cell_mm2[whole], inside[:, whole])]
    if len(once):
        cutter, column = cut[:, once].argmax(axis=0), np.arange(len(once))
        part_mm2 = covered[cutter, once]
        for value, areas in ((True, part_mm2), (False, cell_mm2[once] - part_mm2)):
            within = inside[:, once]
            within[cutter, column] = value
            made.append((once, areas, within))
    if len(often):
        made.append(_cut_often(shapes, often, _Areas(cell_mm2, covered, cut, inside), (y_mm, z_mm)))
    cell = np.concatenate([cells for cells, _, _ in made])
    order = np.argsort(cell, kind="stable")
    cell = cell[order]
    return Pieces(
        cell=cell,
        area_mm2=np.concatenate([areas for _, areas, _ in made])[order],
        inside=np.concatenate([within for _, _, within in made], axis=1)[:, order].T,
        cut=cut[:, cell].T,
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Areas:
    cell_mm2: Floats
    covered_mm2: Floats
    cut: Bools
    inside: Bools


def _cut_often(
    shapes: Sequence[Shape], often: Ints, areas: _Areas, lines_mm: tuple[Floats, Floats]
) -> tuple[Ints, Floats, Bools]:
    """Return the pieces of cells that several outlines cut."""
    met_in: dict[Members, list[int]] = {}
    for cell, row in zip(often.tolist(), areas.cut[:, often].T, strict=True):
        met_in.setdefault(tuple(np.flatnonzero(row).tolist()), []).append(cell)
    members = list(met_in)
    cells = [np.array(found, dtype=np.int64) for found in met_in.values()]
    common = _common_areas(shapes, members, cells, lines_mm)
    # One entry per group of cells and set of outlines that a piece may lie in
    entries: list[tuple[Ints, Members, Floats]] = []
    tries: list[int] = []
    for outlines, own_cells, shares in zip(members, cells, common, strict=True):
        shares[()] = areas.cell_mm2[own_cells]
        shares |= {(k,): areas.covered_mm2[k, own_cells] for k in outlines}
        exact = _exactly(shares)
        entries += [(own_cells, inner, area) for inner, area in exact.items()]
        tries += [len(exact)] * len(exact)
    counts = [len(own_cells) for own_cells, _, _ in entries]
    cell = np.concatenate([own_cells for own_cells, _, _ in entries])
    area = np.concatenate([own_area for _, _, own_area in entries])
    area[area <= np.minimum(SLIVER_MM2, areas.cell_mm2[cell] / (2 * np.repeat(tries, counts)))] = 0.0
    area *= areas.cell_mm2[cell] / np.bincount(cell, area)[cell]
    within = np.zeros((len(shapes), len(entries)), dtype=np.bool_)
    for column, (_, inner, _) in enumerate(entries):
        within[list(inner), column] = True
    inside = np.where(areas.cut[:, cell], np.repeat(within, counts, axis=1), areas.inside[:, cell])
    has = np.flatnonzero(area)
    return cell[has], area[has], inside[:, has]


def _common_areas(
    shapes: Sequence[Shape], groups: Sequence[Members], cells: Sequence[Ints], lines_mm: tuple[Floats, Floats]
) -> list[dict[Members, Floats]]:
    """Return, per group of outlines, the area that each subset of two or more covers together in the group's cells.

    Sets are built up by one outline at a time, and only from sets that still cover something.
    """
    found: list[dict[Members, Floats]] = [{} for _ in groups]
    shape_of: dict[Members, Shape] = {(k,): shape for k, shape in enumerate(shapes)}
    grown: list[list[Members]] = [list(itertools.combinations(outlines, 2)) for outlines in groups]
    while any(grown):
        wanted = sorted({members for level in grown for members in level})
        for members in wanted:
            shape_of[members] = shared(shape_of[members[:-1]], shape_of[members[-1:]])
        areas = areas_in_cells_mm2([shape_of[members].edges_mm for members in wanted], *lines_mm)
        area_of = {members: area.ravel() for members, area in zip(wanted, areas, strict=True)}
        for g, outlines in enumerate(groups):
            level = [members for members in grown[g] if (area_of[members][cells[g]] > SLIVER_MM2).any()]
            found[g] |= {members: area_of[members][cells[g]] for members in level}
            grown[g] = [(*members, k) for members in level for k in outlines if k > members[-1]]
    return found


def _exactly(shares: dict[Members, Floats]) -> dict[Members, Floats]:
    """Return what lies in these outlines and no others, from what lies in these and perhaps others: largest sets first."""
    exact: dict[Members, Floats] = {}
    for members in sorted(shares, key=len, reverse=True):
        wider = [area for others, area in exact.items() if set(members) < set(others)]
        exact[members] = shares[members] - sum(wider) if wider else shares[members]
    return exact
