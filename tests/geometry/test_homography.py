"""The map through four points: its own four points, a second solution, the laws of projection, and what it refuses."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.geometry.homography import (
    QuadrilateralError,
    homography,
    inverse,
    mapped,
    refuse_bad_quadrilateral,
    similarity,
    turns_left,
    weights,
)

SEEN = ((412.0, 803.0), (1105.0, 771.0), (1083.0, 640.0), (431.0, 655.0))
PLATE = ((260.0, 500.0), (-260.0, 500.0), (-260.0, 611.0), (260.0, 611.0))


def by_least_squares(from_points, to_points):
    """Return the same map by the other road: the null vector of the 8 × 9 system by singular values, nothing normalised.

    The basic direct linear transformation, Hartley and Zisserman, chapter 4 (from memory); numpy's SVD does the work.
    """
    rows = []
    for (x, y), (u, v) in zip(from_points, to_points, strict=True):
        rows.append([-x, -y, -1, 0, 0, 0, u * x, u * y, u])
        rows.append([0, 0, 0, -x, -y, -1, v * x, v * y, v])
    return np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)


def corners():
    """Return convex quadrilaterals: a corner in each quarter around a middle, far enough out to bend no corner inwards."""
    reach = st.floats(300.0, 420.0)
    return st.tuples(*(st.tuples(reach, reach) for _ in range(4))).map(
        lambda far: tuple(
            (800 + sx * x, 600 + sy * y)
            for (sx, sy), (x, y) in zip(((-1, 1), (1, 1), (1, -1), (-1, -1)), far, strict=True)
        )
    )


@settings(max_examples=60, deadline=None)
@given(corners())
def test_the_four_points_come_to_their_partners_and_back(seen):
    matrix = homography(seen, PLATE)
    assert np.allclose(mapped(matrix, seen), PLATE, atol=1e-8)
    assert np.allclose(mapped(inverse(matrix), PLATE), seen, atol=1e-7)


@settings(max_examples=60, deadline=None)
@given(corners(), st.floats(200, 1400), st.floats(200, 1000))
def test_it_agrees_with_the_null_vector_of_the_plain_equations(seen, x, y):
    ours, theirs = homography(seen, PLATE), by_least_squares(seen, PLATE)
    if abs(weights(ours, [(x, y)])[0]) > 0.05:
        assert np.allclose(mapped(ours, [(x, y)]), mapped(theirs, [(x, y)]), rtol=1e-6, atol=1e-4)


def test_the_unit_square_to_a_trapezium_is_the_sum_done_by_hand():
    # (0,0) (1,0) (1,1) (0,1) to (0,0) (2,0) (1.5,1) (0.5,1). The upper side is half as long, so its weight is twice that of
    # the lower side: w = 1 + y. Then u = (2x + a·y)/w gives 0.5 at (0,1), so a = 1, and v = b·y/w gives 1, so b = 2.
    matrix = homography([(0, 0), (1, 0), (1, 1), (0, 1)], [(0, 0), (2, 0), (1.5, 1), (0.5, 1)])
    assert np.allclose(matrix / matrix[2, 2], [[2, 1, 0], [0, 2, 0], [0, 1, 1]], atol=1e-12)


def test_straight_lines_stay_straight_and_cross_ratios_stay():
    matrix = homography(SEEN, PLATE)
    line = [(300.0 + 200.0 * t, 500.0 + 80.0 * t) for t in (0.0, 1.0, 2.5, 4.0)]
    a, b, c, d = mapped(matrix, line)
    for between in (b, c):
        area = (between - a)[0] * (d - a)[1] - (between - a)[1] * (d - a)[0]
        assert abs(area) < 1e-9 * np.linalg.norm(d - a) ** 2
    to_b, to_c, to_d = (np.linalg.norm(p - a) for p in (b, c, d))
    ratio = (to_c * (to_d - to_b)) / (to_d * (to_c - to_b))
    assert ratio == pytest.approx((2.5 * (4.0 - 1.0)) / (4.0 * (2.5 - 1.0)), rel=1e-9)


def test_a_rectangle_seen_square_is_only_scaled_and_turned_about():
    matrix = homography(
        [(100, 400), (620, 400), (620, 300), (100, 300)], [(260, 0), (-260, 0), (-260, 100), (260, 100)]
    )
    assert np.allclose(matrix, [[-1, 0, 360], [0, -1, 400], [0, 0, 1]], atol=1e-9)


def test_the_weight_is_one_in_the_middle_and_above_nought_at_all_corners():
    matrix = homography(SEEN, PLATE)
    middle = np.mean(SEEN, axis=0)
    assert weights(matrix, [middle])[0] == pytest.approx(1.0, abs=1e-12)
    assert min(weights(matrix, SEEN)) > 0


def test_a_point_on_the_horizon_is_not_a_number():
    matrix = homography([(0, 0), (1, 0), (1, 1), (0, 1)], [(0, 0), (2, 0), (1.5, 1), (0.5, 1)])
    assert np.isnan(mapped(matrix, [(0.3, -1.0)])).all()


def test_it_is_as_good_far_from_the_origin_and_in_small_units():
    moved = [(x + 1e6, y + 1e6) for x, y in SEEN]
    small = [(y * 1e-3, z * 1e-3) for y, z in PLATE]
    assert np.allclose(mapped(homography(moved, small), moved), small, atol=1e-9)


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        (SEEN[:3], "four corners"),
        ((*SEEN[:3], (float("nan"), 1.0)), "four corners"),
        ((SEEN[0],) * 4, "All four corners lie on each other"),
        ((SEEN[0], SEEN[0], SEEN[2], SEEN[3]), "Two of the corners lie on each other"),
        (((0, 0), (10, 0), (20, 0), (10, 10)), "on one line"),
        (((0, 0), (10, 0), (20, 0), (30, 0)), "on one line"),
        ((SEEN[0], SEEN[2], SEEN[1], SEEN[3]), "Two sides cross"),
        (((0, 0), (10, 0), (4, 4), (0, 10)), "a dent"),
    ],
)
def test_four_points_that_are_no_quadrilateral_are_refused_in_a_sentence(seen, words):
    with pytest.raises(QuadrilateralError, match=words):
        homography(seen, PLATE)
    with pytest.raises(QuadrilateralError, match=words):
        homography(PLATE, seen)


def test_of_all_orders_of_four_corners_a_third_is_one_way_round_or_the_other_and_the_rest_cross():
    # Of the 24 orders of the corners of a square 8 go round it, 4 each way; in the other 16 two sides cross.
    round_it, crossing = [], 0
    for order in itertools.permutations(((0, 0), (10, 0), (10, 10), (0, 10))):
        try:
            refuse_bad_quadrilateral(order)
        except QuadrilateralError as error:
            crossing += "Two sides cross" in str(error)
        else:
            round_it.append(turns_left(order))
    assert sorted(round_it) == [False] * 4 + [True] * 4
    assert crossing == 16


def test_a_similarity_keeps_angles_and_scales_all_lengths_alike():
    matrix = similarity((10, 20), (110, 20), (0, 0), (0, 250))
    assert np.allclose(mapped(matrix, [(10, 20), (110, 20), (10, 120)]), [(0, 0), (0, 250), (-250, 0)], atol=1e-9)


def test_a_similarity_through_one_point_is_refused():
    with pytest.raises(QuadrilateralError, match="lie on each other"):
        similarity((1, 1), (1, 1), (0, 0), (5, 0))
