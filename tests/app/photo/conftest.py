"""A session over an invented nose with an opening, and an invented photo of it in a file."""

from __future__ import annotations

import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.palette import light
from grillestack.app.photo.marking_panel import MarkingPanel
from grillestack.app.photo.picture_file import kept_picture, pixels_of
from tests.app.photo.drawn_photos import a_camera, drawn_nose


@pytest.fixture(autouse=True)
def no_exception_in_paint(monkeypatch):
    """An exception in paintEvent is printed and painting goes on: make it fail the test."""
    caught = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, error, _trace: caught.append(error))
    monkeypatch.setattr(sys, "unraisablehook", lambda raised: caught.append(raised.exc_value))
    yield
    assert not caught, f"raised inside Qt: {caught!r}"


@pytest.fixture
def taken():
    """The camera that took the photo."""
    return a_camera()


@pytest.fixture
def picture(qapp, taken):
    """The photo as a project keeps it."""
    return kept_picture(drawn_nose(taken))


@pytest.fixture
def photo_file(qapp, taken, tmp_path):
    """The photo in a file."""
    path = tmp_path / "nose.jpg"
    assert drawn_nose(taken).save(str(path), quality=95)
    return path


@pytest.fixture
def panel(qtbot, session, picture):
    """The panel over a fresh photo."""
    made = MarkingPanel(session, pixels_of(picture), picture, light())
    qtbot.addWidget(made)
    made.resize(546, 714)
    made.show()
    return made


@pytest.fixture
def drag_mark():
    """Drag a mark of a sheet to a place in the photo by real events; `end=False` keeps the button down."""

    def drag(sheet, number, to_px, *, end=True):
        here, there = sheet.to_screen().map(sheet.marks[number]), sheet.to_screen().map(to_px)
        QTest.mousePress(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, here.toPoint())
        for step in (0.5, 1.0):
            QTest.mouseMove(sheet, (here + (there - here) * step).toPoint())
        if end:
            QTest.mouseRelease(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, there.toPoint())

    return drag
