"""Colours reach every widget, text stays readable, and a machine without fonts has one."""

import os

import pytest
from PySide6.QtGui import QFontDatabase, QFontInfo, QPalette
from PySide6.QtWidgets import QApplication

from grillestack.app.look import (
    colour_application,
    palette_of,
    prepare_application,
    use_offscreen_without_a_display,
)
from grillestack.storage.settings import Look


@pytest.fixture
def app(qapp):
    before_palette, before_sheet, before_font = qapp.palette(), qapp.styleSheet(), qapp.font()
    yield qapp
    qapp.setStyleSheet(before_sheet)
    qapp.setPalette(before_palette)
    qapp.setFont(before_font)


def luminance(colour):
    """Relative luminance after WCAG 2.1."""
    parts = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.getRgbF()[:3]]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


@pytest.mark.parametrize("look", list(Look))
def test_words_stand_out_from_what_is_behind_them(app, look):
    colour_application(app, palette_of(look))
    colours = app.palette()
    role = QPalette.ColorRole
    for ink, ground in ((role.WindowText, role.Window), (role.Text, role.Base), (role.PlaceholderText, role.Base)):
        a, b = sorted((luminance(colours.color(ink)), luminance(colours.color(ground))))
        assert (b + 0.05) / (a + 0.05) >= 4.5  # WCAG 2.1, success criterion 1.4.3


def test_a_machine_without_fonts_gets_the_bundled_one(app):
    prepare_application(app)
    assert QFontDatabase.families()
    assert QFontInfo(app.font()).family() in QFontDatabase.families()


def test_without_a_display_qt_paints_into_memory(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    use_offscreen_without_a_display()
    assert os.environ["QT_QPA_PLATFORM"] == "offscreen"
    monkeypatch.setenv("QT_QPA_PLATFORM", "xcb")
    use_offscreen_without_a_display()
    assert os.environ["QT_QPA_PLATFORM"] == "xcb"


def test_the_sheet_is_one_that_qt_understands(app):
    colour_application(app, palette_of(Look.LIGHT))
    assert isinstance(QApplication.instance(), QApplication)
    assert "{" in app.styleSheet()
