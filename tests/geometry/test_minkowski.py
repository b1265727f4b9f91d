"""Sums of outlines: areas by the formula for convex shapes, and that convex pieces cover what they stand for."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.geometry.minkowski import convex_pieces, convex_sum, corners_of, forbidden
from grillestack.geometry.outlines import box_shape, outline_shape, polygon_shape
from grillestack.geometry.projection import Box
from grillestack.model.outline import Point

TRIANGLE = np.array([(0.0, 0.0), (60.0, 0.0), (0.0, 40.0)])
SQUARE = np.array([(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)])
HOOK = tuple(Point(*at) for at in ((0, 0), (100, 0), (100, 30), (30, 30), (30, 80), (0, 80)))


def test_a_convex_shape_grown_by_a_square_has_the_mixed_area():
    # Steiner's formula for a square of half side c in place of a disc: A + 2c·(width + height) + 4c²
    area = shapely.area(convex_sum(TRIANGLE, SQUARE))
    assert area == pytest.approx(60 * 40 / 2 + 2 * 5 * (60 + 40) + 4 * 25)


def test_the_sum_of_two_boxes_is_a_box_of_both_sizes():
    total = convex_sum(corners_of(Box(0.0, 0.0, 30.0, 20.0)), corners_of(Box(-1.0, -2.0, 5.0, 4.0)))
    assert shapely.bounds(total).tolist() == [-1.0, -2.0, 35.0, 24.0]
    assert shapely.area(total) == pytest.approx(36 * 26)


def test_a_box_is_one_convex_piece_and_a_hook_is_several_with_its_area():
    assert len(convex_pieces(box_shape(Box(0.0, 0.0, 10.0, 20.0)))) == 1
    pieces = convex_pieces(outline_shape(HOOK))
    assert len(pieces) > 1
    assert sum(shapely.area(shapely.Polygon(piece)) for piece in pieces) == pytest.approx(100 * 30 + 30 * 50)


def test_an_outline_with_a_hole_keeps_its_hole():
    ring = polygon_shape(shapely.difference(shapely.box(0, 0, 100, 100), shapely.box(40, 40, 60, 60)))
    pieces = convex_pieces(ring)
    assert sum(shapely.area(shapely.Polygon(piece)) for piece in pieces) == pytest.approx(100**2 - 20**2)
    # a part of 8 × 8 with 5 to spare all round goes into the hole of 20 × 20 at one place only: 20 − 2·5 − 8 = 2
    taken = forbidden(pieces, np.array([(-4, -4), (4, -4), (4, 4), (-4, 4)], dtype=float), 5.0)
    hole = shapely.difference(shapely.box(40, 40, 60, 60), taken)
    assert shapely.bounds(hole).tolist() == pytest.approx([49, 49, 51, 51])


points = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


@settings(max_examples=100, deadline=None)
@given(st.lists(points, min_size=3, max_size=8), points, points)
def test_a_place_is_forbidden_where_the_piece_put_there_meets_the_obstacle(corners, shift, size):
    hull = shapely.convex_hull(shapely.multipoints(corners))
    if hull.geom_type != "Polygon" or shapely.area(hull) < 1.0:
        return
    piece = corners_of(Box(-abs(size[0]) - 1, -2.0, 3.0, abs(size[1]) + 1))
    taken = forbidden(convex_pieces(polygon_shape(hull)), piece, 4.0)
    put = shapely.Polygon(piece + np.array(shift))
    grown = shapely.box(*(put.bounds[0] - 4, put.bounds[1] - 4, put.bounds[2] + 4, put.bounds[3] + 4))
    overlap = shapely.area(shapely.intersection(grown, hull))
    away = shapely.distance(taken, shapely.Point(shift))
    if overlap > 1e-6:
        assert away == 0.0
    if not shapely.intersects(grown, hull):
        assert away > 0.0
