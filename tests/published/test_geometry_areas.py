"""Areas against formulas of any handbook of mensuration (from memory), through whole overlays."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.exposure import core_faces
from grillestack.geometry.outlines import outline_shape
from grillestack.geometry.overlay import build_overlay
from tests.geometry.packs import OPEN_NOSE, a_core, a_fan, a_project, an_opening, corners


def _exposed_mm2(outline, spread_deg=0.0):
    project = a_project(a_core(size_mm=(1000, 1000)), openings=[an_opening(outline)])
    return core_faces(build_overlay(project, spread_deg), project)["core"].exposed_mm2


def test_surveyors_five_cornered_field():
    # The usual worked example of the shoelace formula: (3,4) (5,11) (12,8) (9,5) (5,6), 30 square units.
    field = corners((3, 4), (5, 11), (12, 8), (9, 5), (5, 6))
    assert outline_shape(field).area_mm2 == pytest.approx(30)
    assert _exposed_mm2(field) == pytest.approx(30)


def test_triangle_by_herons_formula():
    # Sides 130, 140, 150: half the sum is 210, the area √(210·80·70·60) = 8400.
    assert _exposed_mm2(corners((0, 0), (140, 0), (50, 120))) == pytest.approx(8400)


@pytest.mark.parametrize("n", [3, 5, 8, 24])
def test_regular_polygon(n):
    # n/2 · R² · sin(2π/n)
    outline = corners(*((200 * math.cos(2 * math.pi * k / n), 200 * math.sin(2 * math.pi * k / n)) for k in range(n)))
    assert _exposed_mm2(outline) == pytest.approx(n / 2 * 200**2 * math.sin(2 * math.pi / n))


@pytest.mark.parametrize("n", [3, 6, 12])
def test_regular_polygon_grows_by_its_apothem(n):
    # Mitred growth keeps the shape and adds the growth to the inner radius: n · r² · tan(π/n). Mitres of a triangle are
    # just twice the growth, the longest that stay whole.
    inner_mm, growth_mm = 120.0, 100 * math.tan(math.radians(7))
    outer_mm = inner_mm / math.cos(math.pi / n)
    angles = [2 * math.pi * k / n + 0.1 for k in range(n)]
    outline = corners(*((outer_mm * math.cos(a), outer_mm * math.sin(a)) for a in angles))
    expected = n * (inner_mm + growth_mm) ** 2 * math.tan(math.pi / n)
    assert _exposed_mm2(outline, spread_deg=7.0) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("past_mm", [0.0, 40.0, 149.0])
def test_fan_past_the_edge_of_a_core_sweeps_a_circle_less_its_segment(past_mm):
    # Segment beyond a chord at distance d from the centre: r²·acos(d/r) − d·√(r² − d²). The ring has 64 corners.
    r, d = 150.0, 150.0 - past_mm
    segment = r * r * math.acos(d / r) - d * math.sqrt(r * r - d * d)
    fan = a_fan(diameter_mm=2 * r, at_mm=(160, 300 - d, 0))
    project = a_project(a_core(size_mm=(600, 400)), fan, openings=[OPEN_NOSE])
    face = core_faces(build_overlay(project, 0.0), project)["core"]
    assert face.core_mm2 - face.unswept_mm2 == pytest.approx(math.pi * r * r - segment, rel=1e-3)
