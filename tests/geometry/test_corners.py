"""Rounded corners against areas summed by hand, and laws that hold for any outline."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from grillestack.geometry.corners import (
    FLATNESS_MM,
    arc_centre,
    corner_of,
    fitted_radii,
    largest_radius_mm,
    rounded_outline,
    too_large_places,
)
from grillestack.geometry.outlines import outline_shape
from grillestack.model.outline import Point, rectangle_outline
from tests.geometry.packs import BOW_TIE, OCTAGON, corners

PLACES = st.floats(-500, 500)
OUTLINES = st.lists(st.builds(Point, PLACES, PLACES), min_size=3, max_size=9).map(tuple)


def _square(side_mm):
    return rectangle_outline(0, 0, side_mm, side_mm)


def _worst_error_mm2(radius_mm, turned_rad):
    """What the docstring promises: two thirds of the height over a chord, times the length of the arc."""
    return 2 / 3 * FLATNESS_MM * radius_mm * turned_rad


@given(st.floats(10, 2000), st.floats(0.001, 0.5))
def test_a_square_with_round_corners_lacks_four_minus_pi_squares_of_the_radius(side_mm, share):
    radius = side_mm * share
    shape = outline_shape(_square(side_mm), (radius,) * 4)
    by_hand = side_mm**2 - (4 - math.pi) * radius**2
    assert by_hand - _worst_error_mm2(radius, 2 * math.pi) - 1e-6 <= shape.area_mm2 <= by_hand + 1e-6


def test_a_square_rounded_to_half_its_side_is_a_circle_of_chords():
    shape = outline_shape(_square(200), (100,) * 4)
    circle = math.pi * 100**2
    assert circle - _worst_error_mm2(100, 2 * math.pi) < shape.area_mm2 < circle


def test_a_corner_that_points_inward_is_filled_and_gains_the_area():
    # An angle iron: 100 x 100 less 60 x 60, whose inner corner with radius 20 gains (1 - pi/4) 20^2 = 85.8 mm2.
    iron = corners((0, 0), (100, 0), (100, 40), (40, 40), (40, 100), (0, 100))
    gained = outline_shape(iron, (0, 0, 0, 20, 0, 0)).area_mm2 - 6400
    exact = (1 - math.pi / 4) * 400
    assert exact <= gained <= exact + _worst_error_mm2(20, math.pi / 2)


def test_without_a_radius_the_outline_is_the_very_same_and_a_rectangle_stays_exact():
    outline = rectangle_outline(-1, -2, 3, 4)
    assert rounded_outline(outline) is outline
    assert rounded_outline(outline, (0.0,) * 4) is outline
    assert outline_shape(outline, (0.0,) * 4).box is not None
    assert outline_shape(outline, (1.0, 0.0, 0.0, 0.0)).box is None


@pytest.mark.parametrize("radius", [1.0, 40.0, 900.0])
def test_no_chord_stands_off_its_arc_by_more_than_the_flatness(radius):
    outline = _square(2000)
    centre = arc_centre(corner_of(outline, 0), radius)
    assert (centre.y_mm, centre.z_mm) == pytest.approx((radius, radius))
    arc = [p for p in rounded_outline(outline, (radius, 0, 0, 0)) if p.y_mm <= radius and p.z_mm <= radius]
    assert all(math.hypot(p.y_mm - radius, p.z_mm - radius) == pytest.approx(radius) for p in arc)
    for a, b in itertools.pairwise(arc):
        middle = math.hypot((a.y_mm + b.y_mm) / 2 - radius, (a.z_mm + b.z_mm) / 2 - radius)
        assert radius - middle <= FLATNESS_MM + 1e-9


def test_the_largest_radius_takes_the_whole_shorter_side_unless_its_neighbour_is_round_too():
    outline = rectangle_outline(0, 0, 100, 60)
    assert largest_radius_mm(outline, (), 0) == pytest.approx(60)
    # The corner at the other end of the short side has 25 mm of it already.
    assert largest_radius_mm(outline, (0, 0, 0, 25), 0) == pytest.approx(35)


def test_a_radius_beyond_its_room_is_named_and_drawn_as_large_as_it_fits():
    outline = rectangle_outline(0, 0, 100, 60)
    assert too_large_places(outline, (30, 30, 30, 30)) == ()
    assert too_large_places(outline, (40, 40, 0, 0)) == ()
    assert too_large_places(outline, (40, 0, 0, 40)) == (0, 3)
    assert fitted_radii(outline, (40, 0, 0, 40)) == pytest.approx((30, 0, 0, 30))


def test_a_straight_corner_and_a_spike_stay_as_they_are():
    outline = corners((0, 0), (50, 0), (100, 0), (100, 80), (0, 80))
    assert fitted_radii(outline, (0, 30, 0, 0, 0))[1] == 0
    spike = corners((0, 0), (100, 0), (50, 0), (50, 40))
    assert fitted_radii(spike, (0, 30, 0, 0))[1] == 0
    assert largest_radius_mm(spike, (), 1) == 0


def test_an_outline_that_crosses_itself_can_be_rounded_and_still_says_so():
    assert outline_shape(BOW_TIE, (5,) * len(BOW_TIE)).crosses_itself


@given(OUTLINES, st.lists(st.floats(0, 5000), min_size=9, max_size=9))
def test_arcs_of_any_outline_fit_on_its_sides_and_stay_within_its_bounds(outline, radii):
    radii = tuple(radii[: len(outline)])
    fitted = fitted_radii(outline, radii)
    found = [corner_of(outline, place) for place in range(len(outline))]
    for place, corner in enumerate(found):
        assert 0 <= fitted[place] <= radii[place]
        after = (place + 1) % len(outline)
        needed = corner.tangent_mm(fitted[place]) + found[after].tangent_mm(fitted[after])
        assert needed <= corner.next_mm * (1 + 1e-9) + 1e-9
    ys, zs = [p.y_mm for p in outline], [p.z_mm for p in outline]
    for point in rounded_outline(outline, radii):
        assert min(ys) - 1e-3 <= point.y_mm <= max(ys) + 1e-3
        assert min(zs) - 1e-3 <= point.z_mm <= max(zs) + 1e-3


@given(st.integers(3, 12), st.floats(20, 800), st.floats(0.01, 1.0), st.floats(0, 6))
def test_a_regular_outline_loses_by_hand_the_same_at_each_corner(count, reach_mm, share, turned):
    outline = tuple(
        Point(
            reach_mm * math.cos(turned + n * 2 * math.pi / count), reach_mm * math.sin(turned + n * 2 * math.pi / count)
        )
        for n in range(count)
    )
    inner = reach_mm * math.cos(math.pi / count)
    radius = share * inner
    assume(radius > 0.01)
    # Between a circle's two tangents that meet under the angle pi - t lies r^2 (tan t/2 - t/2), t = 2 pi / n.
    half = math.pi / count
    by_hand = count * (reach_mm**2 * math.sin(2 * half) / 2 - radius**2 * (math.tan(half) - half))
    area = outline_shape(outline, (radius,) * count).area_mm2
    assert by_hand - _worst_error_mm2(radius, 2 * math.pi) - 1e-3 <= area <= by_hand + 1e-3


def test_turning_the_order_round_changes_nothing_of_the_area():
    radii = tuple(float(n) for n in range(len(OCTAGON)))
    one = outline_shape(OCTAGON, radii).area_mm2
    assert outline_shape(OCTAGON[::-1], radii[::-1]).area_mm2 == pytest.approx(one)
