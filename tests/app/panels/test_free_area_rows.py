"""The reckoner of the free area by real key events."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.free_area_rows import FreeArea
from grillestack.app.panels.slots import opening, put_opening


@pytest.fixture
def reckoner(session, qtbot):
    form = Form(session)
    qtbot.addWidget(form)
    slot = Slot(
        lambda project: opening(project, "opening-1").free_area_frac,
        lambda project, value: put_opening(project, replace(opening(project, "opening-1"), free_area_frac=value)),
    )
    made = FreeArea(form, session, slot)
    form.refresh()
    form.show()
    yield made
    form.close()


def test_width_and_pitch_give_the_share_and_the_formula_and_one_step_takes_it(reckoner, session, type_into):
    assert not reckoner.take.isEnabled()
    type_into(reckoner.bar.line, "8")
    type_into(reckoner.pitch.line, "1 in")
    # (25.4 - 8) / 25.4 = 0.685
    assert reckoner.words.text() == "Free area = (pitch − bar) / pitch = 69 %"
    assert session.undo_stack.count() == 0
    QTest.mouseClick(reckoner.take, Qt.MouseButton.LeftButton)
    assert opening(session.project, "opening-1").free_area_frac == pytest.approx(17.4 / 25.4)
    assert session.undo_stack.count() == 1


def test_a_pitch_below_the_bar_is_said_and_cannot_be_taken(reckoner, type_into):
    type_into(reckoner.bar.line, "30")
    type_into(reckoner.pitch.line, "20")
    assert "pitch must be above" in reckoner.words.text()
    assert not reckoner.take.isEnabled()


def test_a_mesh_has_its_own_formula(reckoner, type_into):
    type_into(reckoner.bar.line, "2")
    type_into(reckoner.pitch.line, "10")
    reckoner.screen.setCurrentIndex(1)
    reckoner.screen.activated.emit(1)
    assert reckoner.words.text() == "Free area = ((pitch − wire) / pitch)² = 64 %"
