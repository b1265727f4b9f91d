"""Outlines as polygons: touching, contained, identical, turned, crossing, empty."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from grillestack.geometry.outlines import (
    edges_of,
    outline_shape,
    polygon_shape,
    rectangle_of,
    resized,
    ring_shape,
    shared,
    united,
    united_without,
)
from grillestack.geometry.projection import Box
from grillestack.model.outline import Point, rectangle_outline
from tests.geometry.packs import BOW_TIE, OCTAGON, corners


def _enclosed_mm2(edges):
    y0, z0, y1, z1 = edges.T
    return float((y0 * z1 - y1 * z0).sum() / 2)


@pytest.mark.parametrize("first", range(4))
@pytest.mark.parametrize("backwards", [False, True])
def test_rectangle_is_known_whichever_corner_it_begins_with(first, backwards):
    outline = rectangle_outline(-1, -2, 3, 4)
    turned = outline[first:] + outline[:first]
    assert rectangle_of(turned[::-1] if backwards else turned) == Box(-1, -2, 3, 4)


@pytest.mark.parametrize(
    "outline",
    [
        corners((0, 0), (10, 1), (10, 10), (0, 10)),  # leaning edge
        corners((0, 0), (10, 0), (10, 10)),  # three corners
        corners((0, 0), (10, 10), (10, 0), (0, 10)),  # crosses itself
        corners((0, 0), (10, 0), (10, 0), (0, 0)),  # no area
        corners((5, 0), (10, 5), (5, 10), (0, 5)),  # turned by 45 degrees
    ],
)
def test_anything_else_is_no_rectangle(outline):
    assert rectangle_of(outline) is None


def test_edges_keep_the_inside_on_their_left():
    clockwise = outline_shape(OCTAGON[::-1])
    assert _enclosed_mm2(clockwise.edges_mm) == pytest.approx(clockwise.area_mm2)
    ring = shapely.box(0, 0, 20, 20).difference(shapely.box(2, 2, 6, 6))
    assert _enclosed_mm2(edges_of(ring)) == pytest.approx(400 - 16)


def test_crossing_outline_keeps_its_area_and_is_flagged():
    shape = outline_shape(BOW_TIE)
    assert shape.crosses_itself
    assert shape.area_mm2 == pytest.approx(40_000)
    assert _enclosed_mm2(shape.edges_mm) == pytest.approx(40_000)


def test_outline_that_touches_itself_or_doubles_back_does_not_fail():
    spike = outline_shape(corners((0, 0), (100, 0), (100, 100), (50, 100), (50, 200), (50, 100), (0, 100)))
    assert spike.area_mm2 == pytest.approx(10_000)
    twice = outline_shape(corners((0, 0), (100, 0), (100, 100), (0, 100), (0, 0), (100, 0), (100, 100), (0, 100)))
    assert twice.area_mm2 == pytest.approx(10_000)


def test_line_encloses_nothing():
    shape = outline_shape(corners((0, 0), (50, 50), (100, 100)))
    assert shape.area_mm2 == 0
    assert not shape.crosses_itself
    assert shape.edges_mm.shape == (0, 4)


def test_ring_has_the_area_of_its_circle():
    shape = ring_shape(10.0, -5.0, 150.0, 1.0)
    assert shape.area_mm2 == pytest.approx(math.pi * 150**2)
    assert shapely.area(shape.polygon) == pytest.approx(math.pi * 150**2)
    # 64 corners stray from the circle by less than a tenth of a millimetre per 100 mm of radius
    radii = np.hypot(shape.edges_mm[:, 0] - 10, shape.edges_mm[:, 1] + 5)
    assert radii == pytest.approx(150, abs=0.13)


def test_tilted_ring_is_flatter_by_the_cosine():
    shape = ring_shape(0.0, 0.0, 100.0, 0.5)
    assert shape.area_mm2 == pytest.approx(math.pi * 100**2 / 2)
    assert shapely.area(shape.polygon) == pytest.approx(shape.area_mm2)


def test_growing_and_shrinking_back_a_rectangle_is_nothing():
    shape = outline_shape(rectangle_outline(0, 0, 60, 40))
    assert resized(resized(shape, 10), -10).box == Box(0, 0, 60, 40)
    assert resized(shape, 0) is shape


def test_rectangle_shrunk_past_its_middle_is_gone():
    shape = outline_shape(rectangle_outline(0, 0, 60, 40))
    assert resized(shape, -20).area_mm2 == 0
    assert resized(shape, -25).area_mm2 == 0


def test_unions_and_differences_of_touching_contained_and_identical_shapes():
    left, right = outline_shape(rectangle_outline(0, 0, 10, 10)), outline_shape(rectangle_outline(10, 0, 20, 10))
    inner = outline_shape(rectangle_outline(2, 2, 4, 4))
    assert united([left, right]).area_mm2 == pytest.approx(200)
    assert united([left, inner]).area_mm2 == pytest.approx(100)
    assert united([left]) is left
    assert shared(left, right).area_mm2 == 0
    assert shared(left, inner).area_mm2 == pytest.approx(4)
    assert shared(left, left).area_mm2 == pytest.approx(100)
    assert united_without([left, right], [inner]).area_mm2 == pytest.approx(196)
    assert united_without([left], [left]).area_mm2 == 0
    assert united_without([left], []) is left


def test_openings_a_hair_apart_have_no_slit_between_them():
    # 0.1 + 0.2 is 4e-17 more than 0.3
    left = outline_shape(rectangle_outline(0, 0, 0.3, 10))
    right = outline_shape(rectangle_outline(0.1 + 0.2, 0, 10, 10))
    edges = united_without([left, right], []).edges_mm
    assert np.hypot(edges[:, 2] - edges[:, 0], edges[:, 3] - edges[:, 1]).sum() == pytest.approx(40)


def test_lines_left_over_from_touching_shapes_are_dropped():
    touch = shapely.intersection(shapely.box(0, 0, 10, 10), shapely.box(10, 5, 20, 15))
    assert touch.geom_type == "LineString"
    assert polygon_shape(touch).area_mm2 == 0


@pytest.mark.parametrize("corners", [[(0, 0)] * 3, [(0, 0), (0, 0), (1, 1)], [(5, 5)] * 5])
def test_rounded_corners_that_all_fall_together_have_no_area_and_no_fault(corners):
    outline = tuple(Point(*corner) for corner in corners)
    assert outline_shape(outline, (1.0,) * len(corners)).area_mm2 == 0.0
