"""One duty case in a line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.app import palette as palettes
from grillestack.app.panels.duty_row import DutyRow
from grillestack.assess.result import Verdict
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example


@pytest.fixture
def row(qtbot):
    row = DutyRow(palettes.light())
    qtbot.addWidget(row)
    row.resize(300, row.sizeHint().height())
    return row


def test_a_long_name_takes_a_line_of_its_own(row):
    row.show_case(example.case(2), UnitSystem.METRIC, decides=False)
    one_line = row.heightForWidth(300)
    row.show_case(replace(example.case(2), name="Slow pull up the quarry road"), UnitSystem.METRIC, decides=False)
    row.grab()
    assert row.heightForWidth(300) > one_line
    assert row.heightForWidth(900) == one_line
    assert row.toolTip() == "Slow pull up the quarry road"


def test_height_is_the_same_whether_the_case_decides_or_not(row):
    heights = set()
    for decides in (False, True):
        row.show_case(example.case(1), UnitSystem.METRIC, decides=decides)
        row.grab()
        heights |= {row.heightForWidth(width) for width in (300,)}
    assert len(heights) == 1


def test_the_deciding_case_carries_a_bar(row):
    ink = palettes.light().ink
    middle = row.height() // 2
    row.show_case(example.case(1), UnitSystem.METRIC, decides=False)
    assert row.grab().toImage().pixelColor(0, middle) != ink
    row.show_case(example.case(1), UnitSystem.METRIC, decides=True)
    assert row.grab().toImage().pixelColor(0, middle) == ink


def test_a_screen_reader_hears_the_whole_line(row):
    row.show_case(example.case(1, Verdict.UNKNOWN, top_tank_degc=None), UnitSystem.METRIC, decides=False)
    assert row.accessibleName() == "Grade pull: not known, top tank not known"
