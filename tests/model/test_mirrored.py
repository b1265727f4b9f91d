"""Mirroring about the centre of the nose: symmetrical, nothing doubled, areas by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.model.mirrored import mirrored_whole, reaches_centre, twin_of, whole_of_half
from grillestack.model.outline import Point, rectangle_outline
from grillestack.model.outline_edits import signed_area_mm2


def pts(*places):
    return tuple(Point(y, z) for y, z in places)


def symmetrical(corners):
    there = sorted((round(p.y_mm, 6) + 0.0, round(p.z_mm, 6)) for p in corners)
    return there == sorted((round(-p.y_mm, 6) + 0.0, round(p.z_mm, 6)) for p in corners)


def test_half_a_trapezium_drawn_from_the_centre_line_becomes_the_whole_without_needless_corners():
    whole = whole_of_half(pts((0, 500), (300, 500), (250, 700), (0, 700)))
    assert set(whole.corners) == set(pts((300, 500), (250, 700), (-250, 700), (-300, 500)))
    assert abs(signed_area_mm2(whole.corners)) == pytest.approx((600 + 500) / 2 * 200)


def test_a_peak_on_the_centre_line_stays_a_corner_and_stands_once():
    whole = whole_of_half(pts((0, 500), (300, 500), (250, 700), (0, 760)))
    assert whole.corners.count(Point(0, 760)) == 1
    assert Point(0, 500) not in whole.corners


def test_a_half_that_ends_short_of_the_centre_line_is_joined_across_it():
    whole = whole_of_half(pts((50, 500), (300, 500), (250, 700), (50, 700)), (0, 10, 20, 0))
    assert len(whole.corners) == 8
    assert whole.radii_mm == (0, 10, 20, 0, 0, 20, 10, 0)


def test_an_outline_wholly_on_one_side_has_a_twin_on_the_other():
    left = rectangle_outline(-300, 500, -100, 600)
    assert not reaches_centre(left)
    twin = twin_of(left, (1, 2, 3, 4))
    assert set(twin.corners) == set(rectangle_outline(100, 500, 300, 600))
    # Each radius goes with its corner to the other side.
    assert dict(zip(twin.corners, twin.radii_mm, strict=True))[Point(300, 500)] == 1


def test_an_outline_askew_over_the_centre_becomes_twice_its_larger_side():
    askew = rectangle_outline(-100, 500, 300, 600)
    assert reaches_centre(askew)
    whole = mirrored_whole(askew, (0, 25, 0, 0))
    assert set(whole.corners) == set(rectangle_outline(-300, 500, 300, 600))
    kept = dict(zip(whole.corners, whole.radii_mm, strict=True))
    assert kept[Point(300, 500)] == kept[Point(-300, 500)] == 25


def test_what_only_touches_the_centre_in_a_corner_has_no_side_to_be_joined_along():
    assert mirrored_whole(pts((0, 500), (200, 450), (200, 600)), ()) is None


HALVES = st.lists(st.builds(Point, st.floats(1, 500), st.floats(300, 900)), min_size=2, max_size=8)


@given(HALVES, st.booleans(), st.booleans())
def test_any_half_becomes_a_symmetrical_outline(half, begins, ends):
    path = [*([Point(0, 310)] if begins else []), *half, *([Point(0, 890)] if ends else [])]
    whole = whole_of_half(path)
    assert symmetrical(whole.corners)
    assert len(whole.corners) >= 3
    assert set(half) <= set(whole.corners)
