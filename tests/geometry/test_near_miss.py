"""How far something must give way until a part fits: by hand, and that it then does."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.geometry.near_miss import Case, cases_of, covering, free_without, least_move_mm, least_way_mm
from grillestack.geometry.piece_table import table_of
from grillestack.geometry.room import room_of
from tests.geometry.rooms import CLEAR, a_beam, a_cooler, a_setting, posed_body


@pytest.mark.parametrize(
    ("free", "gone", "way_mm"),
    [
        ((0, 0, 100, 100), (-50, -50, 90, 200), 0.0),
        ((0, 0, 100, 100), (-50, -50, 108, 200), 8.0),
        ((0, 0, 100, 100), (-5, -50, 300, 300), 5.0),
        ((0, 0, 100, 100), (-50, -50, 300, 103), 3.0),
        ((0, 0, 100, 100), (-50, -2, 300, 300), 2.0),
    ],
)
def test_the_least_side_by_which_a_box_must_give_way(free, gone, way_mm):
    assert least_way_mm([free], [gone]) == way_mm


def hindered(beam_y_mm):
    part = a_cooler(ports=False)
    setting = a_setting(a_beam(beam_y_mm, -300, 300, 300))
    return part, cases_of(setting, table_of([part], CLEAR.growth_mm), np.array([100.0]))[0]


def test_how_far_a_beam_must_give_way_by_hand():
    # leftmost the fins stand at −300…0 and the right tank ends at 40; with 25 of room the beam may begin at 65, not at 30
    _, case = hindered(30)
    assert case.in_depth
    assert not free_without(case, ())
    free = free_without(case, range(len(case.hindrances_mm)))
    assert least_way_mm(free, [taken for *_, taken in case.hindrances_mm]) == pytest.approx(35, abs=1e-4)


@pytest.mark.parametrize("by_mm", [-0.01, 0.01])
def test_the_way_is_the_least_that_lets_the_part_in(by_mm):
    part, case = hindered(30)
    free = free_without(case, range(len(case.hindrances_mm)))
    way = least_way_mm(free, [taken for *_, taken in case.hindrances_mm])
    cut = a_setting(a_beam(30 + way + by_mm, -300, 300, 300))
    assert room_of(cut, posed_body(part), 100.0).is_empty is (by_mm < 0)


def test_the_least_move_is_the_first_that_frees_a_place():
    # three boxes over the whole room but for a strip each; only the ends of the first two leave one
    taken = ((-10.0, -10.0, 110.0, 60.0), (-10.0, -10.0, 110.0, 60.0), (-10.0, -10.0, 50.0, 60.0))
    case = Case(
        in_depth=True, limits_mm=(0.0, 0.0, 100.0, 50.0), hindrances_mm=tuple((0, k, t) for k, t in enumerate(taken))
    )
    assert covering(case) == {0, 1}
    assert least_move_mm(case, {0: 5.0, 1: 9.0, 2: 30.0}) == 9.0
    assert least_move_mm(case, {0: 5.0, 2: 30.0}) is None
    assert least_move_mm(case, {0: 5.0, 2: 30.0}, gone={1}) == 5.0
    assert least_move_mm(case, {}) is None
