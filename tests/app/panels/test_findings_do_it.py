"""*do it* stands beside a finding that one edit mends: pressed by mouse or key, the pack changes in one step."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.advice.findings import findings
from grillestack.advice.mend import NO_ROOM
from grillestack.app import palette as palettes
from grillestack.app.panels.findings_list import FindingsList
from grillestack.app.panels.verdict_panel import VerdictPanel
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.assess.result import Finding, Mend, Severity
from grillestack.model import edits
from grillestack.model.project import cores
from grillestack.units.display import UnitSystem
from tests.assess import packs

GAP = Finding(severity=Severity.WARNING, text="Too close.", parts=("a", "b"), mend=Mend.WIDEN_GAP)
EDGES = Finding(severity=Severity.WARNING, text="Air goes past the pack.", mend=Mend.SEAL)
PLAIN = Finding(severity=Severity.NOTE, text="Nothing is to be done.", parts=("a",))


@pytest.fixture
def shown(qtbot):
    made = FindingsList(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 300)
    made.show()
    made.asked = []
    made.mend_requested.connect(made.asked.append)
    return made


def test_it_stands_only_where_one_edit_mends_it(shown):
    shown.show_findings([GAP, EDGES, PLAIN])
    assert [row.do_it.isVisible() for row in shown.rows] == [True, True, False]
    assert shown.rows[0].do_it.accessibleName() == "do it: widen the gap"


def test_a_click_asks_for_the_edit_and_does_not_select(shown):
    shown.show_findings([GAP])
    selected = []
    shown.show_requested.connect(selected.append)
    QTest.mouseClick(shown.rows[0].do_it, Qt.MouseButton.LeftButton)
    assert shown.asked == [GAP]
    assert selected == []


def test_space_asks_too_and_tab_reaches_it_after_show_me(shown):
    shown.show_findings([GAP, EDGES])
    first, second = shown.rows
    assert shown.tab_chain() == [first, first.do_it, second.do_it]
    second.do_it.setFocus()
    QTest.keyClick(second.do_it, Qt.Key.Key_Space)
    assert shown.asked == [EDGES]


@pytest.mark.parametrize("width", [120, 200, 240, 300, 420])
def test_it_lies_inside_its_row_beside_or_below_show_me(shown, width):
    shown.resize(width, 300)
    shown.show_findings([GAP, EDGES])
    for row in shown.rows:
        assert row.rect().contains(row.do_it.geometry())
        link = row._link.translated(20, 5).toAlignedRect()
        assert not link.adjusted(1, 3, -1, -3).intersects(row.do_it.geometry().adjusted(1, 3, -1, -3))
        row.grab()


@pytest.fixture
def panel(qtbot):
    core = ScientificCore()
    project = packs.half_height_pack()
    front, rear = cores(project)
    gap = rear.placement.x_mm - front.placement.x_mm - front.depth_mm
    close = edits.move_parts(project, [front.id], dx_mm=gap - 4.0)
    session = Session(core.assess, UnitSystem.METRIC, close)
    made = VerdictPanel(session, palettes.light(), findings, mend=core.mend)
    qtbot.addWidget(made)
    made.resize(320, 900)
    made.show()
    QApplication.processEvents()
    made.session = session
    made.said = []
    session.message.connect(made.said.append)
    return made


def row_of(panel, kind):
    return next(row for row in panel.findings_list.rows if row.finding.mend is kind)


def test_the_pack_is_mended_in_one_step_and_undo_takes_it_back(panel):
    session = panel.session
    before = session.project
    QTest.mouseClick(row_of(panel, Mend.WIDEN_GAP).do_it, Qt.MouseButton.LeftButton)
    assert session.undo_stack.count() == 1
    assert "6 mm rearward" in session.undo_stack.undoText()
    assert panel.said[-1].endswith("done. Undo takes it back.")
    assert not any(row.finding.mend is Mend.WIDEN_GAP for row in panel.findings_list.rows)
    session.undo_stack.undo()
    assert session.project is before
    assert row_of(panel, Mend.WIDEN_GAP).do_it.isVisible()


def test_where_there_is_no_room_it_says_so_and_leaves_the_pack(panel, monkeypatch):
    before = panel.session.project
    panel._mend = lambda *_: NO_ROOM
    QTest.mouseClick(row_of(panel, Mend.WIDEN_GAP).do_it, Qt.MouseButton.LeftButton)
    assert panel.said == [NO_ROOM]
    assert panel.session.project is before
