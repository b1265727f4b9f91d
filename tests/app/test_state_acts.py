"""Locked parts stay wherever a hand tries to move them, and say so; hidden ones are neither drawn nor hit, but count."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.pick import under_front, under_side
from grillestack.app.canvas.sheet_names import front_names, hidden_words
from grillestack.app.panels.part_row import STATE_ROLE, RowMark, mark_rect
from grillestack.model.states import set_hidden, set_locked

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
LEFT = Qt.MouseButton.LeftButton


def drag(view, part, by_px):
    """Drag a part on a view by so many pixels."""
    at = part.placement
    start = view.px_of(at.y_mm, at.z_mm) if view.accessibleName().startswith("Front") else view.px_of(at.x_mm, at.z_mm)
    port = view.viewport()
    for kind, px in (
        (QEvent.Type.MouseButtonPress, start),
        (QEvent.Type.MouseMove, start + by_px / 2),
        (QEvent.Type.MouseMove, start + by_px),
        (QEvent.Type.MouseButtonRelease, start + by_px),
    ):
        cause = Qt.MouseButton.NoButton if kind is QEvent.Type.MouseMove else LEFT
        held = Qt.MouseButton.NoButton if kind is QEvent.Type.MouseButtonRelease else LEFT
        QApplication.sendEvent(
            port, QMouseEvent(kind, px, port.mapToGlobal(px), cause, held, Qt.KeyboardModifier.NoModifier)
        )


@pytest.fixture
def locked(window):
    """Give the window with its radiator locked and selected."""
    window.session.select(["radiator-3"])
    QApplication.processEvents()  # keys are commands only in a window that is active
    QTest.keyClick(window.front, Qt.Key.Key_L, CTRL)
    assert window.session.project.part("radiator-3").locked
    return window


def test_the_key_locks_and_unlocks_in_one_step_each(locked):
    session = locked.session
    assert session.undo_stack.count() == 1
    QTest.keyClick(locked.front, Qt.Key.Key_L, CTRL)
    assert not session.project.part("radiator-3").locked
    session.undo_stack.undo()
    assert session.project.part("radiator-3").locked


def test_a_locked_part_stays_under_drags_arrows_turns_and_says_so(locked):
    session = locked.session
    before = session.project
    drag(locked.front, session.project.part("radiator-3"), QPointF(40, 30))
    drag(locked.side, session.project.part("radiator-3"), QPointF(30, 0))
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Up):
        QTest.keyClick(locked.front, key)
    QTest.keyClick(locked.front, Qt.Key.Key_R, CTRL)
    QTest.keyClick(locked.front, Qt.Key.Key_F, CTRL | SHIFT)
    assert session.project is before
    assert locked.strip.sentences() == ["“Invented radiator” is locked and stays where it is: unlock it to move it."]


def test_the_strip_offers_to_unlock_it(locked):
    session = locked.session
    QTest.keyClick(locked.front, Qt.Key.Key_Up)
    (button,) = [b for b in locked.strip.findChildren(QPushButton) if b.text() == "Unlock"]
    QTest.mouseClick(button, LEFT)
    assert not session.project.part("radiator-3").locked
    QTest.keyClick(locked.front, Qt.Key.Key_Up)
    assert session.undo_stack.undoText() == "nudge"


def test_of_several_the_free_ones_move(locked):
    session = locked.session
    session.select(["radiator-3", "fan-7"])
    at = session.project.part("fan-7").placement.z_mm
    QTest.keyClick(locked.front, Qt.Key.Key_Up)
    assert session.project.part("fan-7").placement.z_mm == at + 1
    drag(locked.front, session.project.part("fan-7"), QPointF(0, -40))
    assert session.project.part("fan-7").placement.z_mm > at + 1
    assert session.undo_stack.undoText() == "Move Invented fan"


def test_reordering_leaves_a_locked_part_in_its_place(locked):
    before = locked.session.project
    locked.pack.shift_selected(-1)
    assert locked.session.project is before
    assert locked.strip.sentences()


def test_a_locked_part_of_own_sizes_has_no_handles(session):
    from msgspec.structs import replace

    from grillestack.app.canvas.gestures.stretch import can_stretch

    own = replace(session.project.part("radiator-3"), own_sizes=True)
    assert can_stretch(own)
    assert not can_stretch(replace(own, locked=True))


# --- hidden -------------------------------------------------------------------------------------------------------------


@pytest.fixture
def hidden(window):
    """Give the window with its radiator hidden by the key."""
    window.session.select(["radiator-3"])
    QApplication.processEvents()  # keys are commands only in a window that is active
    QTest.keyClick(window.front, Qt.Key.Key_H, CTRL)
    return window


def test_a_hidden_part_is_neither_drawn_nor_named_nor_hit(hidden):
    project = hidden.session.project
    at = project.part("radiator-3").placement
    front = Pointer(across_mm=at.y_mm, z_mm=at.z_mm, px_per_mm=1.0)
    side = Pointer(across_mm=at.x_mm + 5, z_mm=at.z_mm, px_per_mm=1.0)
    assert "radiator-3" not in under_front(project, front)
    assert "radiator-3" not in under_side(project, side)
    assert "radiator-3" not in [name.key for name in front_names(project)]
    drawn = [item.part.id for item in hidden.front.sheet_scene.items() if hasattr(item, "part")]
    assert drawn
    assert "radiator-3" not in drawn


def test_a_note_on_the_sheet_counts_what_is_hidden(hidden, session):
    assert hidden_words(session.project) == "1 part hidden, but counted"
    session.apply("more", set_hidden(session.project, ["fan-7"], hidden=True))
    assert hidden_words(session.project) == "2 parts hidden, but counted"
    assert "hidden" in hidden.front.accessibleDescription()
    assert not hidden.front.grab().isNull()


def test_the_pack_list_shows_the_part_and_show_all_brings_it_back(hidden, session):
    assert hidden.pack.order() == ["condenser-5", "charge-air-cooler-4", "radiator-3", "shroud-6", "fan-7"]
    item = hidden.pack.item(2)
    assert item.data(STATE_ROLE) == (False, True)
    assert item.data(Qt.ItemDataRole.AccessibleTextRole).endswith(", hidden")
    QTest.keyClick(hidden.front, Qt.Key.Key_H, CTRL | SHIFT)
    assert not session.project.part("radiator-3").hidden
    assert session.undo_stack.count() == 2
    session.undo_stack.undo()
    assert session.project.part("radiator-3").hidden


def test_a_press_on_a_mark_of_the_row_changes_it(window, session):
    session.select(["fan-7"])
    row = window.pack.visualItemRect(window.pack.item(1))
    for mark, place in ((RowMark.LOCKED, 0), (RowMark.HIDDEN, 1)):
        QTest.mouseClick(window.pack.viewport(), LEFT, pos=mark_rect(row, mark).center())
        assert window.pack.item(1).data(STATE_ROLE)[place]
    assert session.selection == ("fan-7",)
    assert session.undo_stack.count() == 2
    assert not window.pack.grab().isNull()


def test_what_follows_is_the_same_with_the_part_hidden(session):
    from grillestack.assess.assess import assess

    project = session.project
    seen, unseen = assess(project), assess(set_hidden(project, [p.id for p in project.parts], hidden=True))
    assert seen.verdict is unseen.verdict
    assert seen.radiator.exposed_mm2 == unseen.radiator.exposed_mm2
    assert assess(set_locked(project, ["radiator-3"], locked=True)).radiator.exposed_mm2 == seen.radiator.exposed_mm2


def test_without_a_selection_or_anything_hidden_it_says_so(window, session):
    heard = []
    session.message.connect(heard.append)
    for key, held in ((Qt.Key.Key_L, CTRL), (Qt.Key.Key_H, CTRL), (Qt.Key.Key_H, CTRL | SHIFT)):
        QTest.keyClick(window.front, key, held)
    assert [sentence.startswith("No part is") for sentence in heard] == [True, True, True]
    assert session.undo_stack.count() == 0
