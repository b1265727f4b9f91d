"""Duty case rows: one line each, all figures on demand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from grillestack.app import palette as palettes
from grillestack.app.panels.duty_rows import DutyRows
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example


@pytest.fixture
def rows(qtbot):
    rows = DutyRows(palettes.light())
    qtbot.addWidget(rows)
    rows.resize(300, 200)
    rows.show_assessment(example.passing(), UnitSystem.METRIC)
    rows.grab()
    return rows


def test_one_row_per_case_with_name_verdict_and_top_tank(rows):
    assert [row.accessibleName() for row in rows.rows] == [
        "Grade pull: pass, top tank 102 of 107 °C",
        "Crawl: pass, top tank 100 of 107 °C",
        "Motorway: pass, top tank 94 of 107 °C",
        "Idle with A/C: pass, top tank 98 of 107 °C",
    ]


def test_the_deciding_case_says_so(rows):
    assert [row.accessibleDescription().startswith("Deciding case") for row in rows.rows] == [True, False, False, False]


def test_a_row_opens_by_key_and_by_mouse_and_shows_all_figures(rows, qtbot):
    rows.rows[1].setFocus()
    qtbot.keyClick(rows.rows[1], Qt.Key.Key_Space)
    assert len(rows.open_figures) == 1
    words = rows.open_figures[0].accessibleDescription()
    for figure in (
        "Heat to shed 95.0 kW",
        "Face velocity 3.8 m/s",
        "Charge air out 61 of 75 °C",
        "Air past the radiator 6 %",
    ):
        assert figure in words
    qtbot.mouseClick(rows.rows[1], Qt.MouseButton.LeftButton)
    assert rows.open_figures == ()


def test_an_opened_case_stays_open_and_follows_the_figures(rows):
    rows.rows[0].click()
    rows.show_assessment(example.with_case(example.passing(), air_kg_s=0.777), UnitSystem.METRIC)
    assert "Air through radiator 0.777 kg/s" in rows.open_figures[0].accessibleDescription()


def test_reasons_stand_under_the_figures(rows):
    rows.rows[0].click()
    rows.grab()
    before = rows.open_figures[0].heightForWidth(300)
    rows.show_assessment(example.unknown(), UnitSystem.METRIC)
    rows.grab()
    assert "neither heat to the coolant" in rows.open_figures[0].accessibleDescription()
    assert rows.open_figures[0].heightForWidth(300) > before


def test_fewer_cases_leave_fewer_rows_and_more_bring_them_back(rows):
    good = example.passing()
    first = rows.rows[0]
    rows.show_assessment(replace(good, cases=good.cases[:1]), UnitSystem.METRIC)
    assert rows.rows == (first,)
    rows.show_assessment(good, UnitSystem.METRIC)
    assert len(rows.rows) == 4
    assert rows.rows[0] is first
    rows.show_assessment(None, UnitSystem.METRIC)
    assert rows.rows == ()
    assert rows.open_figures == ()
