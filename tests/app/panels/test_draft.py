"""A form for something new takes all its lines at once or none, and says at the line what is missing."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension

WANTED = (
    Wanted(key="name", label="Name", initial="Grille"),
    Wanted(key="width_mm", label="Width", dimension=Dimension.LENGTH),
    Wanted(key="height_mm", label="Height", dimension=Dimension.LENGTH, initial=300.0),
    Wanted(key="loss_pa", label="Loss", dimension=Dimension.AIR_PRESSURE, optional=True),
)


@pytest.fixture
def taken():
    return []


@pytest.fixture
def draft(qtbot, taken):
    made = DraftForm("New thing", WANTED, UnitSystem.METRIC, taken.append)
    qtbot.addWidget(made)
    made.show()
    return made


def test_nothing_is_taken_while_a_needed_line_is_empty(draft, taken):
    draft.accept()
    assert taken == []
    assert "Nothing is typed" in draft.fields["width_mm"].complaint.text()


def test_all_lines_are_taken_in_internal_units_and_an_empty_optional_one_as_none(draft, taken, type_into, qtbot):
    type_into(draft.fields["width_mm"].line, "30 in", end=None)
    with qtbot.waitSignal(draft.taken):
        QTest.mouseClick(draft.take_button, Qt.MouseButton.LeftButton)
    assert taken == [{"name": "Grille", "width_mm": 762.0, "height_mm": 300.0, "loss_pa": None}]


def test_enter_goes_on_from_line_to_line_and_takes_the_form_at_the_last(draft, taken, type_into):
    type_into(draft.fields["width_mm"].line, "700")
    assert draft.fields["height_mm"].line.hasFocus()
    QTest.keyClick(draft.fields["height_mm"].line, Qt.Key.Key_Return)
    assert draft.fields["loss_pa"].line.hasFocus()
    assert taken == []
    QTest.keyClick(draft.fields["loss_pa"].line, Qt.Key.Key_Return)
    assert [t["width_mm"] for t in taken] == [700.0]


def test_one_bad_line_keeps_the_form_and_every_text_in_it(draft, taken, type_into):
    type_into(draft.fields["width_mm"].line, "wide", end=None)
    type_into(draft.fields["height_mm"].line, "410", end=None)
    draft.accept()
    assert taken == []
    assert draft.fields["width_mm"].line.text() == "wide"
    assert draft.fields["height_mm"].line.text() == "410"


def test_what_the_model_refuses_is_said_under_the_lines(qtbot, type_into):
    def refuse(_values):
        raise ModelError("width_mm", "The width must be above 0 mm: give it one.")

    draft = DraftForm("New thing", WANTED, UnitSystem.METRIC, refuse)
    qtbot.addWidget(draft)
    draft.show()
    ended = []
    draft.taken.connect(lambda: ended.append(True))
    type_into(draft.fields["width_mm"].line, "0", end=None)
    draft.accept()
    assert draft.complaint.text() == "The width must be above 0 mm: give it one."
    assert ended == []


def test_other_units_keep_what_is_being_typed(draft, type_into):
    type_into(draft.fields["width_mm"].line, "7", end=None)
    draft.show_units(UnitSystem.INCH)
    assert draft.fields["width_mm"].line.text() == "7"
    assert draft.fields["height_mm"].line.text() == "11 13/16"  # 300 / 25.4 = 11.81 in


def test_escape_first_puts_a_text_back_and_then_the_form_aside(draft, taken, type_into):
    ended = []
    draft.cancelled.connect(lambda: ended.append(True))
    line = draft.fields["height_mm"].line
    type_into(line, "99", end=Qt.Key.Key_Escape)
    assert line.text() == "300"
    assert ended == []
    QTest.keyClick(line, Qt.Key.Key_Escape)
    assert ended == [True]
    assert taken == []
