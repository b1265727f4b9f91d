"""The engine's connections are added, typed and removed on the project's card."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QPushButton

from grillestack.app.panels.connection_rows import angle_words, typed_angles
from grillestack.app.panels.field import Complaint, TypedLine
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.part_card import PartCard
from grillestack.model.engine import ConnectionPurpose, EngineSide
from grillestack.model.values import ModelError


@pytest.fixture
def card(qtbot, session):
    made = PartCard(session)
    qtbot.addWidget(made)
    made.resize(290, 700)
    made.show()
    return made


def section(card):
    found = [s for s in card.widget().findChildren(FoldingSection) if s.button.text() == "Engine connections"]
    found[0].button.setChecked(True)
    return found[0]


def press(card, words):
    button = next(b for b in section(card).findChildren(QPushButton) if b.text() == words)
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def line(card, name):
    return next(one for one in section(card).findChildren(TypedLine) if one.accessibleName() == name)


def test_a_connection_is_added_typed_on_the_tape_and_removed(card, session, type_into):
    press(card, "Add a connection")
    type_into(line(card, "Rearward"), "26 3/16 in")
    type_into(line(card, "To the right"), "-12 in")
    type_into(line(card, "Height"), "71 cm")
    type_into(line(card, "Bore"), "2 1/2 in")
    type_into(line(card, "May be turned to"), "0; 90; 180°")
    (one,) = session.project.engine.connections
    # 26 3/16 in × 25.4 = 665.1625 mm; 12 × 25.4 = 304.8; 2.5 × 25.4 = 63.5
    assert (one.x_mm, one.y_mm, one.z_mm, one.bore_mm) == pytest.approx((665.1625, -304.8, 710.0, 63.5))
    assert one.clock_angles_deg == (0.0, 90.0, 180.0)
    press(card, "Remove connection 1")
    assert session.project.engine.connections == ()


def test_each_new_connection_takes_the_next_purpose_and_choices_are_kept(card, session):
    for _ in range(2):
        press(card, "Add a connection")
    first, second = session.project.engine.connections
    assert first.purpose is not second.purpose
    boxes = {b.accessibleName(): b for b in section(card).findChildren(QComboBox)}
    side = boxes["Vehicle side"]
    side.setCurrentIndex(side.findText("left"))
    side.activated.emit(side.currentIndex())
    assert EngineSide.LEFT in {c.side for c in session.project.engine.connections}
    assert {c.purpose for c in session.project.engine.connections} == {
        ConnectionPurpose.CHARGE_OUT,
        ConnectionPurpose.CHARGE_IN,
    }


def test_a_bad_angle_stays_in_the_field_with_a_sentence(card, session, type_into):
    press(card, "Add a connection")
    field = line(card, "May be turned to")
    type_into(field, "0; left")
    assert field.text() == "0; left"
    said = [c.text() for c in section(card).findChildren(Complaint) if c.text()]
    assert len(said) == 1
    assert "semicolons" in said[0]
    assert session.project.engine.connections[0].clock_angles_deg == ()


def test_angles_are_read_back_as_they_are_written():
    assert typed_angles(angle_words((0.0, 22.5, -90.0))) == (0.0, 22.5, -90.0)
    assert typed_angles("") == ()
    with pytest.raises(ModelError):
        typed_angles("90; 3 mm")
