"""All by keyboard: regions, parts and outlines, corners, and a distance typed without a mouse."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from grillestack.model.project import stack

KEYS = Qt.Key


@pytest.fixture
def nose(window, session, qtbot):
    """Give the window with the keyboard on the front view and nothing selected."""
    window.activateWindow()
    qtbot.waitActive(window)
    window.front.setFocus()
    session.select(())
    return window


def press(widget, key, keys=Qt.KeyboardModifier.NoModifier, times=1):
    for _ in range(times):
        QTest.keyClick(widget, key, keys)


def test_tab_walks_through_the_parts_and_then_the_outlines_of_the_nose(nose, session):
    found = []
    for _ in range(len(session.project.parts) + 2):
        press(nose.front, KEYS.Key_Tab)
        found += session.selection
    assert found == [*(part.id for part in stack(session.project)), "opening-1", "obstruction-2"]
    press(nose.front, KEYS.Key_Tab)
    assert not nose.front.hasFocus()


def test_a_corner_is_chosen_moved_rounded_and_removed_without_a_mouse(nose, session):
    session.select(("opening-1",))
    press(nose.front, KEYS.Key_PageDown, times=2)
    assert nose.front.outline_hand.chosen == 1
    before = session.project.nose.openings[0].outline
    press(nose.front, KEYS.Key_Up, times=3)
    press(nose.front, KEYS.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    after = session.project.nose.openings[0].outline
    # The viewer's left is the vehicle's right: three millimetres up, ten to +y.
    assert (after[1].y_mm, after[1].z_mm) == pytest.approx((before[1].y_mm + 10.0, before[1].z_mm + 3.0))
    assert [p for n, p in enumerate(after) if n != 1] == [p for n, p in enumerate(before) if n != 1]
    session.undo_stack.undo()
    assert session.project.nose.openings[0].outline == before  # the run was one step
    press(nose.front, KEYS.Key_PageUp)
    assert nose.front.outline_hand.chosen == 0
    for digit in (KEYS.Key_2, KEYS.Key_5):
        QTest.keyClick(nose.front, digit)
    press(nose.front, KEYS.Key_Return)
    assert session.project.nose.openings[0].corner_radii_mm[0] == 25.0
    press(nose.front, KEYS.Key_Insert)
    assert len(session.project.nose.openings[0].outline) == len(before) + 1
    press(nose.front, KEYS.Key_Delete)
    assert len(session.project.nose.openings[0].outline) == len(before)


def test_the_chosen_corner_is_said(nose, session):
    said = []
    session.message.connect(said.append)
    session.select(("opening-1",))
    press(nose.front, KEYS.Key_PageDown)
    assert said[-1].startswith("Corner 1 of 4 of ")
    assert "height" in said[-1]


def test_arrows_move_what_is_selected_while_no_corner_is_chosen(nose, session):
    part = session.project.parts[0]
    session.select((part.id,))
    press(nose.front, KEYS.Key_Up)
    assert session.project.parts[0].placement.z_mm == part.placement.z_mm + 1.0


@pytest.mark.parametrize(
    ("view", "arrow", "axis", "sign"),
    [("front", KEYS.Key_Down, "z_mm", -1), ("front", KEYS.Key_Right, "y_mm", -1), ("side", KEYS.Key_Right, "x_mm", 1)],
)
def test_a_distance_is_typed_without_a_drag(nose, session, view, arrow, axis, sign):
    part = session.project.parts[0]
    session.select((part.id,))
    sheet = getattr(nose, view)
    sheet.setFocus()
    nose.menus.actions["Move by…"].trigger()
    assert sheet.in_gesture
    press(sheet, arrow)
    QTest.keyClicks(sheet, "12.5")
    press(sheet, KEYS.Key_Return)
    assert not sheet.in_gesture
    assert getattr(session.project.parts[0].placement, axis) == getattr(part.placement, axis) + sign * 12.5
    assert session.undo_stack.count() == 1


def test_a_typed_move_is_left_by_escape_and_leaves_nothing(nose, session):
    before = session.project
    session.select((session.project.parts[0].id,))
    nose.menus.actions["Move by…"].trigger()
    QTest.keyClicks(nose.front, "40")
    press(nose.front, KEYS.Key_Escape, times=2)
    assert not nose.front.in_gesture
    assert session.shown is before


def test_without_a_selection_a_typed_move_says_what_to_do(nose, session):
    said = []
    session.message.connect(said.append)
    nose.menus.actions["Move by…"].trigger()
    assert "Nothing is selected" in said[-1]


def test_f6_leads_through_the_regions_and_back(nose):
    def here():
        focus = QApplication.focusWidget()
        regions = {"front": nose.front, "side": nose.side, "verdict": nose.verdict, "status": nose.status}
        regions |= {"shelf": nose.shelf, "pack": nose.pack, "card": nose.card, "row": nose.row}
        return next((name for name, whole in regions.items() if whole is focus or whole.isAncestorOf(focus)), None)

    walked = []
    for _ in range(8):
        nose.regions.go(1)
        walked.append(here())
    assert walked[:4] == ["side", "verdict", "status", "row"]
    assert set(walked) == {"front", "side", "verdict", "status", "shelf", "pack", "card", "row"}
    assert walked[-1] == "front"
    nose.regions.go(-1)
    assert here() == walked[-2] == "card"


def test_the_frame_on_a_sheet_shows_that_the_keyboard_came_there_by_a_key(nose):
    nose.status.bench.setFocus()
    nose.regions.go(-1)
    nose.regions.go(-1)
    assert nose.side.hasFocus()
    assert nose.side.keyboard_is_here


def test_tab_comes_to_every_region_and_back_to_where_it_began(nose):
    """What F6 does quickly Tab does too: nothing that takes the keyboard is out of the chain."""
    reached, at = set(), nose.front
    for _ in range(20_000):
        at = at.nextInFocusChain()
        if at is nose.front:
            break
        reached.add(at)
    wanted = {
        widget
        for widget in nose.findChildren(QWidget)
        if widget.isVisible() and widget.isEnabled() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    }
    lost = wanted - reached - {nose.front}
    assert {
        (w.accessibleName() or w.text(), w.parentWidget().objectName(), type(w.parentWidget()).__name__) for w in lost
    } == set()
