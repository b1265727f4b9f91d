"""The dangers in a pack: always named in a line, in full when asked for, never gone."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from grillestack.advice.findings import findings
from grillestack.app import palette as palettes
from grillestack.app.panels.cautions import Cautions
from tests.advice import example_assessments as example


@pytest.fixture
def cautions():
    pack = example.passing()
    return [finding for finding in findings(pack.project, pack) if finding.danger]


@pytest.fixture
def shown(qtbot):
    made = Cautions(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 400)
    return made


def test_folded_they_are_counted_and_every_danger_is_named(shown, cautions):
    shown.show_cautions(cautions)
    assert shown.fold.text() == f"{len(cautions)} cautions"
    for danger in (
        "scalding coolant",
        "poisonous coolant",
        "fans that start by themselves",
        "refrigerant",
        "crash structure",
    ):
        assert danger in shown.dangers.text()
        assert danger in shown.fold.accessibleName()
    assert not shown.dangers.isHidden()
    assert shown.list.isHidden()


def test_unfolded_by_the_keyboard_each_is_a_whole_sentence(shown, cautions, qtbot):
    shown.show_cautions(cautions)
    qtbot.keyClick(shown.fold, Qt.Key.Key_Space)
    assert not shown.list.isHidden()
    assert [row.text() for row in shown.list.rows] == [caution.text for caution in cautions]
    qtbot.keyClick(shown.fold, Qt.Key.Key_Space)
    assert shown.list.isHidden()


def test_a_caution_shows_its_parts(shown, cautions, qtbot):
    heard = []
    shown.show_requested.connect(heard.append)
    shown.show_cautions(cautions)
    shown.fold.click()
    row = next(row for row in shown.list.rows if "start by themselves" in row.text())
    row.click()
    assert heard == [("fan-1",)]


def test_where_nothing_is_dangerous_nothing_is_said(shown):
    shown.show_cautions([])
    assert shown.isHidden()
