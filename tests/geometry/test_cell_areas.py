"""Areas in cells by hand sums and against plain intersections."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from grillestack.geometry.cell_areas import areas_in_cells_mm2
from grillestack.geometry.outlines import edges_of

LINES = np.array([0.0, 10.0, 20.0])


def _areas(*polygons, y=LINES, z=LINES):
    return areas_in_cells_mm2([edges_of(p) for p in polygons], y, z)


def test_triangle_over_one_cell_by_hand():
    triangle = shapely.Polygon([(2, 2), (8, 2), (2, 8)])
    assert _areas(triangle)[0] == pytest.approx(np.array([[18, 0], [0, 0]]))


def test_diagonal_shares_cells_in_halves():
    below = shapely.Polygon([(0, 0), (20, 0), (20, 20)])
    assert _areas(below)[0] == pytest.approx(np.array([[50, 0], [100, 50]]))


def test_rectangle_through_all_cells():
    assert _areas(shapely.box(5, 5, 15, 15))[0] == pytest.approx(np.full((2, 2), 25.0))


def test_outline_that_is_the_cell_fills_it():
    assert _areas(shapely.box(0, 0, 10, 10))[0] == pytest.approx(np.array([[100, 0], [0, 0]]))


def test_outline_around_the_grid_fills_it_and_one_beside_it_does_not():
    around, beside = shapely.box(-50, -50, 70, 70), shapely.box(30, 0, 40, 20)
    areas = _areas(around, beside)
    assert areas[0] == pytest.approx(np.full((2, 2), 100.0))
    assert areas[1] == pytest.approx(np.zeros((2, 2)))


def test_hole_is_left_out():
    ring = shapely.box(0, 0, 20, 20).difference(shapely.box(2, 2, 6, 6))
    assert _areas(ring)[0, 0, 0] == pytest.approx(100 - 16)


def test_two_parts_add_up():
    parts = shapely.MultiPolygon([shapely.box(1, 1, 3, 3), shapely.box(5, 5, 8, 8)])
    assert _areas(parts)[0, 0, 0] == pytest.approx(4 + 9)


def test_empty_outline_and_no_outline_cover_nothing():
    assert _areas(shapely.Polygon()).sum() == 0
    assert _areas().shape == (0, 2, 2)


def test_grid_without_cells_has_no_areas():
    assert _areas(shapely.box(0, 0, 1, 1), y=np.array([3.0])).shape == (1, 0, 2)


def test_random_stars_agree_with_plain_intersections():
    rng = np.random.default_rng(20240917)
    y, z = np.sort(rng.uniform(-80, 80, 12)), np.sort(rng.uniform(-80, 80, 9))
    cells = shapely.box(y[:-1, None], z[None, :-1], y[1:, None], z[None, 1:])
    for _ in range(30):
        angle = np.sort(rng.uniform(0, 2 * np.pi, 11))
        radius = rng.uniform(5, 100, 11)
        star = shapely.make_valid(shapely.Polygon(np.column_stack((radius * np.cos(angle), radius * np.sin(angle)))))
        assert _areas(star, y=y, z=z)[0] == pytest.approx(shapely.area(shapely.intersection(star, cells)), abs=1e-9)
