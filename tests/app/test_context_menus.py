"""Menus open where a person looks for them, by the right button and by the menu key, with the menu bar's own actions."""

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.model.edits import remove_parts

# What the platform without a screen says of every menu that opens.
pytestmark = pytest.mark.qt_log_ignore(r"does not support raise\(\)", "does not support grabbing the keyboard")

BY_MOUSE, BY_KEY = QContextMenuEvent.Reason.Mouse, QContextMenuEvent.Reason.Keyboard


def ask(widget, at: QPoint, reason=BY_MOUSE):
    QApplication.sendEvent(widget, QContextMenuEvent(reason, at, widget.mapToGlobal(at)))


def texts(window):
    return [action.text().replace("&", "") for action in window.context.opened.actions() if action.text()]


@pytest.fixture(autouse=True)
def closed(window):
    yield
    if window.context.opened is not None:
        window.context.opened.close()


def over(window, part_id):
    at = window.session.project.part(part_id).placement
    return window.front.px_of(at.y_mm, at.z_mm).toPoint()


def test_on_a_part_it_is_selected_and_its_acts_are_offered(window):
    ask(window.front.viewport(), over(window, "condenser-5"))
    assert window.session.selection == ("condenser-5",)
    assert {"Cut", "Copy", "Duplicate", "Remove", "Turn a quarter", "Lock or unlock", "Hide or show"} <= set(
        texts(window)
    )
    assert "Line up" not in texts(window)


def test_an_entry_does_what_the_menu_bar_does(window):
    ask(window.front.viewport(), over(window, "condenser-5"))
    action = next(a for a in window.context.opened.actions() if a.text() == "&Turn a quarter")
    assert action is window.menus.actions["Turn a quarter"]
    action.trigger()
    assert window.session.project.part("condenser-5").placement.quarter_turns == 1


def test_a_selection_is_kept_and_can_be_lined_up(window):
    window.session.select(["condenser-5", "radiator-3"])
    ask(window.front.viewport(), over(window, "condenser-5"))
    assert window.session.selection == ("condenser-5", "radiator-3")
    inner = next(a for a in window.context.opened.actions() if a.text() == "Line up").menu()
    assert [a.text() for a in inner.actions()] == [a.text() for a in window.menus.inner["Line up"].actions()]


def test_on_an_outline_it_can_be_mirrored_and_on_bare_paper_pasted_on(window):
    front, project = window.front, window.session.project
    window.session.apply("bare", remove_parts(project, [part.id for part in project.parts]))
    ask(front.viewport(), front.px_of(380, 820).toPoint())
    assert window.session.selection == ("opening-1",)
    assert "Mirror about the centre" in texts(window)
    ask(front.viewport(), QPoint(6, 120))
    assert window.session.selection == ()
    assert {"Paste", "Select all parts", "Draw opening", "Zoom to fit", "View from above"} <= set(texts(window))


def test_the_menu_key_asks_for_the_selection(window):
    window.session.select(["fan-7"])
    window.front.setFocus()
    ask(window.front, QPoint(0, 0), BY_KEY)
    assert window.session.selection == ("fan-7",)
    assert "Flip front to back" in texts(window)
    # It opens at the part, not at the pointer.
    assert window.context.opened.pos() == window.front.viewport().mapToGlobal(over(window, "fan-7"))


def test_side_view_and_view_from_above_have_them_too(window):
    at = window.session.project.part("radiator-3").placement
    ask(window.side.viewport(), window.side.px_of(at.x_mm + 20, at.z_mm + 200).toPoint())
    assert window.session.selection == ("radiator-3",)
    window.drawer.show_plan(is_open=True)
    QApplication.processEvents()
    window.session.select([])
    ask(window.plan.viewport(), window.plan.px_of(0, at.x_mm + 20).toPoint())
    assert window.session.selection == ("radiator-3",)
    assert "Remove" in texts(window)


def test_a_row_of_the_pack_has_one_by_button_and_by_key(window):
    pack = window.pack
    ask(pack.viewport(), pack.visualItemRect(pack.item(1)).center())
    assert window.session.selection == ("charge-air-cooler-4",)
    assert "Hide or show" in texts(window)
    window.session.select([])
    pack.setCurrentRow(0)
    ask(pack, QPoint(0, 0), BY_KEY)
    assert window.session.selection == ("condenser-5",)


def test_a_part_of_the_shelf_is_put_into_the_pack(window):
    tree = window.shelf.tree
    item = tree.topLevelItem(0).child(0)
    count = len(window.session.project.parts)
    ask(tree.viewport(), tree.visualItemRect(item).center())
    assert texts(window) == ["Put it into the pack"]
    window.context.opened.actions()[0].trigger()
    assert len(window.session.project.parts) == count + 1
    heading = tree.visualItemRect(tree.topLevelItem(0)).center()
    window.context.opened.close()
    ask(tree.viewport(), heading)
    assert not window.context.opened.isVisible()
    tree.setCurrentItem(item)
    ask(tree, QPoint(0, 0), BY_KEY)
    assert window.context.opened.isVisible()


def test_there_is_none_in_the_middle_of_a_drawing(window):
    window.menus.actions["Draw opening"].trigger()
    ask(window.front.viewport(), over(window, "condenser-5"))
    assert window.context.opened is None


def test_no_key_stands_for_two_acts(window):
    keys = [a.shortcut().toString() for a in window.menus.actions.values() if not a.shortcut().isEmpty()]
    assert len(keys) == len(set(keys))


def test_several_turn_each_about_its_own_centre(window):
    session = window.session
    session.select(["condenser-5", "radiator-3"])
    before = [session.project.part(name).placement for name in session.selection]
    QTest.keyClick(window.front, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    after = [session.project.part(name).placement for name in session.selection]
    for old, new in zip(before, after, strict=True):
        assert (new.y_mm, new.z_mm, new.quarter_turns) == (old.y_mm, old.z_mm, 1)
    assert session.undo_stack.count() == 1
    back = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(window.front, Qt.Key.Key_R, back)
    assert [session.project.part(name).placement for name in session.selection] == before
    QTest.keyClick(window.front, Qt.Key.Key_F, back)
    assert all(session.project.part(name).placement.flipped for name in session.selection)


def test_events_of_menus_leave_nothing_behind(window):
    for _ in range(3):
        ask(window.front.viewport(), over(window, "condenser-5"))
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert window.context.opened.isVisible()
