"""Patches and corners: merged where they can be, cut where they must be, never with a hole."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from grillestack.geometry.outlines import polygon_shape
from grillestack.geometry.piece_shapes import PieceFrame, corners_of, patches_of
from grillestack.geometry.pieces import cut_cells

LINES = np.array([0.0, 10.0, 20.0, 30.0])


def _frame(*polygons, y=LINES, z=LINES, n_nose=None):
    shapes = tuple(polygon_shape(p) for p in polygons)
    pieces = cut_cells(shapes, np.ones((len(shapes), (len(y) - 1) * (len(z) - 1)), dtype=bool), y, z)
    iy, iz = np.divmod(pieces.cell, len(z) - 1)
    n_nose = len(shapes) if n_nose is None else n_nose
    return PieceFrame(y, z, iy, iz, shapes, n_nose, pieces.inside, pieces.cut)


def _bounds(patches):
    return sorted(shapely.Polygon(patch).bounds for patch in patches)


def test_whole_grid_is_one_rectangle():
    frame = _frame()
    assert _bounds(patches_of(frame, np.arange(9), 0)) == [(0, 0, 30, 30)]


def test_no_piece_has_no_patch():
    assert patches_of(_frame(), np.array([], dtype=np.int64), 0) == ()


def test_strips_of_equal_span_are_merged_and_others_are_not():
    frame = _frame()
    # Cells run up first: columns y = 0 … 2, rows z = 0 … 2; an L: the left column and the bottom row
    members = np.flatnonzero((frame.iy == 0) | (frame.iz == 0))
    assert _bounds(patches_of(frame, members, 0)) == [(0, 0, 30, 10), (0, 10, 10, 30)]


def test_span_that_returns_after_a_break_begins_anew():
    frame = _frame()
    members = np.flatnonzero((frame.iy == 1) & (frame.iz != 1))
    assert _bounds(patches_of(frame, members, 0)) == [(10, 0, 20, 10), (10, 20, 20, 30)]


def test_cells_cut_by_one_outline_are_merged_before_they_are_cut():
    frame = _frame(shapely.box(-1, -1, 25, 31))
    inside = patches_of(frame, np.flatnonzero(frame.inside[:, 0]), 1)
    assert _bounds(inside) == [(0, 0, 20, 30), (20, 0, 25, 30)]
    outside = patches_of(frame, np.flatnonzero(~frame.inside[:, 0]), 1)
    assert _bounds(outside) == [(25, 0, 30, 30)]


def test_cell_whose_pieces_all_belong_is_whole_again():
    frame = _frame(shapely.box(-1, -1, 25, 31))
    assert _bounds(patches_of(frame, np.arange(len(frame.iy)), 1)) == [(0, 0, 30, 30)]


def test_outline_that_does_not_part_the_members_is_not_looked_at():
    # A nose outline up to y = 25, a ring up to z = 15; the members are parted by the first alone.
    frame = _frame(shapely.box(-1, -1, 25, 31), shapely.box(-1, -1, 31, 15), n_nose=1)
    patches = patches_of(frame, np.flatnonzero(frame.inside[:, 0]), 1)
    assert _bounds(patches) == [(0, 0, 20, 30), (20, 0, 25, 30)]


def test_patch_around_a_hole_is_drawn_without_one():
    frame = _frame(shapely.Polygon([(12, 15), (15, 12), (18, 15), (15, 18)]))
    outside = np.flatnonzero(~frame.inside[:, 0])
    patches = [shapely.Polygon(patch) for patch in patches_of(frame, outside, 1)]
    assert all(patch.is_valid for patch in patches)
    assert sum(patch.area for patch in patches) == pytest.approx(900 - 18)
    assert shapely.union_all(patches).area == pytest.approx(900 - 18)
    assert not shapely.union_all(patches).contains(shapely.Point(15, 15))


def test_two_holes_are_both_opened():
    holes = shapely.MultiPolygon([shapely.box(11, 11, 13, 13), shapely.box(15, 15, 19, 17)])
    frame = _frame(holes)
    middle = np.flatnonzero(~frame.inside[:, 0] & (frame.iy == 1) & (frame.iz == 1))
    patches = [shapely.Polygon(patch) for patch in patches_of(frame, middle, 1)]
    assert shapely.union_all(patches).area == pytest.approx(100 - 4 - 8)


def test_every_piece_has_its_own_corners():
    frame = _frame(shapely.Polygon([(0, 0), (30, 0), (30, 30)]))
    drawn = [sum(shapely.Polygon(ring).area for ring in rings) for rings in corners_of(frame)]
    # Three cells on the diagonal fall into halves.
    assert sorted(drawn) == pytest.approx([50] * 6 + [100] * 6)
