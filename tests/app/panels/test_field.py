"""The field takes what is on the tape, keeps what it cannot take, and marks a default as one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.panels.field import QuantityField
from grillestack.assess.defaults import Default, Tag
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH


@pytest.fixture
def field(qtbot):
    made = QuantityField("Core width", Dimension.LENGTH)
    qtbot.addWidget(made)
    made.show_value(650.0, METRIC)
    made.show()
    return made


@pytest.fixture
def taken(field):
    heard = []
    field.committed.connect(heard.append)
    return heard


def test_a_bare_number_takes_the_unit_beside_the_field(field, taken, type_into):
    type_into(field.line, "665")
    field.show_value(650.0, INCH)
    type_into(field.line, "26 3/16")
    assert taken == [665.0, pytest.approx(26.1875 * 25.4)]
    assert field.unit.text() == "in"


@pytest.mark.parametrize(
    ("typed", "millimetres"), [("26 3/16 in", 665.1625), ("66.5 cm", 665), ("2' 2\"", 660.4), ("0.7 m", 700)]
)
def test_any_length_unit_is_taken(field, taken, type_into, typed, millimetres):
    type_into(field.line, typed)
    assert taken == [pytest.approx(millimetres)]  # 1 in = 25.4 mm exactly, international yard and pound agreement 1959


def test_bad_text_stays_with_a_sentence_under_it_and_nothing_is_handed_on(field, taken, type_into):
    type_into(field.line, "about so")
    assert taken == []
    assert field.line.text() == "about so"
    assert field.is_kept
    assert field.complaint.isVisible()
    assert field.complaint.text().endswith(".")
    field.show_value(700.0, METRIC)
    assert field.line.text() == "about so"


def test_a_sentence_goes_when_the_text_is_put_right(field, taken, type_into):
    type_into(field.line, "5 kW")
    assert field.complaint.isVisible()
    type_into(field.line, "700")
    assert taken == [700.0]
    assert not field.complaint.isVisible()
    assert not field.is_kept


def test_escape_puts_the_shown_value_back(field, taken, type_into):
    type_into(field.line, "nonsense", Qt.Key.Key_Escape)
    assert field.line.text() == "650"
    assert not field.is_kept
    assert taken == []


def test_leaving_the_field_takes_what_was_typed(field, taken, type_into, qtbot):
    type_into(field.line, "640", end=None)
    assert taken == []
    field.line.clearFocus()
    assert taken == [640.0]


def test_leaving_an_unchanged_field_never_moves_the_value_by_the_last_digit_shown(field, taken, type_into):
    exact = 1000 / 3
    field.show_value(exact, METRIC)
    shown = field.line.text()
    assert float(shown) != exact
    type_into(field.line, shown)
    assert taken == []
    assert field.value == exact


def test_a_missing_value_shows_its_default_greyed_and_named(qtbot):
    field = QuantityField("Top tank limit", Dimension.TEMPERATURE, optional=True)
    qtbot.addWidget(field)
    field.show_value(None, METRIC, Default(107.0, Tag.MEMORY, "a usual limit"))
    assert field.line.text() == ""
    assert field.line.placeholderText() == "107 default"
    assert "a usual limit" in field.line.toolTip()
    assert "107" in field.line.accessibleDescription()
    field.show_value(None, INCH, Default(107.0, Tag.MEMORY, "a usual limit"))
    assert field.line.placeholderText() == "224.6 default"  # 107 · 9/5 + 32 = 224.6


def test_an_optional_field_emptied_is_not_given_and_a_needed_one_says_so(qtbot, field, taken, type_into):
    optional = QuantityField("Weight", Dimension.MASS, optional=True)
    qtbot.addWidget(optional)
    optional.show_value(12.0, METRIC)
    optional.show()
    heard = []
    optional.committed.connect(heard.append)
    type_into(optional.line, "")
    assert heard == [None]
    type_into(field.line, "")
    assert taken == []
    assert "Nothing is typed" in field.complaint.text()


def test_a_locked_field_says_why_and_takes_no_key(field, taken):
    field.lock("A bought part keeps its size.")
    field.line.setFocus()
    QTest.keyClicks(field.line, "9")
    QTest.keyClick(field.line, Qt.Key.Key_Return)
    assert field.line.text() == "650"
    assert taken == []
    assert field.line.toolTip() == "A bought part keeps its size."


def test_name_and_unit_are_there_for_those_who_hear_the_screen(field):
    assert field.line.accessibleName() == "Core width"
    assert field.line.accessibleDescription() == "mm"
