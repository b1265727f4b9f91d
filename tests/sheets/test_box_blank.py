"""The blank of a box: folded back it is the box, its outline is one closed line, bends do not meet in it."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely

from grillestack.sheets.bend import Bend
from grillestack.sheets.box_blank import BoxShape, box_blank, relief_radius_mm
from grillestack.sheets.trouble import NothingToDrawError
from tests.sheets.folding import folded

SHEET = Bend(thickness_mm=1.5, radius_mm=2.0, neutral_frac=0.44)
THICK = Bend(thickness_mm=3.0, radius_mm=5.0, neutral_frac=0.38)


def _shape(bend: Bend, *, is_inward: bool) -> BoxShape:
    return BoxShape(
        width_mm=600.0, height_mm=400.0, depth_mm=80.0, flange_mm=28.0, flange_is_inward=is_inward, bend=bend
    )


def _polygon(blank):
    return shapely.Polygon([(p.x_mm, p.y_mm) for p in blank.contour])


def _lengths(blank, *, is_across: bool):
    """Return the flat strip through the middle from tip to tip: where it ends, and where the middles of its bends are."""
    at = (lambda p: p.x_mm) if is_across else (lambda p: p.y_mm)
    tip = max(at(p) for p in blank.contour)
    across = [
        b for b in blank.bends if (b.start.x_mm == pytest.approx(b.end.x_mm)) is is_across and abs(at(b.start)) > 1.0
    ]
    return tip, sorted(at(b.start) for b in across)


@pytest.mark.parametrize("bend", [SHEET, THICK])
@pytest.mark.parametrize("is_across", [True, False])
@pytest.mark.parametrize("is_inward", [True, False])
def test_folding_it_back_gives_the_box(bend, is_across, is_inward):
    shape = _shape(bend, is_inward=is_inward)
    blank = box_blank(shape, "Shroud")
    tip, middles = _lengths(blank, is_across=is_across)
    allowance = math.pi / 2 * (bend.radius_mm + bend.neutral_frac * bend.thickness_mm)
    edges = [-tip, *(m + s * allowance / 2 for m in middles for s in (-1, 1)), tip]
    flange = 1 if is_inward else -1
    sides = [flange, 1, 1, flange]
    strip = []
    for place, (start, end) in enumerate(itertools.pairwise(edges)):
        kind = ("straight", end - start) if place % 2 == 0 else ("bend", end - start, sides[place // 2])
        strip.append(kind)
    faces = np.vstack(folded(strip, bend.thickness_mm, bend.radius_mm, bend.neutral_frac))
    # All corners are square, so the box stands upright whichever way it lies.
    (x0, y0), (x1, y1) = faces.min(axis=0), faces.max(axis=0)
    size = shape.width_mm if is_across else shape.height_mm
    over = 0.0 if is_inward else 2 * shape.flange_mm
    assert x1 - x0 == pytest.approx(size + over, abs=0.01)
    assert y1 - y0 == pytest.approx(shape.depth_mm, abs=0.01)


@pytest.mark.parametrize("bend", [SHEET, THICK])
@pytest.mark.parametrize("is_inward", [True, False])
def test_the_outline_is_one_line_that_does_not_cross_itself(bend, is_inward):
    blank = box_blank(_shape(bend, is_inward=is_inward), "Shroud")
    polygon = _polygon(blank)
    assert polygon.is_valid
    assert polygon.exterior.is_ccw
    assert len(set(blank.contour)) == len(blank.contour)


@pytest.mark.parametrize("bend", [SHEET, THICK])
def test_no_metal_is_left_where_two_bends_would_meet(bend):
    shape = _shape(bend, is_inward=True)
    polygon = _polygon(box_blank(shape, "Shroud"))
    half = bend.allowance_mm / 2
    x = shape.width_mm / 2 - bend.setback_mm + half
    y = shape.height_mm / 2 - bend.setback_mm + half
    # The relief is cut in chords, whose middles lie a little inside the round.
    square = shapely.box(x - half, y - half, x + half, y + half)
    assert polygon.intersection(square).area < 1e-3 * square.area
    assert relief_radius_mm(bend) > half * 2**0.5


def test_bend_lines_lie_in_the_metal_from_edge_to_edge():
    blank = box_blank(_shape(SHEET, is_inward=True), "Shroud")
    polygon = _polygon(blank).buffer(0.2)
    for bend in blank.bends:
        line = shapely.LineString([(bend.start.x_mm, bend.start.y_mm), (bend.end.x_mm, bend.end.y_mm)])
        assert polygon.covers(line)
        assert line.length > 300.0
    assert len(blank.bends) == 8


def test_flanges_of_a_closed_corner_do_not_lie_over_each_other():
    # Inwards: the upright flanges run through, so the level ones end a gap beside them.
    shape = _shape(SHEET, is_inward=True)
    blank = box_blank(shape, "Shroud")
    top = max(p.y_mm for p in blank.contour)
    widest = max(p.x_mm for p in blank.contour if p.y_mm == top)
    assert widest == pytest.approx(shape.width_mm / 2 - shape.flange_mm - 1.0)


def test_a_hole_of_the_front_plane_keeps_its_distance_from_the_edge_over_the_bend():
    shape = _shape(SHEET, is_inward=True)
    blank = box_blank(shape, "Shroud")
    tip = max(p.x_mm for p in blank.contour)
    # 14 mm inside the wall's outer face is 14 mm from the tip of a flange that reaches 28 mm.
    hole = blank.on_flange(shape.width_mm / 2 - 14.0, 50.0)
    assert hole is not None
    assert (hole.x_mm, hole.y_mm) == (pytest.approx(tip - 14.0), pytest.approx(50.0))


def test_no_flange_is_where_the_corner_of_an_outward_one_is_open():
    shape = _shape(SHEET, is_inward=False)
    assert box_blank(shape, "Shroud").on_flange(shape.width_mm / 2 + 10.0, shape.height_mm / 2 + 10.0) is None


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"depth_mm": 8.0}, "“Shroud” is 8 mm deep, too shallow"),
        ({"flange_mm": 3.0}, "too narrow to bend"),
        ({"width_mm": 50.0, "height_mm": 50.0}, "too small to fold"),
    ],
)
def test_what_cannot_be_folded_is_said_with_the_remedy(change, sentence):
    sizes = {"width_mm": 600.0, "height_mm": 400.0, "depth_mm": 80.0, "flange_mm": 28.0} | change
    with pytest.raises(NothingToDrawError, match=sentence):
        box_blank(BoxShape(**sizes, flange_is_inward=True, bend=SHEET), "Shroud")
