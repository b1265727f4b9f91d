"""The photo's rows on the project's card: each is one step, and they come and go with the photo."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QPushButton

from grillestack.app.panels.part_card import PartCard
from grillestack.app.panels.photo_rows import OpacitySlider
from grillestack.model.edits import set_photo
from grillestack.model.photo import LineLies, Mark, TwoPoints
from tests.model.examples import a_photo


@pytest.fixture
def card(qtbot, session):
    session.apply("trace", set_photo(session.project, a_photo()))
    made = PartCard(session)
    qtbot.addWidget(made)
    made.resize(288, 1_600)
    made.show()
    return made


def named(card, kind, name):
    return next(w for w in card.widget().findChildren(kind) if w.accessibleName() == name)


def photo_of(session):
    return session.project.nose.photo


def test_without_a_photo_there_are_no_rows(card, session):
    session.apply("remove", set_photo(session.project, None))
    assert card.widget().findChildren(OpacitySlider) == []
    session.undo_stack.undo()
    assert len(card.widget().findChildren(OpacitySlider)) == 1


def drag_slider(slider, by_px, *, end=True):
    middle = slider.height() // 2
    handle = QPoint(round((slider.value() - 5) / 95 * (slider.width() - 14)) + 7, middle)
    QTest.mousePress(slider, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, handle)
    for part in (0.5, 1.0):
        QTest.mouseMove(slider, handle + QPoint(round(by_px * part), 0))
    if end:
        QTest.mouseRelease(slider, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, handle + QPoint(by_px, 0))


def test_a_drag_of_the_strength_is_a_trial_and_then_one_step(card, session):
    slider = named(card, OpacitySlider, "Strength of the photo")
    drag_slider(slider, 30, end=False)
    assert session.in_trial
    assert session.shown.nose.photo.opacity_frac > photo_of(session).opacity_frac
    assert session.undo_stack.count() == 1
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton)
    assert not session.in_trial
    assert photo_of(session).opacity_frac > 0.6
    assert session.undo_stack.count() == 2


def test_esc_puts_the_strength_back(card, session):
    slider = named(card, OpacitySlider, "Strength of the photo")
    drag_slider(slider, -30, end=False)
    QTest.keyClick(slider, Qt.Key.Key_Escape)
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton)
    assert not session.in_trial
    assert slider.value() == 60
    assert photo_of(session).opacity_frac == 0.6
    assert session.undo_stack.count() == 1


def test_a_run_of_keys_is_one_step(card, session):
    slider = named(card, OpacitySlider, "Strength of the photo")
    slider.setFocus()
    for _ in range(3):
        QTest.keyClick(slider, Qt.Key.Key_Left)
    assert photo_of(session).opacity_frac == 0.45
    assert session.undo_stack.count() == 2
    session.undo_stack.undo()
    assert slider.value() == 60


@pytest.mark.parametrize(
    ("name", "field", "value"), [("Hide the photo", "hidden", True), ("Lock the photo in its place", "locked", False)]
)
def test_hide_and_lock_are_one_step_each(card, session, name, field, value):
    QTest.mouseClick(named(card, QCheckBox, name), Qt.MouseButton.LeftButton, pos=QPoint(8, 8))
    assert getattr(photo_of(session), field) is value
    assert session.undo_stack.count() == 2


@pytest.mark.parametrize(
    ("label", "text", "field", "value"),
    [
        ("Width", "530 mm", "width_mm", 530),
        ("Height", "12 cm", "height_mm", 120),
        ("Centre to the right", "15", "middle_y_mm", 15),
        ("Lower edge at", "0.5 m", "bottom_z_mm", 500),
    ],
)
def test_sizes_and_place_of_the_flat_thing_can_be_typed(card, session, type_into, label, text, field, value):
    type_into(named(card, QLineEdit, label), text)
    assert getattr(photo_of(session).tied, field) == value


def test_the_cameras_distance_can_be_typed_and_an_impossible_one_is_refused(card, session, type_into):
    line = named(card, QLineEdit, "Camera away")
    type_into(line, "3.2 m")
    assert photo_of(session).camera_distance_mm == 3_200
    type_into(line, "1 mm")
    assert photo_of(session).camera_distance_mm == 3_200
    assert any("at least 200 mm" in label.text() for label in card.widget().findChildren(QLabel))


def test_a_photo_by_two_points_has_its_own_rows(card, session, type_into):
    tied = TwoPoints(first=Mark(2, 12), second=Mark(30, 12), distance_mm=600)
    session.apply("two", set_photo(session.project, replace(a_photo(), tied=tied)))
    type_into(named(card, QLineEdit, "Distance"), "61 cm")
    assert photo_of(session).tied.distance_mm == 610
    assert photo_of(session).tied.lies is LineLies.AS_TAKEN


def test_the_hint_follows_what_is_typed(card, session, type_into):
    def hint():
        return next(x.text() for x in card.widget().findChildren(QLabel) if x.text().startswith("1 px"))

    before = hint()
    type_into(named(card, QLineEdit, "Width"), "1040 mm")
    assert hint() != before


def test_removing_it_is_one_step_and_undo_brings_it_back(card, session):
    QTest.mouseClick(named(card, QPushButton, "Remove photo"), Qt.MouseButton.LeftButton)
    assert photo_of(session) is None
    session.undo_stack.undo()
    assert photo_of(session) == a_photo()
