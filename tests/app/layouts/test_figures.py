"""The table of figures: what the comparison says, word for word, and faint where nothing differs."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from grillestack.app import palette as palettes
from grillestack.app.layouts.figures import FiguresTable
from grillestack.units.display import UnitSystem
from tests.app.layouts.side_by_side import failing_beside_passing

PALETTE = palettes.light()


@pytest.fixture
def table(qtbot):
    made = FiguresTable()
    qtbot.addWidget(made)
    made.resize(640, 500)
    made.show_comparison(failing_beside_passing(), UnitSystem.METRIC, PALETTE)
    return made


def row(table, label):
    (found,) = [texts for texts in table.texts() if texts[0] == label]
    return found


def ink(table, label, column):
    (item,) = table.findItems(label, Qt.MatchFlag.MatchExactly, 0)
    return item.foreground(column).color()


def test_each_figure_has_both_sides_and_the_difference(table):
    # By hand: 43.2 − 33.1 = 10.1 K.
    assert row(table, "Hottest day") == ["Hottest day", "33 °C", "43 °C", "+10.1 K"]
    assert row(table, "Verdict") == ["Verdict", "fail", "pass", ""]
    assert row(table, "Blocked")[3] == "same"


def test_the_head_names_both_layouts(table):
    head = [table.headerItem().text(column) for column in range(4)]
    assert head == ["", "As bought", "Low cooler, in hand", "difference"]


def test_what_is_the_same_stands_back_and_what_is_over_its_limit_stands_out(table):
    assert ink(table, "Blocked", 1) == PALETTE.faint_ink
    assert ink(table, "Top tank, Grade pull", 1) == PALETTE.fail_ink
    assert ink(table, "Top tank, Grade pull", 2) not in (PALETTE.fail_ink, PALETTE.faint_ink)
    assert row(table, "Top tank, Grade pull")[1] == "112 °C, over 107 °C"


def test_shown_again_it_holds_each_figure_once_and_in_the_units_asked_for(table):
    before = [texts[0] for texts in table.texts()]
    table.show_comparison(failing_beside_passing(), UnitSystem.INCH, PALETTE)
    assert [texts[0] for texts in table.texts()] == before
    assert row(table, "Hottest day")[3] == "+18.2 °F"


def test_no_label_and_no_figure_is_cut_off_at_the_width_of_a_window(table):
    table.show()
    for column in range(3):
        assert table.sizeHintForColumn(column) <= table.columnWidth(column)
    assert table.horizontalScrollBar().maximum() == 0
