"""Cells cut by one, two and three outlines; every expected area is a hand sum."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from grillestack.geometry.outlines import polygon_shape
from grillestack.geometry.pieces import cut_cells

ONE_CELL = np.array([0.0, 10.0])


def _cut(*polygons, y=ONE_CELL, z=ONE_CELL, where=None):
    shapes = [polygon_shape(p) for p in polygons]
    n_cells = (len(y) - 1) * (len(z) - 1)
    if where is None:
        where = np.ones((len(shapes), n_cells), dtype=bool)
    return cut_cells(shapes, where, y, z)


def _told(pieces):
    return {tuple(np.flatnonzero(row).tolist()): area for row, area in zip(pieces.inside, pieces.area_mm2, strict=True)}


def test_uncut_cells_are_one_piece_each():
    pieces = _cut(y=np.array([0.0, 10, 30]))
    assert pieces.area_mm2.tolist() == [100, 200]
    assert pieces.cell.tolist() == [0, 1]


def test_one_outline_makes_two_pieces():
    assert _told(_cut(shapely.box(0, 0, 3, 10))) == pytest.approx({(0,): 30, (): 70})


def test_outline_around_the_cell_cuts_nothing():
    pieces = _cut(shapely.box(-5, -5, 15, 15))
    assert _told(pieces) == pytest.approx({(0,): 100})
    assert not pieces.cut.any()


def test_two_crossing_outlines_make_four_pieces():
    pieces = _cut(shapely.box(0, 0, 4, 10), shapely.box(0, 0, 10, 3))
    assert _told(pieces) == pytest.approx({(0, 1): 12, (0,): 28, (1,): 18, (): 42})


def test_outline_within_another_makes_three_pieces():
    pieces = _cut(shapely.box(1, 1, 9, 9), shapely.box(2, 2, 5, 5))
    assert _told(pieces) == pytest.approx({(0, 1): 9, (0,): 55, (): 36})


def test_identical_outlines_make_two_pieces():
    triangle = shapely.Polygon([(0, 0), (10, 0), (0, 10)])
    assert _told(_cut(triangle, triangle)) == pytest.approx({(0, 1): 50, (): 50})


def test_touching_outlines_share_nothing():
    assert _told(_cut(shapely.box(0, 0, 4, 10), shapely.box(4, 0, 9, 10))) == pytest.approx(
        {(0,): 40, (1,): 50, (): 10}
    )


def test_three_outlines_make_up_to_eight_pieces():
    pieces = _cut(shapely.box(0, 0, 5, 10), shapely.box(0, 0, 10, 5), shapely.Polygon([(0, 0), (10, 0), (10, 10)]))
    # The diagonal halves the two quarters on it and takes the right lower one whole.
    expected = {(0, 1): 12.5, (0, 1, 2): 12.5, (0,): 25, (1, 2): 25, (2,): 12.5, (): 12.5}
    assert _told(pieces) == pytest.approx(expected)


def test_outline_counts_only_where_it_is_asked_for():
    where = np.array([[True, False]])
    pieces = _cut(shapely.box(5, 0, 25, 10), y=np.array([0.0, 10, 30]), where=where)
    assert pieces.cell.tolist() == [0, 0, 1]
    assert pieces.area_mm2.tolist() == [50, 50, 200]
    assert pieces.inside[:, 0].tolist() == [True, False, False]


def test_sliver_goes_to_its_neighbour():
    pieces = _cut(shapely.box(0, 0, 10, 10 - 1e-8))
    assert pieces.area_mm2.tolist() == [100]
    two = _cut(shapely.box(0, 0, 5, 10), shapely.box(0, 0, 5 + 1e-8, 10))
    assert two.area_mm2.sum() == pytest.approx(100, rel=1e-15)
    assert len(two.cell) == 2


def test_cut_says_which_outlines_part_the_cell():
    pieces = _cut(shapely.box(0, 0, 4, 10), shapely.box(-5, -5, 15, 15))
    assert pieces.cut.tolist() == [[True, False], [True, False]]


def test_pieces_come_in_the_order_of_the_cells():
    y = np.array([0.0, 10, 20, 30])
    pieces = _cut(shapely.box(5, 0, 25, 10), y=y)
    assert pieces.cell.tolist() == [0, 0, 1, 2, 2]


def test_many_outlines_in_one_cell_stay_quick_as_long_as_they_do_not_meet():
    bars = [shapely.Polygon([(k, 0), (k + 0.3, 0), (k + 0.5, 10), (k + 0.2, 10)]) for k in range(9)]
    pieces = _cut(*bars)
    assert len(pieces.cell) == 10
    assert _told(pieces)[()] == pytest.approx(100 - 9 * 3)
