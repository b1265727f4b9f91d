"""Openings for flaps: of the area asked for, clear of rings and of each other."""

from __future__ import annotations

import itertools

import pytest
import shapely

from grillestack.sheets.draw_list import Point
from grillestack.sheets.flap_openings import LAND_MM, flap_openings
from grillestack.sheets.flat_part import Hole
from grillestack.sheets.paper import Area

PANEL = Area(-300.0, -200.0, 300.0, 200.0)
RING = Hole(at=Point(0.0, 0.0), diameter_mm=380.0)


def _polygons(openings):
    return [shapely.Polygon([(p.x_mm, p.y_mm) for p in outline]) for outline in openings]


@pytest.mark.parametrize("area_mm2", [2_000.0, 20_000.0, 40_000.0])
def test_openings_have_the_area_and_keep_clear(area_mm2):
    found = _polygons(flap_openings(area_mm2, PANEL, [RING]))
    assert sum(p.area for p in found) == pytest.approx(area_mm2)
    ring = shapely.Point(0, 0).buffer(190.0, quad_segs=64)
    room = shapely.box(-300, -200, 300, 200)
    for polygon in found:
        assert polygon.distance(ring) >= LAND_MM - 0.1
        assert room.exterior.distance(polygon) >= LAND_MM - 1e-9
    for one, other in itertools.combinations(found, 2):
        assert one.distance(other) >= LAND_MM - 1e-9


def test_no_area_needs_no_opening():
    assert flap_openings(0.0, PANEL, [RING]) == ()


def test_too_large_an_area_finds_no_room():
    assert flap_openings(230_000.0, PANEL, [RING]) is None
