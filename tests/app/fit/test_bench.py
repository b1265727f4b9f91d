"""Asking what fits in the window: rows shown as trials with their room, one put in as one step, the room given back."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.fit.room_item import Corner
from grillestack.app.session import Session
from grillestack.app.window import Equipment, MainWindow
from grillestack.model.edits import move_parts, replace_part
from tests.app.fit.made import Searcher, a_list, assessed, row

ROWS = (row("a", 1.0), row("b", 2.0))


@pytest.fixture
def worker(qapp):
    return Searcher()


@pytest.fixture
def window(qtbot, session, answers, shelf_of_parts, worker):
    """Give the real window, whose search is answered by the test."""
    made = MainWindow(
        session, Equipment(advise=lambda *_: (), dialogs=answers, parts=shelf_of_parts, search=lambda: worker)
    )
    made.resize(1280, 800)
    made.show()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def searching(window, worker):
    """Give the window with the panel open and one of two rows assessed."""
    window.menus.actions["What fits here?"].trigger()
    worker.tell(a_list(*ROWS))
    worker.tell(assessed(ROWS[0]))
    return window


def look_at(window, place):
    window.fit.panel.table.setCurrentItem(window.fit.panel.table.topLevelItem(place))
    window.fit._rest.timeout.emit()


def cooler_of(session: Session):
    return next(part.id for part in session.project.parts if part.name == "Invented charge-air cooler")


def test_the_selected_part_says_what_is_looked_for(window, session, worker):
    session.select([next(part.id for part in session.project.parts if part.name == "Invented fan")])
    window.menus.actions["What fits here?"].trigger()
    assert window.fit.panel.isVisible()
    assert not window.verdict.isVisible()
    assert window.fit.panel.places.currentText() == "in place of “Invented fan”"


def test_the_row_looked_at_is_shown_on_the_nose_with_its_room_and_taken_away_again(searching, session):
    before = session.project
    look_at(searching, 0)
    part = session.shown.part(cooler_of(session))
    assert (session.in_trial, part.core_width_mm, part.placement.z_mm) == (True, 500.0, 620.0)
    assert searching.fit.room.isVisible()
    assert searching.fit.room.dot.x() == 10 - 300
    searching.fit.panel.corners.setCurrentIndex(tuple(Corner).index(Corner.UPPER_RIGHT))
    assert searching.fit.room.dot.x() == 10 + 300
    searching.fit.panel.table.look_away()
    assert session.shown is before
    assert not searching.fit.room.isVisible()


def test_a_row_that_is_not_assessed_is_wished_for_when_it_is_looked_at(searching, worker, session):
    worker.tell(assessed(ROWS[1]))
    asked = len(worker.fits_asked)
    look_at(searching, 1)
    assert len(worker.fits_asked) == asked
    assert session.in_trial


def test_a_click_puts_the_part_in_as_one_step_and_undo_takes_it_out(searching, session, worker):
    before = session.project
    look_at(searching, 0)
    table = searching.fit.panel.table
    QTest.mouseClick(
        table.viewport(), Qt.MouseButton.LeftButton, pos=table.visualItemRect(table.topLevelItem(0)).center()
    )
    placed = session.project.part(session.selection[0])
    assert (placed.name, placed.placement.y_mm) == ("Invented cooler a", 10.0)
    assert session.undo_stack.count() == 1
    assert not session.in_trial
    session.undo_stack.undo()
    assert session.project == before


def test_after_it_is_put_in_the_search_begins_anew_for_the_same_place(searching, worker, session):
    searching.fit.put_in(assessed(ROWS[0]))
    ask = worker.fits_asked[-1]
    assert ask.slot.taken_out == session.selection[0]
    assert ask.project.parts == session.project.parts


def test_a_locked_part_stays(searching, session):
    part_id = cooler_of(session)
    session.apply("lock", replace_part(session.project, replace(session.project.part(part_id), locked=True)))
    locked = session.project
    searching.fit.put_in(assessed(ROWS[0]))
    assert session.project is locked
    assert any("is locked" in sentence for sentence in searching.strip.sentences())


def test_a_change_from_elsewhere_is_searched_anew_a_trial_is_not(searching, session, worker):
    asked = len(worker.fits_asked)
    look_at(searching, 0)
    assert len(worker.fits_asked) == asked
    searching.fit.panel.table.look_away()
    session.apply("move", move_parts(session.project, [cooler_of(session)], dy_mm=5.0))
    assert len(worker.fits_asked) == asked + 1


@pytest.mark.parametrize("way", ["button", "escape"])
def test_closing_gives_the_verdict_its_place_back_and_ends_the_trial(searching, session, way):
    look_at(searching, 0)
    panel = searching.fit.panel
    if way == "button":
        QTest.mouseClick(panel.close_button, Qt.MouseButton.LeftButton)
    else:
        QTest.keyClick(panel.table, Qt.Key.Key_Escape)
    assert searching.fit.panel is None
    assert searching.verdict.isVisible()
    assert not session.in_trial
    assert not searching.fit.room.isVisible()


def test_measuring_a_part_takes_the_panels_place(searching):
    searching.tape.begin()
    assert searching.fit.panel is None
    assert searching.tape.panel.isVisible()
    searching.menus.actions["What fits here?"].trigger()
    assert searching.tape.panel is None
    assert searching.fit.panel.isVisible()


def test_the_second_process_ends_with_the_window(searching, worker):
    searching.close()
    assert worker.is_closed
