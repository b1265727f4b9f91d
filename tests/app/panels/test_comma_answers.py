"""A comma typed into a field: what it may mean is asked, answered by key or by click, and never decided by itself."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.panels.field import QuantityField
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension


@pytest.fixture(params=[UnitSystem.METRIC, UnitSystem.METRIC_COMMA])
def field(qtbot, request):
    made = QuantityField("Width", Dimension.LENGTH)
    qtbot.addWidget(made)
    made.taken = []
    made.committed.connect(made.taken.append)
    made.show_value(600.0, request.param)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    return made


def type_comma(field, text, end=Qt.Key.Key_Return):
    field.line.setFocus()
    field.line.selectAll()
    QTest.keyClicks(field.line, text)
    QTest.keyClick(field.line, end)


def test_enter_asks_and_the_next_enter_takes_the_first_answer(field, qapp):
    type_comma(field, "26,5")
    assert field.taken == []
    assert field.comma.asks
    assert field.comma.isVisible()
    assert field.line.text() == "26,5"
    first = field.comma.buttons[0]
    assert field.window().focusWidget() is first
    QTest.keyClick(first, Qt.Key.Key_Return)
    assert field.taken == [26.5]
    assert not field.comma.asks


def test_the_second_answer_is_taken_by_a_click(field):
    type_comma(field, "26,5")
    QTest.mouseClick(field.comma.buttons[1], Qt.MouseButton.LeftButton)
    assert field.taken == [265.0]


def test_the_answers_are_written_as_the_reader_writes_them(field):
    type_comma(field, "26,5")
    decimal = "26,5 mm?" if field.units is UnitSystem.METRIC_COMMA else "26.5 mm?"
    assert [button.text() for button in field.comma.buttons] == [decimal, "265 mm?"]
    assert all(button.accessibleName() for button in field.comma.buttons)


def test_escape_takes_the_question_away_and_puts_the_value_back(field):
    type_comma(field, "26,5")
    field.line.setFocus()
    QTest.keyClick(field.line, Qt.Key.Key_Escape)
    assert not field.comma.asks
    assert field.line.text() == "600"
    assert field.taken == []


def test_a_text_that_nobody_changed_is_not_asked_about(field):
    field.show_value(26.5, field.units)
    shown = "26,5" if field.units is UnitSystem.METRIC_COMMA else "26.5"
    assert field.line.text() == shown
    type_comma(field, shown)
    assert field.taken == []
    assert not field.comma.asks


def test_typing_something_else_after_the_question_forgets_it(field):
    type_comma(field, "26,5")
    type_comma(field, "30")
    assert field.taken == [30.0]
    assert not field.comma.asks
