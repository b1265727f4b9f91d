"""What was chosen in one window is so in the next; what cannot be read is told and taken as at the first start."""

from __future__ import annotations

import os

import pytest
from PySide6.QtCore import QLocale

from grillestack.app import start
from grillestack.app.canvas.face_show import FaceShow
from grillestack.app.kept_choices import choices_of, scale_as_chosen, show_choices
from grillestack.storage.places import settings_folder
from grillestack.storage.settings import Settings, load_settings, save_settings, settings_and_trouble
from grillestack.units.display import DecimalMark, UnitSystem


@pytest.fixture
def calm(window, qapp):
    """Give the window and put the bench mode's font and style back."""
    style, font = qapp.styleSheet(), qapp.font()
    yield window
    window.bench_mode.switch(is_on=False)
    qapp.setStyleSheet(style)
    qapp.setFont(font)


def test_all_choices_come_back(calm, session):
    session.set_units(UnitSystem.INCH)
    session.set_decimal_mark(DecimalMark.COMMA)
    calm.bench_mode.switch(is_on=True)
    calm.grid.switch(on=True)
    calm.drawer.show_plan(is_open=True)
    calm.front.face.choice.choose(FaceShow.SPEED)
    calm.menus.actions["150 %"].trigger()
    kept = choices_of(calm, Settings())
    save_settings(kept)
    session.set_decimal_mark(DecimalMark.POINT)
    calm.bench_mode.switch(is_on=False)
    calm.grid.switch(on=False)
    calm.drawer.show_plan(is_open=False)
    calm.front.face.choice.choose(FaceShow.AHEAD)
    show_choices(calm, load_settings())
    assert start.units_of(load_settings(), QLocale.c()) is UnitSystem.INCH_COMMA
    assert calm.bench_mode.is_on
    assert calm.grid.is_on
    assert calm.drawer.is_open
    assert calm.front.face.choice.show is FaceShow.SPEED
    assert calm.scale_factor == 1.5


def test_without_a_choice_the_decimal_mark_is_that_of_the_users_language():
    german, english = QLocale("de_DE"), QLocale("en_GB")
    assert start.units_of(Settings(), german) is UnitSystem.METRIC_COMMA
    assert start.units_of(Settings(), english) is UnitSystem.METRIC
    assert start.units_of(Settings(decimal_mark="."), german) is UnitSystem.METRIC
    assert start.units_of(Settings(unit_system="inch", decimal_mark=","), english) is UnitSystem.INCH_COMMA


def test_switching_millimetres_and_inches_keeps_the_decimal_mark(window, session):
    session.set_decimal_mark(DecimalMark.COMMA)
    session.set_units(UnitSystem.INCH)
    assert session.units is UnitSystem.INCH_COMMA
    window.menus.actions["Millimetres"].trigger()
    assert session.units is UnitSystem.METRIC_COMMA
    window.menus.actions["Decimal point, 26.5"].trigger()
    assert session.units is UnitSystem.METRIC


def test_a_damaged_file_is_told_in_one_sentence_and_each_damaged_choice_by_name():
    assert settings_and_trouble() == (Settings(), "")
    settings_folder().mkdir(parents=True, exist_ok=True)
    path = settings_folder() / "settings.json"
    path.write_bytes(b"{")
    settings, trouble = settings_and_trouble()
    assert settings == Settings()
    assert trouble.startswith("The settings could not be read")
    path.write_bytes(b'{"grid": "yes", "plan_open": true}')
    settings, trouble = settings_and_trouble()
    assert settings == Settings(plan_open=True)
    assert "grid" in trouble


def test_the_chosen_size_is_handed_to_qt_unless_the_user_has_set_another(monkeypatch):
    monkeypatch.setenv("QT_SCALE_FACTOR", "1")  # so that what this test leaves behind is taken away again
    monkeypatch.delenv("QT_SCALE_FACTOR")
    scale_as_chosen(Settings())
    assert "QT_SCALE_FACTOR" not in os.environ
    scale_as_chosen(Settings(scale_factor=1.5))
    assert os.environ["QT_SCALE_FACTOR"] == "1.5"
    monkeypatch.setenv("QT_SCALE_FACTOR", "2")
    scale_as_chosen(Settings(scale_factor=1.25))
    assert os.environ["QT_SCALE_FACTOR"] == "2"
