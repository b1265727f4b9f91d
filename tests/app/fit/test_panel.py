"""The panel: what it says of the search, filters, sorting, and that rows under the pointer stay where they are."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.fit.hunt import FitHunt
from grillestack.app.fit.panel import FitPanel
from grillestack.app.fit.table import Column
from grillestack.app.palette import dark, light
from grillestack.app.session import Session
from grillestack.fit.slots import Kind
from grillestack.units.display import UnitSystem
from tests.app.fit.made import NEAR, Searcher, a_list, assessed, row
from tests.app.workers.made import demo


@pytest.fixture
def worker(qapp):
    return Searcher()


@pytest.fixture
def panel(qtbot, worker):
    session = Session(None, UnitSystem.METRIC, demo(1))
    made = FitPanel(session, light(), FitHunt(lambda: worker, session), None)
    made._session_kept = session
    qtbot.addWidget(made)
    made.resize(560, 740)
    made.show()
    return made


def parts_shown(panel):
    return [one.part.id for one in panel.table.shown]


ROWS = (row("a", 1.0), row("b", 2.0), row("c", 3.0))


def test_without_a_choice_it_looks_for_charge_air_coolers_in_place_of_the_present_one(panel, worker):
    assert panel.slot.kind is Kind.CHARGE_AIR_COOLER
    assert panel.places.currentText() == "in place of “Charge-air cooler”"
    assert worker.parts_asked == [None]
    assert panel.headline.text() == "Looking …"
    assert panel.progress_words.text() == "looking at every part"


def test_it_says_what_was_found_and_how_far_the_assessing_is(panel, worker):
    worker.tell(a_list(*ROWS, near=[NEAR]))
    assert panel.headline.text() == "Of 4 charge-air coolers tried, 3 fit."
    assert panel.remarks.text() == "The engine sheet names no connections."
    assert panel.progress_words.text() == "working: 0 of 3 assessed"
    assert panel.stop.isVisible()
    assert "50 mm too wide" in panel.near._made[0].text()
    for one in ROWS:
        worker.tell(assessed(one))
    assert panel.progress_words.text() == "3 of 3 assessed"
    assert not panel.stop.isVisible()


def test_stop_stops(panel, worker):
    worker.tell(a_list(*ROWS))
    QTest.mouseClick(panel.stop, Qt.MouseButton.LeftButton)
    assert panel.progress_words.text() == "stopped: 0 of 3 assessed"


def test_a_search_that_broke_off_is_said(panel, worker):
    worker.break_off()
    assert "broke off" in panel.headline.text()


def test_words_and_limits_filter(panel, worker):
    worker.tell(a_list(*ROWS))
    worker.tell(assessed(ROWS[0], within_limits=False))
    panel.words.setText("cooler A")
    assert parts_shown(panel) == ["a"]
    panel.words.setText("")
    panel.within.setChecked(True)
    assert parts_shown(panel) == ["b", "c"]


def test_a_column_sorts_once_down_once_up_and_then_best_first_again(panel, worker):
    worker.tell(a_list(*ROWS))
    for one, degc in zip(ROWS[:2], (41.0, 45.0), strict=True):
        worker.tell(assessed(one, hottest_degc=degc))
    header = panel.table.header()
    seen = []
    for _ in range(3):
        header.sectionClicked.emit(Column.HOTTEST)
        seen.append(parts_shown(panel))
    # c is not assessed: it comes last whichever way round
    assert seen == [["b", "a", "c"], ["a", "b", "c"], ["a", "b", "c"]]


def test_rows_keep_their_places_while_the_pointer_is_on_them(panel, worker, monkeypatch):
    worker.tell(a_list(*ROWS))
    monkeypatch.setattr(panel.table, "underMouse", lambda: True)
    worker.tell(assessed(ROWS[0], order_factor=(0.0, 9.0)))
    worker.tell(assessed(ROWS[1], order_factor=(0.0, 1.0)))
    assert parts_shown(panel) == ["a", "b", "c"]
    assert panel.table.topLevelItem(1).text(Column.HOTTEST) == "40 °C"
    monkeypatch.undo()
    panel.table.show_rows(panel.table._rows)
    assert parts_shown(panel) == ["b", "a", "c"]


def test_what_is_looked_at_is_told_in_full(panel, worker, qtbot):
    worker.tell(a_list(*ROWS))
    with qtbot.waitSignal(panel.looked_at) as told:
        panel.table.setCurrentItem(panel.table.topLevelItem(1))
    assert told.args[0].part.id == "b"
    assert panel.detail.text().startswith("Invented cooler b, 600 × 200 × 64 mm over all, as listed: 60 mm back")
    assert "not assessed yet" in panel.detail.text()
    worker.tell(assessed(ROWS[0]))
    worker.tell(assessed(ROWS[1]))
    assert "not assessed yet" not in panel.detail.text()


def test_enter_and_a_click_choose_a_row_and_escape_leaves(panel, worker, qtbot):
    worker.tell(a_list(*ROWS))
    panel.table.setCurrentItem(panel.table.topLevelItem(2))
    with qtbot.waitSignal(panel.chosen) as told:
        QTest.keyClick(panel.table, Qt.Key.Key_Return)
    assert told.args[0].part.id == "c"
    place = panel.table.visualItemRect(panel.table.topLevelItem(0)).center()
    with qtbot.waitSignal(panel.chosen) as told:
        QTest.mouseClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert told.args[0].part.id == "a"
    with qtbot.waitSignal(panel.left):
        QTest.keyClick(panel.table, Qt.Key.Key_Escape)


def test_another_kind_and_another_place_are_searched_anew(panel, worker):
    panel.kinds.setCurrentIndex(tuple(Kind).index(Kind.FAN))
    assert worker.fits_asked[-1].slot.taken_out == "fan-5"
    panel.places.setCurrentIndex(1)
    assert worker.fits_asked[-1].slot.taken_out == "fan-6"


def test_other_units_are_asked_for_anew(panel, worker):
    panel._session.set_units(UnitSystem.INCH)
    assert worker.fits_asked[-1].units is UnitSystem.INCH


def test_other_colours_repaint_the_rows(panel, worker):
    worker.tell(a_list(*ROWS))
    worker.tell(assessed(ROWS[0]))
    before = panel.table.topLevelItem(0).foreground(Column.VERDICT).color()
    panel.show_palette(dark())
    assert panel.table.topLevelItem(0).foreground(Column.VERDICT).color() != before
