"""Dimensions under mouse and keys: moved, switched off, put back, and each gesture one step that undo takes back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from grillestack.model.edits import set_title
from grillestack.model.sheet_choices import DimensionShift
from tests.app.sheets.made import a_sheet

WIDTH_TEXT = (110.0, 47.5 + 1.0)


def pixel(view, across_mm, up_mm):
    at = view.viewportTransform().map(QPointF(across_mm, view.sheet.height_mm - up_mm))
    return QPointF(at)


def mouse(view, kind, at, buttons=Qt.MouseButton.LeftButton):
    spot = view.viewport()
    pressed = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseMove else Qt.MouseButton.LeftButton
    held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else buttons
    event = QMouseEvent(kind, at, spot.mapToGlobal(at), pressed, held, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(spot, event)


def drag(view, start, end, *, let_go=True):
    mouse(view, QEvent.Type.MouseButtonPress, start)
    mouse(view, QEvent.Type.MouseMove, (start + end) / 2)
    mouse(view, QEvent.Type.MouseMove, end)
    if let_go:
        mouse(view, QEvent.Type.MouseButtonRelease, end)


def test_a_drag_moves_the_dimension_in_one_step_and_undo_takes_it_back(page, session):
    view, before = page.paper, session.project
    drag(view, pixel(view, *WIDTH_TEXT), pixel(view, WIDTH_TEXT[0] + 12.0, WIDTH_TEXT[1] - 8.0))
    (shift,) = session.project.sheet.shifts
    pixel_mm = 1.5 / view.transform().m11()
    assert shift.key == "width"
    assert (shift.dx_mm, shift.dy_mm) == (pytest.approx(12.0, abs=pixel_mm), pytest.approx(-8.0, abs=pixel_mm))
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert session.project is before
    assert view.dimensions[0].dimension.line_at.y_mm == 45.0


def test_while_dragged_it_is_seen_there_and_escape_leaves_nothing_behind(page, session):
    view, before = page.paper, session.project
    drag(view, pixel(view, *WIDTH_TEXT), pixel(view, WIDTH_TEXT[0], WIDTH_TEXT[1] - 10.0), let_go=False)
    assert view.dimensions[0].dimension.line_at.y_mm == pytest.approx(35.0, abs=1.5 / view.transform().m11())
    QTest.keyClick(view, Qt.Key.Key_Escape)
    mouse(view, QEvent.Type.MouseButtonRelease, pixel(view, *WIDTH_TEXT))
    assert session.project is before
    assert view.dimensions[0].dimension.line_at.y_mm == 45.0
    assert page.isVisible()


def test_a_click_alone_moves_nothing(page, session):
    view = page.paper
    at = pixel(view, *WIDTH_TEXT)
    mouse(view, QEvent.Type.MouseButtonPress, at)
    mouse(view, QEvent.Type.MouseButtonRelease, at)
    assert session.undo_stack.count() == 0
    assert view.held_key == "width"


def test_the_pointer_over_a_dimension_says_what_can_be_done(page):
    view = page.paper
    mouse(view, QEvent.Type.MouseMove, pixel(view, *WIDTH_TEXT), Qt.MouseButton.NoButton)
    assert view.near_key == "width"
    assert page.says.text().startswith("“500”")
    mouse(view, QEvent.Type.MouseMove, pixel(view, 270.0, 190.0), Qt.MouseButton.NoButton)
    assert (view.near_key, page.says.text()) == ("", "")


def test_tab_goes_through_the_dimensions_and_arrows_move_the_held_one_by_a_millimetre(page, session):
    view = page.paper
    view.setFocus()
    for key in ("width", "hole", "note"):
        QTest.keyClick(view, Qt.Key.Key_Tab)
        assert view.held_key == key
    QTest.keyClick(view, Qt.Key.Key_Backtab)
    QTest.keyClick(view, Qt.Key.Key_Right)
    QTest.keyClick(view, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert session.project.sheet.shifts == (DimensionShift(key="hole", dx_mm=1.0, dy_mm=10.0),)


def test_a_key_switches_it_off_and_on_again(page, session):
    view = page.paper
    view.setFocus()
    QTest.keyClick(view, Qt.Key.Key_Tab)
    QTest.keyClick(view, Qt.Key.Key_Delete)
    assert session.project.sheet.shifts == (DimensionShift(key="width", is_off=True),)
    assert [one.is_off for one in view.dimensions] == [True, False, False]
    assert len(page.sheets[0].marks) == len(view.sheet.marks) - 1
    assert "1 switched off" in page.shifted.text()
    QTest.keyClick(view, Qt.Key.Key_Delete)
    assert session.project.sheet.shifts == ()


def test_delete_with_nothing_held_leaves_the_parts_alone(page, session):
    before = session.project
    session.select([before.parts[0].id])
    page.paper.setFocus()
    QTest.keyClick(page.paper, Qt.Key.Key_Delete)
    assert session.project is before


def test_the_button_puts_all_back_in_one_step(page, session):
    page.hand.nudge("width", 3.0, 0.0)
    page.hand.switch("hole")
    QTest.mouseClick(page.put_back_button, Qt.MouseButton.LeftButton)
    assert session.project.sheet.shifts == ()
    assert not page.put_back_button.isVisible()
    session.undo_stack.undo()
    assert {shift.key for shift in session.project.sheet.shifts} == {"width", "hole"}


def test_moves_stay_when_the_sheet_is_made_anew(page, session, worker, desk):
    page.hand.nudge("width", 0.0, -5.0)
    session.apply("rename", set_title(session.project, "Other"))
    desk.drawings.maker.begin()
    assert worker.sheets_asked[-1].project.title == "Other"
    worker.answer(a_sheet())
    assert page.paper.dimensions[0].dimension.line_at.y_mm == 40.0


def test_a_move_alone_asks_for_nothing_new(page, worker, desk):
    asked = len(worker.sheets_asked)
    page.hand.nudge("width", 0.0, -5.0)
    desk.drawings.maker.begin()
    assert len(worker.sheets_asked) == asked


def test_the_menu_offers_what_can_be_done(page):
    menu = QMenu()
    page.paper.fill_menu(menu, page.paper.dimensions[0])
    words = [action.text() for action in menu.actions() if not action.isSeparator()]
    assert words[:2] == ["Switch it off", "Put it back where it was"]
    assert not menu.actions()[1].isEnabled()
    menu.deleteLater()


def test_the_whole_sheet_is_shown_at_first_and_again_after_a_closer_look(page):
    view = page.paper
    whole = view.transform().m11()
    assert view.sheet.width_mm * whole <= view.viewport().width()
    view.setFocus()
    QTest.keyClick(view, Qt.Key.Key_Plus)
    assert view.transform().m11() == pytest.approx(1.25 * whole)
    QTest.keyClick(view, Qt.Key.Key_0)
    assert view.transform().m11() == pytest.approx(whole)
