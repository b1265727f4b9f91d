"""Marks cut to a rectangle: nothing is lost or doubled over a partition, another library finds the same pieces."""

from __future__ import annotations

import itertools
import math
import random

import pytest
import shapely

from grillestack.sheets.clip import clipped
from grillestack.sheets.draw_list import Arc, Circle, Fill, Hatch, Line, Point, Polyline, Text
from grillestack.sheets.paper import Area

AREA = Area(0.0, 0.0, 100.0, 60.0)


def _partition(step_mm: float = 23.0):
    xs = [-120.0 + step_mm * k for k in range(16)]
    return [Area(x, y, x + step_mm, y + step_mm) for x, y in itertools.product(xs, xs)]


def _length(marks) -> float:
    total = 0.0
    for mark in marks:
        if isinstance(mark, Line):
            total += math.dist((mark.start.x_mm, mark.start.y_mm), (mark.end.x_mm, mark.end.y_mm))
        elif isinstance(mark, Polyline):
            points = [(p.x_mm, p.y_mm) for p in mark.points]
            points += points[:1] if mark.is_closed else []
            total += sum(math.dist(a, b) for a, b in itertools.pairwise(points))
        elif isinstance(mark, Circle):
            total += 2 * math.pi * mark.radius_mm
        elif isinstance(mark, Arc):
            total += math.radians((mark.end_deg - mark.start_deg) % 360 or 360.0) * mark.radius_mm
    return total


@pytest.mark.parametrize(
    "mark",
    [
        Line(start=Point(-80.3, -71.7), end=Point(90.1, 55.9)),
        Polyline(points=(Point(-50, -50), Point(70, -20), Point(10, 80))),
        Polyline(points=(Point(-50, -50), Point(70, -20), Point(10, 80)), is_closed=True),
        Circle(centre=Point(3.0, 5.0), radius_mm=60.0),
        Circle(centre=Point(3.0, 5.0), radius_mm=4.0),
        Arc(centre=Point(0.0, 0.0), radius_mm=55.0, start_deg=300.0, end_deg=80.0),
    ],
)
def test_over_a_partition_nothing_is_lost_or_drawn_twice(mark):
    assert _length(p for area in _partition() for p in clipped(mark, area)) == pytest.approx(_length([mark]))


def test_lines_are_those_that_another_library_cuts():
    lot = random.Random(7)
    box = shapely.box(AREA.x0_mm, AREA.y0_mm, AREA.x1_mm, AREA.y1_mm)
    for _ in range(300):
        points = tuple(Point(lot.uniform(-60, 160), lot.uniform(-60, 120)) for _ in range(lot.randint(2, 6)))
        line = Polyline(points=points)
        shape = shapely.LineString([(p.x_mm, p.y_mm) for p in points])
        found = list(clipped(line, AREA))
        assert _length(found) == pytest.approx(shape.intersection(box).length, abs=1e-6)
        for piece in found:
            assert all(box.buffer(1e-9).contains(shapely.Point(p.x_mm, p.y_mm)) for p in piece.points)


def test_a_circle_that_crosses_a_corner_leaves_a_quarter_arc():
    (arc,) = clipped(Circle(centre=Point(0.0, 0.0), radius_mm=20.0), AREA)
    assert isinstance(arc, Arc)
    assert (arc.start_deg % 360, arc.end_deg % 360) == (pytest.approx(0.0), pytest.approx(90.0))


def test_what_lies_inside_stays_the_same_mark():
    for mark in (
        Circle(centre=Point(50.0, 30.0), radius_mm=10.0),
        Polyline(points=(Point(10, 10), Point(20, 10), Point(20, 20)), is_closed=True),
    ):
        assert list(clipped(mark, AREA)) == [mark]


def test_what_lies_outside_is_gone():
    assert not list(clipped(Circle(centre=Point(50.0, 30.0), radius_mm=200.0), AREA))
    assert not list(clipped(Line(start=Point(-5, -5), end=Point(-5, 70)), AREA))


def test_a_filled_area_is_cut_as_another_library_cuts_it():
    corners = (Point(-20, 30), Point(50, -40), Point(130, 30), Point(50, 90))
    (fill,) = clipped(Fill(points=corners), AREA)
    found = shapely.Polygon([(p.x_mm, p.y_mm) for p in fill.points])
    judge = shapely.Polygon([(p.x_mm, p.y_mm) for p in corners]).intersection(shapely.box(0, 0, 100, 60))
    assert found.symmetric_difference(judge).area < 1e-9


def test_hatching_keeps_its_lines_and_their_length():
    hatch = Hatch(points=(Point(-30, -30), Point(60, -30), Point(60, 60), Point(-30, 60)), spacing_mm=3.0)
    whole = _length(p for area in [Area(-500, -500, 500, 500)] for p in clipped(hatch, area))
    assert _length(p for area in _partition() for p in clipped(hatch, area)) == pytest.approx(whole)


def test_a_text_is_there_whole_or_not_at_all():
    text = Text(at=Point(5.0, 5.0), text="B1, 4 off")
    assert list(clipped(text, AREA)) == [text]
    assert not list(clipped(Text(at=Point(95.0, 5.0), text="B1, 4 off"), AREA))
