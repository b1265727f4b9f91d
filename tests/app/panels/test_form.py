"""A row turns what is typed into one edit, and keeps what the model refuses with the model's own sentence."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.panels.field import TypedLine
from grillestack.app.panels.form import Form, in_a_sentence
from grillestack.app.panels.slots import environment_slot, part_slot, placement_slot, project_slot
from grillestack.model.edits import move_parts, set_title
from grillestack.model.engine import Seal
from grillestack.units.quantity import Dimension


@pytest.fixture
def form(qtbot, session):
    made = Form(session)
    qtbot.addWidget(made)
    session.project_changed.connect(lambda _old, _new: made.refresh())
    made.show()
    return made


def test_a_quantity_row_makes_one_named_step(form, session, type_into):
    field = form.quantity("Up", Dimension.LENGTH, placement_slot("radiator-3", "z_mm"))
    form.refresh()
    type_into(field.line, "28 in")
    assert session.project.part("radiator-3").placement.z_mm == pytest.approx(28 * 25.4)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == "change up"
    session.undo_stack.undo()
    assert field.line.text() == "785"  # half way up an opening from 560 to 1010


def test_what_the_model_refuses_stays_in_the_field_with_its_sentence(form, session, type_into):
    before = session.project
    field = form.quantity("Weight", Dimension.MASS, part_slot("radiator-3", "weight_kg"), optional=True)
    form.refresh()
    type_into(field.line, "-4 kg")
    assert session.project is before
    assert field.line.text() == "-4 kg"
    assert "weight" in field.complaint.text()
    assert "above 0" in field.complaint.text()


def test_a_row_follows_the_trial_of_a_drag_but_not_over_a_text_being_typed(form, session, type_into):
    field = form.quantity("Right", Dimension.LENGTH, placement_slot("radiator-3", "y_mm"))
    form.refresh()
    session.try_project(move_parts(session.project, ["radiator-3"], dy_mm=12))
    assert field.line.text() == "12"
    type_into(field.line, "3", end=None)
    session.try_project(move_parts(session.project, ["radiator-3"], dy_mm=40))
    assert field.line.text() == "3"


def test_words_are_taken_on_enter_and_refused_when_a_name_is_empty(form, session, type_into):
    line = form.text("Title", project_slot("title"))
    form.refresh()
    type_into(line, "Second try")
    assert session.project.title == "Second try"
    type_into(line, "")
    assert session.project.title == "Second try"
    assert line.text() == ""
    QTest.keyClick(line, Qt.Key.Key_Escape)
    assert line.text() == "Second try"


def test_a_choice_sets_the_value_of_its_words_and_shows_an_unknown_one_as_none(form, session):
    options = [("default", None), ("closed", Seal.SEALED), ("open", Seal.OPEN)]
    box = form.choice("Edges", options, environment_slot("seal"))
    form.refresh()
    assert box.currentText() == "default"
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert session.project.environment.seal is Seal.SEALED
    session.undo_stack.undo()
    assert box.currentText() == "default"


def test_a_switch_is_one_step(form, session):
    box = form.switch("Dirty cores", environment_slot("dirty_core"))
    form.refresh()
    QTest.keyClick(box, Qt.Key.Key_Space)
    assert session.project.environment.dirty_core
    assert session.undo_stack.count() == 1


def test_the_wheel_over_a_choice_without_focus_changes_nothing(form, session):
    box = form.choice("Edges", [("default", None), ("open", Seal.OPEN)], environment_slot("seal"))
    form.refresh()
    form.setFocus()
    assert not box.hasFocus()
    event = QWheelEvent(
        QPointF(5, 5),
        QPointF(5, 5),
        QPoint(0, 0),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(box, event)
    assert session.project.environment.seal is None


def test_undo_keys_reach_the_document_until_something_is_typed(window, session):
    session.apply("rename", set_title(session.project, "Other"))
    line = next(line for line in window.card.findChildren(TypedLine) if line.accessibleName() == "Title")
    line.setFocus()
    QTest.keyClicks(line, "!")
    QTest.keyClick(line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert line.text() == "Other"
    assert session.project.title == "Other"
    QTest.keyClick(line, Qt.Key.Key_Escape)
    QTest.keyClick(line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert session.project.title == "Invented truck"


@pytest.mark.parametrize(
    ("label", "words"), [("Core width", "core width"), ("A/C on", "A/C on"), ("CAC", "CAC"), ("Up", "up")]
)
def test_labels_keep_their_abbreviations_inside_a_sentence(label, words):
    assert in_a_sentence(label) == words
