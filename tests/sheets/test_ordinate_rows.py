"""The places of texts in a row, held against a general optimiser."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from grillestack.sheets.draw_list import Axis, Point
from grillestack.sheets.ordinate_rows import Row, RowItem, broken, placed_row, row_length_mm, row_reach_mm, spread


def test_places_with_room_stay_where_they_are():
    assert spread([10.0, 20.0, 40.0], [4.0, 4.0, 4.0], 0.0, 100.0) == pytest.approx((10.0, 20.0, 40.0))


def test_three_in_one_place_stand_around_it():
    assert spread([50.0, 50.0, 50.0], [4.0, 4.0, 4.0], 0.0, 100.0) == pytest.approx((46.0, 50.0, 54.0))


def test_places_near_an_end_are_pushed_inwards():
    assert spread([0.0, 1.0], [4.0, 4.0], 0.0, 100.0) == pytest.approx((2.0, 6.0))


def test_no_places_are_given_where_there_is_no_room():
    assert spread([1.0, 2.0, 3.0], [4.0, 4.0, 4.0], 0.0, 11.0) is None
    assert spread([], [], 0.0, 1.0) == ()


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 100), st.floats(2, 9)), min_size=1, max_size=7))
def test_no_other_free_places_lie_nearer_to_the_wanted_ones(things):
    """scipy's optimiser is the judge of the least squares; it ends a little beside the true least."""
    things.sort()
    wanted, sizes = [t[0] for t in things], [t[1] for t in things]
    found = spread(wanted, sizes, -100.0, 200.0)
    for (a, b), (size_a, size_b) in zip(itertools.pairwise(found), itertools.pairwise(sizes), strict=True):
        assert b - a >= (size_a + size_b) / 2 - 1e-9
    limits = [
        {"type": "ineq", "fun": lambda x, k=k: x[k + 1] - x[k] - (sizes[k] + sizes[k + 1]) / 2}
        for k in range(len(sizes) - 1)
    ]
    best = minimize(lambda x: sum((x - wanted) ** 2), found, constraints=limits, method="SLSQP")
    assert sum((f - w) ** 2 for f, w in zip(found, wanted, strict=True)) <= best.fun + 1e-3


def test_a_row_below_a_view_runs_down_without_crossing_itself():
    items = [
        RowItem(key=f"k{n}", datum=Point(0, 0), feature=Point(50.0 + n, 40.0), value_mm=float(n), text=f"{n} RAD core")
        for n in range(6)
    ]
    row = Row(axis=Axis.ACROSS, edge_mm=30.0, outward=-1, low_mm=0.0, high_mm=100.0, text_mm=2.5)
    placed = placed_row(items, row)
    ends = [one.leader[-1].x_mm for one in placed]
    assert ends == sorted(ends)
    assert all(b - a >= 2.5 for a, b in itertools.pairwise(ends))
    assert all(one.leader[-1].y_mm < 30.0 and one.text_at.y_mm < one.leader[-1].y_mm for one in placed)


def test_a_long_label_takes_more_lines_and_more_room():
    long = broken("614  COND, CAC, RAD core; SHROUD", 2.5, 9.0)
    assert "\n" in long
    assert row_length_mm([long], 2.5) > row_length_mm(["614"], 2.5)
    assert row_reach_mm([long], 2.5) < row_reach_mm(["614  COND, CAC, RAD core; SHROUD"], 2.5)
