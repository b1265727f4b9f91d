"""A finding that misses a figure of the engine sheet leads to its line, by mouse or key."""

from __future__ import annotations

import pytest
from msgspec.structs import fields
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app import palette as palettes
from grillestack.app.panels.findings_list import FindingsList
from grillestack.app.panels.project_rows import sheet_label
from grillestack.assess.result import Finding, Severity
from grillestack.model.engine import EngineSheet

MISSING = Finding(severity=Severity.SERIOUS, text="The heat is not known.", sheet_field="heat_to_coolant_w")
BOTH = Finding(severity=Severity.NOTE, text="Estimated.", parts=("cac",), sheet_field="charge_flow_kg_s")


@pytest.fixture
def shown(qtbot):
    made = FindingsList(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 300)
    made.show()
    made.show_findings([MISSING, BOTH])
    made.asked = []
    made.type_requested.connect(made.asked.append)
    return made


def test_it_says_type_it_in_the_place_of_show_me(shown):
    assert [row.link_words for row in shown.rows] == ["type it", "type it"]
    assert "engine sheet" in shown.rows[0].accessibleDescription()


def test_a_click_or_space_asks_for_the_line(shown):
    first, second = shown.rows
    QTest.mouseClick(first, Qt.MouseButton.LeftButton)
    second.setFocus()
    QTest.keyClick(second, Qt.Key.Key_Space)
    assert shown.asked == ["heat_to_coolant_w", "charge_flow_kg_s"]


def test_the_line_has_the_cursor_unfolded_and_in_sight(window, session):
    session.select(["radiator-3"])
    window.activateWindow()
    window.verdict.findings_list.show_findings([BOTH])
    QTest.mouseClick(window.verdict.findings_list.rows[0], Qt.MouseButton.LeftButton)
    assert session.selection == ()
    line = QApplication.focusWidget()
    assert line.accessibleName() == "Charge air flow"
    assert line.isVisible()
    at = line.mapTo(window.card.viewport(), QPoint(0, 0))
    assert window.card.viewport().rect().contains(at)
    QTest.keyClicks(line, "0.2")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert session.project.engine.charge_flow_kg_s == 0.2


def test_a_line_that_is_not_there_changes_nothing(window):
    before = QApplication.focusWidget()
    window.card.go_to("No such line")
    assert QApplication.focusWidget() is before
    assert sheet_label("no_such_field") == ""


def test_every_quantity_of_the_sheet_has_a_line_to_go_to():
    without = {"name", "notes_text", "connections"}
    assert all(sheet_label(field.name) for field in fields(EngineSheet) if field.name not in without)
