"""The columns of the window: what gives way in a narrow one."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget

from grillestack.app.columns import Columns, Outer, widths_in


@pytest.mark.parametrize("whole_px", range(700, 2600, 37))
def test_the_columns_fill_the_window_and_the_nose_has_the_most_of_what_is_shared(whole_px):
    widths = widths_in(whole_px)
    assert widths.left_px + widths.front_px + widths.side_px + widths.right_px == whole_px
    assert widths.side_px == 0 or widths.front_px > widths.side_px


def test_the_outer_columns_give_way_first_and_then_the_side_strip():
    full, laptop, small, least = (widths_in(px) for px in (1280, 1100, 1024, 853))
    assert (full.left_px, full.right_px) == (288, 324)
    assert laptop.left_px < full.left_px
    assert small.side_px > 0
    assert least.side_px == 0
    assert least.front_px > 280


@pytest.fixture
def columns(qtbot):
    made = Columns(QWidget(), QWidget(), QWidget(), QWidget())
    qtbot.addWidget(made)
    made.resize(1280, 600)
    made.show()
    return made


def test_the_side_strip_goes_and_comes_with_the_room_for_it(columns):
    side = columns.widget(2)
    assert side.isVisible()
    columns.resize(853, 600)
    assert not side.isVisible()
    columns.resize(1280, 600)
    assert side.isVisible()


def near(sizes, wanted):
    """Return whether the sizes agree but for the edges between, a pixel each."""
    return all(abs(a - b) <= 4 for a, b in zip(sizes, wanted, strict=True))


@pytest.mark.parametrize("width_px", [853, 1280])
def test_a_guest_takes_the_room_of_side_strip_and_verdict_beside_the_nose_and_gives_it_back(columns, width_px):
    columns.resize(width_px, 600)
    before = columns.sizes()
    guest = QWidget()
    columns.show_beside(guest)
    left, front, _, _, lent = columns.sizes()
    assert near([left, front, lent], [*before[:2], sum(before[2:])])
    assert guest.isVisible()
    assert not columns.widget(3).isVisible()
    columns.show_beside(None)
    assert near(columns.sizes(), before)
    assert columns.widget(3).isVisible()


def test_after_a_guest_an_edge_moved_by_hand_is_where_it_was(columns):
    columns.moveSplitter(400, 1)
    before = columns.sizes()
    columns.show_beside(QWidget())
    columns.show_beside(None)
    assert near(columns.sizes(), before)


def test_an_edge_that_was_moved_by_hand_stays_where_it_is(columns):
    columns.moveSplitter(400, 1)
    columns.resize(1300, 600)
    assert abs(columns.sizes()[0] - 400) < 30


def test_in_a_window_too_narrow_for_both_outer_columns_one_gives_way_to_the_other(columns):
    columns.resize(640, 400)
    left, front, _, right = (columns.widget(i) for i in range(4))
    assert right.isVisible()
    assert front.width() >= 280
    assert not left.isVisible()
    columns.turn(Outer.LEFT, is_open=True)
    assert left.isVisible()
    assert not right.isVisible()
    assert front.width() >= 280
    columns.turn(Outer.LEFT, is_open=False)
    assert not left.isVisible()
    columns.resize(1280, 600)
    assert not left.isVisible()  # it was folded by hand and comes back by hand
    columns.turn(Outer.LEFT, is_open=True)
    columns.turn(Outer.RIGHT, is_open=True)
    assert left.isVisible()
    assert right.isVisible()


def test_larger_letters_have_wider_columns_and_edges_that_a_finger_can_hold(columns):
    before = columns.sizes()
    columns.enlarge(1.25)
    assert columns.sizes()[0] > 1.2 * before[0]
    assert columns.handleWidth() >= 12
    columns.enlarge(1.0)
    assert near(columns.sizes(), before)
