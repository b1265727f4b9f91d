"""What holds things is typed on the cards: mounts of a part made to own sizes, bracket points of the nose."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel, QPushButton

from grillestack.app.panels.field import TypedLine
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.part_card import PartCard
from grillestack.model.edits import replace_part
from grillestack.model.parts import Mount


@pytest.fixture
def card(qtbot, session):
    made = PartCard(session)
    qtbot.addWidget(made)
    made.resize(290, 700)
    made.show()
    return made


def section(card, heading):
    found = next(s for s in card.widget().findChildren(FoldingSection) if s.button.text() == heading)
    found.button.setChecked(True)
    return found


def press(card, heading, words):
    button = next(b for b in section(card, heading).findChildren(QPushButton) if b.text() == words)
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def line(card, heading, name):
    return next(one for one in section(card, heading).findChildren(TypedLine) if one.accessibleName() == name)


NOSE = "Bracket points of the nose"


def test_a_bracket_point_is_added_typed_and_removed(card, session, type_into):
    press(card, NOSE, "Add a bracket point")
    type_into(line(card, NOSE, "Name"), "Rail hole, right")
    type_into(line(card, NOSE, "Rearward"), "60")
    type_into(line(card, NOSE, "To the right"), "12 in")
    type_into(line(card, NOSE, "Height"), "500 mm")
    type_into(line(card, NOSE, "Hole or stud"), "10.5")
    structure = next(b for b in section(card, NOSE).findChildren(QCheckBox))
    QTest.mouseClick(structure, Qt.MouseButton.LeftButton, pos=structure.rect().center() / 8)
    (point,) = session.project.nose.mounts
    assert (point.name, point.x_mm, point.z_mm, point.hole_mm) == ("Rail hole, right", 60, 500, 10.5)
    assert point.y_mm == pytest.approx(304.8)
    assert point.is_structure
    press(card, NOSE, "Remove Rail hole, right")
    assert session.project.nose.mounts == ()


def test_two_bracket_points_have_ids_of_their_own(card, session):
    press(card, NOSE, "Add a bracket point")
    press(card, NOSE, "Add a bracket point")
    first, second = session.project.nose.mounts
    assert first.id != second.id


def test_a_mount_is_added_to_a_part_made_to_own_sizes(card, session, type_into):
    part = replace(session.project.part("radiator-3"), own_sizes=True)
    session.apply("own", replace_part(session.project, part))
    session.select(["radiator-3"])
    press(card, "Mounts", "Add a mount")
    type_into(line(card, "Mounts", "Kind"), "lower pin")
    type_into(line(card, "Mounts", "Right of centre"), "-200")
    type_into(line(card, "Mounts", "Above centre"), "-9 1/2 in")
    type_into(line(card, "Mounts", "Behind the front"), "28")
    type_into(line(card, "Mounts", "Hole or pin"), "16")
    (mount,) = session.project.part("radiator-3").mounts
    assert (mount.kind_text, mount.u_mm, mount.w_mm, mount.hole_mm) == ("lower pin", -200, 28, 16)
    assert mount.v_mm == pytest.approx(-241.3)
    press(card, "Mounts", "Remove mount 1")
    assert session.project.part("radiator-3").mounts == ()


def test_mounts_of_a_bought_part_are_told(card, session):
    part = replace(session.project.part("radiator-3"), mounts=(Mount(u_mm=310, v_mm=-230, hole_mm=9, kind_text="ear"),))
    session.apply("mounted", replace_part(session.project, part))
    session.select(["radiator-3"])
    words = [label.text() for label in section(card, "Mounts").findChildren(QLabel)]
    assert "9 mm; 310 mm right, -230 mm up, 0 mm behind the front" in words
