"""Blanks: round ends of slots, mirror images, and one mark for each cut."""

from __future__ import annotations

import math

import pytest
import shapely

from grillestack.sheets.draw_list import Circle, Layer, Point, Polyline
from grillestack.sheets.flat_part import BendLine, FlatPart, Hole, flat_marks, mirrored, rectangle, slot_outline
from grillestack.sheets.paper import Area

SLOT = Hole(at=Point(30.0, 20.0), diameter_mm=9.0, slot_mm=21.0, along_deg=90.0)
PLATE = FlatPart(
    contour=rectangle(Area(0.0, 0.0, 100.0, 60.0)),
    holes=(Hole(at=Point(10.0, 10.0), diameter_mm=8.0, name="a"), SLOT),
    bends=(BendLine(start=Point(70.0, 0.0), end=Point(70.0, 60.0)),),
)


def test_a_slot_is_as_long_and_wide_as_it_says_and_has_its_area():
    polygon = shapely.Polygon([(p.x_mm, p.y_mm) for p in slot_outline(SLOT)])
    x0, y0, x1, y1 = polygon.bounds
    assert (x1 - x0, y1 - y0) == (pytest.approx(9.0), pytest.approx(21.0))
    assert polygon.centroid.coords[0] == pytest.approx((30.0, 20.0))
    # A rectangle of 12 × 9 and a circle of 9 mm, whose chords lack 0.13 % of it
    assert polygon.area == pytest.approx(12 * 9 + math.pi * 4.5**2, rel=1e-3)


def test_every_cut_is_one_mark_on_its_layer():
    marks = list(flat_marks(PLATE, Point(5.0, 5.0), 2.0))
    cuts = [m for m in marks if m.layer is Layer.CUT]
    assert [type(m) for m in cuts] == [Polyline, Circle, Polyline]
    assert all(m.is_closed for m in cuts if isinstance(m, Polyline))
    circle = cuts[1]
    assert (circle.centre, circle.radius_mm) == (Point(10.0, 10.0), 2.0)
    assert len([m for m in marks if m.layer is Layer.BEND]) == 1


def test_the_mirror_image_of_a_mirror_image_is_the_piece():
    twice = mirrored(mirrored(PLATE))
    assert twice.holes[0].at == PLATE.holes[0].at
    assert set(twice.contour) == set(PLATE.contour)
    assert mirrored(PLATE).holes[0].at == Point(90.0, 10.0)
    assert mirrored(PLATE).bends[0].start.x_mm == 30.0
