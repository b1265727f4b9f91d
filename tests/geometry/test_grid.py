"""Lines of the grid, outlines of unions and borders inside filled cells, counted by hand."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.geometry.grid import border_inside_mm, lines_along, merged, union_perimeter_mm
from grillestack.geometry.projection import Box


def test_equal_and_nearly_equal_values_become_one_line():
    lines, index = merged(np.array([5.0, 0.0, 5.0 + 4e-7, 5.0 + 8e-7, 9.0]))
    assert lines.tolist() == [0.0, 5.0, 9.0]
    assert index.tolist() == [1, 0, 1, 1, 2]


def test_values_further_apart_stay_two_lines():
    lines, _ = merged(np.array([5.0, 5.0 + 2e-6]))
    assert len(lines) == 2


def test_intervals_inside_a_core_are_divided_evenly():
    lines = lines_along(np.array([[0.0, 100.0]]), [], 1, 30.0)
    assert lines.at_mm.tolist() == [0, 25, 50, 75, 100]
    assert (lines.low.tolist(), lines.high.tolist()) == ([0], [4])


def test_interval_of_exactly_the_largest_size_stays_whole():
    lines = lines_along(np.array([[0.1, 60.1], [60.1, 120.1]]), [], 2, 60.0)
    assert len(lines.at_mm) == 3


def test_intervals_outside_cores_are_not_divided():
    lines = lines_along(np.array([[0.0, 50.0], [-500.0, 800.0]]), [], 1, 60.0)
    assert lines.at_mm.tolist() == [-500, 0, 50, 800]


def test_spans_follow_the_refined_lines():
    lines = lines_along(np.array([[0.0, 100.0], [100.0, 130.0]]), [50.0], 1, 30.0)
    assert lines.at_mm.tolist() == [0, 25, 50, 75, 100, 130]
    assert lines.covered().tolist() == [[True] * 4 + [False], [False] * 4 + [True]]


def test_no_rectangle_gives_no_cell():
    lines = lines_along(np.empty((0, 2)), [], 0, 60.0)
    assert lines.n_cells == 0


@pytest.mark.parametrize(
    ("boxes", "expected_mm"),
    [
        ([], 0),
        ([Box(0, 0, 30, 20)], 100),
        ([Box(0, 0, 30, 20), Box(0, 0, 30, 20)], 100),  # identical
        ([Box(0, 0, 30, 20), Box(30, 0, 60, 20)], 160),  # touching along an edge
        ([Box(0, 0, 30, 20), Box(30, 20, 60, 40)], 200),  # touching at a corner
        ([Box(0, 0, 30, 20), Box(5, 5, 10, 10)], 100),  # contained
        ([Box(0, 0, 30, 10), Box(10, -10, 20, 20)], 120),  # a cross: the outline of its bounds
    ],
)
def test_outline_of_a_union(boxes, expected_mm):
    assert union_perimeter_mm(boxes) == pytest.approx(expected_mm)


def test_hole_adds_to_the_outline():
    ring = [Box(0, 0, 30, 10), Box(0, 20, 30, 30), Box(0, 0, 10, 30), Box(20, 0, 30, 30)]
    assert union_perimeter_mm(ring) == pytest.approx(120 + 40)


LINES = np.array([0.0, 10.0, 20.0, 30.0])
ALL = np.ones((3, 3), dtype=bool)


def test_edge_through_filled_cells_counts_with_its_length():
    edges = np.array([[5.0, 5.0, 25.0, 5.0], [5.0, 5.0, 8.0, 9.0]])
    assert border_inside_mm(edges, LINES, LINES, ALL) == pytest.approx(20 + 5)


def test_edge_counts_only_within_filled_cells():
    filled = ALL.copy()
    filled[1, 0] = False
    assert border_inside_mm(np.array([[5.0, 5.0, 45.0, 5.0]]), LINES, LINES, filled) == pytest.approx(5 + 10)


def test_edge_on_a_line_counts_only_between_two_filled_cells():
    along = np.array([[10.0, 0.0, 10.0, 30.0]])
    assert border_inside_mm(along, LINES, LINES, ALL) == pytest.approx(30)
    filled = ALL.copy()
    filled[0, 1] = False
    assert border_inside_mm(along, LINES, LINES, filled) == pytest.approx(20)
    outline = np.array([[0.0, 0.0, 0.0, 30.0]])
    assert border_inside_mm(outline, LINES, LINES, ALL) == 0


def test_no_edge_and_no_filled_cell_give_no_border():
    assert border_inside_mm(np.empty((0, 4)), LINES, LINES, ALL) == 0
    assert border_inside_mm(np.array([[5.0, 5.0, 25.0, 5.0]]), LINES, LINES, ~ALL) == 0
