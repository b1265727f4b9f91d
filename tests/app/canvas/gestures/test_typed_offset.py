"""A distance typed while a part is held: a field opens at the part, Enter sets it, Esc leaves the field and then the drag."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.units.display import UnitSystem

KEY = Qt.Key


def place(session, part_id="cac-1"):
    at = session.project.part(part_id).placement
    return at.x_mm, at.y_mm, at.z_mm


@pytest.fixture
def held(front, hand, session):
    """Hold the CAC a little above where it was."""
    session.select(["cac-1"])
    hand.press(330, 600)
    hand.move(331, 612)
    hand.move(333, 622)
    assert session.in_trial
    return front


def rows(view):
    return [(row.words, row.text) for row in view.marks.typed]


def test_a_number_opens_the_field_in_the_way_the_hand_has_gone(held, session):
    QTest.keyClicks(held, "12")
    assert rows(held) == [("up", "12 mm")]
    _, y, z = place(session)
    shown = session.shown.part("cac-1").placement
    assert (shown.y_mm, shown.z_mm) == (y, z + 12)
    assert held.marks.moved_text == "up 12 mm"


def test_enter_sets_it_in_one_step_although_the_button_is_still_held(held, hand, session):
    before = place(session)
    QTest.keyClicks(held, "12")
    QTest.keyClick(held, KEY.Key_Return)
    assert place(session) == (before[0], before[1], before[2] + 12)
    assert session.undo_stack.count() == 1
    hand.move(200, 700)
    hand.release(200, 700)
    assert place(session) == (before[0], before[1], before[2] + 12)
    assert session.undo_stack.count() == 1


def test_letting_go_takes_what_is_typed(held, hand, session):
    before = place(session)
    QTest.keyClicks(held, "7")
    hand.release(333, 640)
    assert place(session)[2] == before[2] + 7


def test_escape_leaves_the_field_first_and_the_drag_after(held, session):
    QTest.keyClicks(held, "12")
    QTest.keyClick(held, KEY.Key_Escape)
    assert rows(held) == []
    assert held.in_gesture
    assert session.in_trial
    QTest.keyClick(held, KEY.Key_Escape)
    assert not held.in_gesture
    assert session.shown is session.project
    assert session.undo_stack.count() == 0


def test_arrow_keys_choose_the_way_as_it_is_seen_and_nudge_nothing(held, session):
    # From ahead the vehicle's right lies at the viewer's left.
    QTest.keyClick(held, KEY.Key_Left)
    QTest.keyClicks(held, "30")
    assert rows(held) == [("to vehicle right", "30 mm")]
    assert session.shown.part("cac-1").placement.y_mm == pytest.approx(30)
    QTest.keyClick(held, KEY.Key_Right)
    assert rows(held) == [("to vehicle left", "30 mm")]
    assert session.shown.part("cac-1").placement.y_mm == pytest.approx(-30)


def test_tab_leads_to_the_other_way_and_both_count(held, session):
    before = place(session)
    QTest.keyClicks(held, "12")
    QTest.keyClick(held, KEY.Key_Tab)
    QTest.keyClicks(held, "5")
    assert rows(held) == [("up", "12 mm"), ("to vehicle right", "5 mm")]
    QTest.keyClick(held, KEY.Key_Return)
    assert place(session) == (before[0], before[1] + 5, before[2] + 12)
    assert session.selection == ("cac-1",)


@pytest.mark.parametrize(
    ("typed", "way_mm"), [("-3", -3.0), ("1/2 in", 12.7), ("12 mm", 12.0), ("1.5 cm", 15.0), ("2 1/2", 2.5)]
)
def test_what_is_on_the_tape_is_taken(held, session, typed, way_mm):
    before = place(session)
    QTest.keyClicks(held, typed)
    QTest.keyClick(held, KEY.Key_Return)
    assert place(session)[2] - before[2] == pytest.approx(way_mm)


def test_inches_are_taken_where_inches_are_shown(front, hand, session):
    session.set_units(UnitSystem.INCH)
    before = place(session)
    session.select(["cac-1"])
    hand.press(330, 600)
    hand.move(331, 612)
    hand.move(333, 622)
    QTest.keyClicks(front, "1/2")
    assert rows(front)[0][1] == "1/2 in"
    QTest.keyClick(front, KEY.Key_Return)
    assert place(session)[2] - before[2] == pytest.approx(12.7)


def test_what_is_no_length_stays_in_the_field_and_says_why(held, session):
    QTest.keyClicks(held, "12 kW")
    assert not held.marks.typed[0].trouble_text
    QTest.keyClick(held, KEY.Key_Return)
    assert held.in_gesture
    assert "kW" in held.marks.typed[0].trouble_text
    assert not held.grab().isNull()
    for _ in range(3):
        QTest.keyClick(held, KEY.Key_Backspace)
    QTest.keyClick(held, KEY.Key_Return)
    assert session.undo_stack.count() == 1


def test_several_go_by_the_same_typed_distance(front, hand, session):
    before = [place(session, name) for name in ("cac-1", "condenser-1")]
    session.select(["cac-1", "condenser-1"])
    hand.press(330, 600)
    hand.move(331, 612)
    hand.move(333, 622)
    QTest.keyClicks(front, "8")
    QTest.keyClick(front, KEY.Key_Return)
    after = [place(session, name) for name in ("cac-1", "condenser-1")]
    assert [b[2] - a[2] for a, b in zip(before, after, strict=True)] == [8, 8]
    assert session.undo_stack.count() == 1


def test_in_the_side_view_it_goes_rearward_or_forward(side, side_hand, session):
    before = place(session, "radiator-1")
    session.select(["radiator-1"])
    side_hand.press(190, 860)
    side_hand.move(196, 860)
    side_hand.move(203, 860)
    QTest.keyClicks(side, "21")
    assert rows(side) == [("rearward", "21 mm")]
    QTest.keyClick(side, KEY.Key_Left)
    assert rows(side) == [("forward", "21 mm")]
    assert not side.grab().isNull()
    QTest.keyClick(side, KEY.Key_Return)
    assert place(session, "radiator-1") == (before[0] - 21, *before[1:])
    assert session.undo_stack.count() == 1


def test_a_place_out_of_this_world_is_refused_in_a_sentence(held, session):
    heard = []
    session.message.connect(heard.append)
    QTest.keyClicks(held, "99 m")
    assert any("height" in sentence for sentence in heard)
    QTest.keyClick(held, KEY.Key_Escape)
    QTest.keyClick(held, KEY.Key_Escape)
    assert session.shown is session.project
