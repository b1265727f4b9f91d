"""The list of findings: rows follow their findings, texts never cut, "show me" where there is something to show."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from grillestack.app import palette as palettes
from grillestack.app.panels.findings_list import FindingsList
from grillestack.assess.result import Finding, Severity

TANK = Finding(severity=Severity.SERIOUS, text="A tank covers 110 cm².", parts=("radiator-1",), source="tank")
GAP = Finding(severity=Severity.WARNING, text="The gap is 6 mm.", parts=("radiator-1", "condenser-1"), source="gap")
NOTE = Finding(severity=Severity.NOTE, text="Verify by test.", source="note")


@pytest.fixture
def shown(qtbot):
    shown = FindingsList(palettes.light())
    qtbot.addWidget(shown)
    shown.resize(280, 10)
    return shown


def test_rows_stand_in_the_order_given_and_do_not_overlap(shown):
    shown.show_findings([TANK, GAP, NOTE])
    shown.grab()
    assert [row.finding for row in shown.rows] == [TANK, GAP, NOTE]
    bottoms = [row.geometry().bottom() for row in shown.rows]
    tops = [row.geometry().top() for row in shown.rows]
    assert tops == [0, bottoms[0] + 1, bottoms[1] + 1]
    assert shown.height() == bottoms[2] + 1


def test_a_row_follows_its_finding_when_another_comes_before_it(shown):
    shown.show_findings([GAP, NOTE])
    gap, note = shown.rows
    shown.show_findings([TANK, GAP, NOTE])
    assert shown.rows[1:] == (gap, note)


def test_a_finding_whose_figure_changes_keeps_its_row(shown):
    shown.show_findings([TANK, GAP])
    before = shown.rows
    changed = Finding(severity=GAP.severity, text="The gap is 7 mm.", parts=GAP.parts, source=GAP.source)
    shown.show_findings([TANK, changed])
    assert shown.rows == before
    assert shown.rows[1].text() == "The gap is 7 mm."


def test_rows_that_are_not_needed_are_kept_for_later(shown):
    shown.show_findings([TANK, GAP, NOTE])
    all_rows = set(shown.rows)
    shown.show_findings([])
    assert shown.rows == ()
    assert shown.height() == 0
    shown.show_findings([NOTE, GAP, TANK])
    assert set(shown.rows) == all_rows
    assert all(not row.isHidden() for row in shown.rows)


def test_pressing_a_finding_asks_to_show_its_parts(shown, qtbot):
    shown.show_findings([GAP])
    with qtbot.waitSignal(shown.show_requested) as asked:
        qtbot.mouseClick(shown.rows[0], Qt.MouseButton.LeftButton)
    assert asked.args == [("radiator-1", "condenser-1")]


def test_a_finding_without_parts_cannot_be_pressed_into_service(shown, qtbot):
    shown.show_findings([NOTE])
    asked = []
    shown.show_requested.connect(asked.append)
    qtbot.mouseClick(shown.rows[0], Qt.MouseButton.LeftButton)
    assert asked == []
    assert shown.rows[0].focusPolicy() is Qt.FocusPolicy.NoFocus


def test_a_long_text_takes_more_lines_at_a_smaller_width(shown):
    long = Finding(severity=Severity.NOTE, text="Keep it covered and hand it in. " * 6, parts=("radiator-1",))
    shown.show_findings([long])
    wide = shown.height()
    shown.resize(180, shown.height())
    shown.grab()
    assert shown.height() > wide


def test_a_word_longer_than_the_column_is_broken_and_not_cut(shown):
    odd = Finding(severity=Severity.NOTE, text="x" * 200)
    short = Finding(severity=Severity.NOTE, text="x")
    assert _height(shown, odd) > 3 * (_height(shown, short) - 10)


def test_severity_and_source_are_told_in_words(shown):
    shown.show_findings([TANK])
    row = shown.rows[0]
    assert row.accessibleName() == "serious: A tank covers 110 cm²."
    assert "Rests on: tank." in row.accessibleDescription()
    assert row.toolTip() == "serious; rests on: tank"


def _height(shown, finding):
    shown.show_findings([finding])
    shown.grab()
    return shown.height()
