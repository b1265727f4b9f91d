"""A small table is typed as lines; a bad line is named and nothing is lost."""

import pytest

from grillestack.app.panels.lines_field import LinesField
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension


@pytest.fixture
def lines(qtbot):
    made = LinesField("Fan curve", [("flow", Dimension.AIR_FLOW), ("pressure", Dimension.AIR_PRESSURE)])
    qtbot.addWidget(made)
    made.show_rows([(0.0, 250.0), (1.1, 0.0)], UnitSystem.METRIC)
    made.show()
    return made


def retype(lines, text, qtbot):
    lines.text.selectAll()
    qtbot.keyClicks(lines.text, text)
    lines.take()


def test_rows_are_shown_as_lines_and_typed_in_any_unit(lines, qtbot):
    heard = []
    lines.committed.connect(heard.append)
    assert lines.text.toPlainText() == "0 ; 250\n1.1 ; 0"
    retype(lines, "2000 cfm; 60", qtbot)
    ((row,),) = heard
    assert row == pytest.approx((2000 * 0.3048**3 / 60, 60))  # 1 ft = 0.3048 m exactly


@pytest.mark.parametrize(("text", "words"), [("1.0", "Line 1 holds 1 figures"), ("1; much", "Line 1: ")])
def test_a_bad_line_is_named_and_kept(lines, qtbot, text, words):
    heard = []
    lines.committed.connect(heard.append)
    retype(lines, text, qtbot)
    assert heard == []
    assert lines.complaint.text().startswith(words)
    lines.show_rows([(0.0, 100.0)], UnitSystem.METRIC)
    assert lines.text.toPlainText() == text


def test_leaving_without_typing_hands_nothing_on(lines):
    heard = []
    lines.committed.connect(heard.append)
    lines.text.setFocus()
    lines.text.clearFocus()
    assert heard == []


def test_leaving_after_typing_does(lines, qtbot):
    heard = []
    lines.committed.connect(heard.append)
    lines.text.setFocus()
    lines.text.selectAll()
    qtbot.keyClicks(lines.text, "0; 200")
    lines.text.clearFocus()
    assert heard == [((0.0, 200.0),)]
