"""A selected outline under real mouse and key events: corners, sides and rounds."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest

from grillestack.app.canvas.gestures.outline_handles import Held, OutlineHandle, handles_of
from grillestack.model.nose import Opening
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def box(session):
    """One selected opening, 600 × 300, and no pack."""
    opening = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-300, 500, 300, 800))
    nose = replace(session.project.nose, openings=(opening,), obstructions=(), support_window=None)
    session.open_project(Project(title="Bare", nose=nose), None)
    session.select(["opening-1"])
    return session


def opening(session):
    return session.project.nose.openings[0]


def hover(hand, y, z):
    hand.send(QEvent.Type.MouseMove, hand.px(y, z), Qt.MouseButton.NoButton)


def test_a_corner_is_pulled_alone_in_one_step_with_a_real_trial(front, hand, box):
    hand.press(300, 800)
    hand.move(270, 820, held=ALT)
    hand.move(250, 850, held=ALT)
    assert box.in_trial
    assert opening(box).outline[2].z_mm == 800
    hand.release(250, 850, held=ALT)
    after = opening(box).outline
    slack = 1.5 / front.heights.px_per_mm
    assert (after[2].y_mm, after[2].z_mm) == (pytest.approx(250, abs=slack), pytest.approx(850, abs=slack))
    assert [after[n] for n in (0, 1, 3)] == [rectangle_outline(-300, 500, 300, 800)[n] for n in (0, 1, 3)]
    assert box.undo_stack.count() == 1


def test_a_side_is_pulled_parallel_by_its_middle(front, hand, box):
    hand.drag((0, 800), (40, 850), held=ALT)
    tops = {p.z_mm for p in opening(box).outline[2:]}
    assert len(tops) == 1
    assert tops.pop() == pytest.approx(850, abs=1.5 / front.heights.px_per_mm)
    assert {p.y_mm for p in opening(box).outline} == {-300, 300}


def test_escape_puts_the_corner_back(hand, box):
    old = box.project
    hand.press(300, 800)
    hand.move(250, 850)
    hand.move(200, 850)
    assert box.shown is not old
    hand.key(Qt.Key.Key_Escape)
    assert box.shown is old
    assert box.undo_stack.count() == 0


def test_a_double_click_on_a_side_adds_a_corner_and_delete_takes_it_away(front, hand, box):
    hand.send(QEvent.Type.MouseButtonDblClick, hand.px(150, 500))
    hand.release(150, 500)
    assert len(opening(box).outline) == 5
    assert opening(box).outline[1].z_mm == 500
    QTest.keyClick(front, Qt.Key.Key_Delete)
    assert opening(box).outline == rectangle_outline(-300, 500, 300, 800)
    assert box.undo_stack.count() == 2


def test_insert_adds_a_corner_under_the_pointer_and_never_fewer_than_three_are_left(front, hand, box):
    said = []
    box.message.connect(said.append)
    hover(hand, 150, 500)
    QTest.keyClick(front, Qt.Key.Key_Insert)
    assert len(opening(box).outline) == 5
    for _ in range(4):
        place = opening(box).outline[0]
        hover(hand, place.y_mm, place.z_mm)
        QTest.keyClick(front, Qt.Key.Key_Delete)
    assert len(opening(box).outline) == 3
    assert "at least 3 corners" in said[-1]


def test_a_typed_radius_rounds_the_chosen_corner(front, hand, box):
    hand.click(300, 800)
    QTest.keyClicks(front, "40")
    assert front.outline_hand.marks(1.0).typed_text == "40 mm"
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert opening(box).corner_radii_mm == (0, 0, 40, 0)
    assert box.undo_stack.undoText() == "round a corner of Grille"
    front.grab()


def test_a_radius_larger_than_the_sides_allow_is_refused_in_a_sentence(front, hand, box):
    said = []
    box.message.connect(said.append)
    hand.click(300, 800)
    QTest.keyClicks(front, "301")
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert "can be 300 mm at most" in said[-1]
    assert opening(box).corner_radii_mm == ()
    QTest.keyClick(front, Qt.Key.Key_Backspace)
    QTest.keyClick(front, Qt.Key.Key_Backspace)
    QTest.keyClicks(front, "00")
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert opening(box).corner_radii_mm == (0, 0, 300, 0)


def test_the_round_handle_is_pulled_along_the_middle_of_the_corner(front, hand, box):
    hand.click(300, 800)
    scale = front.heights.px_per_mm
    y, z = handles_of(opening(box), 2, scale)[OutlineHandle(Held.ROUND, 2)]
    # The arc's middle stands radius / sin 45° inside the corner: 100 mm of pull along the middle make 70.7 mm of radius.
    step = 100 / math.sqrt(2)
    hand.drag((y, z), (y - step, z - step), held=ALT)
    assert opening(box).corner_radii_mm[2] == pytest.approx(100 / math.sqrt(2), abs=2 / scale)
    assert box.undo_stack.count() == 1


def test_the_window_keeps_its_delete_where_no_corner_is_meant(front, hand, box):
    hover(hand, 0, 650)
    assert not front.outline_hand.wants_key(Qt.Key.Key_Delete, "")
    hover(hand, 300, 800)
    assert front.outline_hand.wants_key(Qt.Key.Key_Delete, "")


def test_handles_show_for_a_single_outline_only(front, box):
    assert front.outline_hand.marks(1.0) is not None
    box.select([])
    assert front.outline_hand.marks(1.0) is None
