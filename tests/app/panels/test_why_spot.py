"""A figure that can be asked why, by mouse and by key."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from grillestack.app import palette as palettes
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject

SUBJECT = Subject(FigureName.HOTTEST_DAY, "case-1")


@pytest.fixture
def spot(qtbot):
    parent = QWidget()
    qtbot.addWidget(parent)
    parent.resize(200, 100)
    made = WhySpot(palettes.light(), parent)
    made.lie_over(QRectF(10, 10, 60, 20), SUBJECT, "Hottest day 40 °C")
    parent.show()
    made.held = parent
    return made


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_a_key_with_the_focus_asks(spot, key, qtbot):
    spot.setFocus()
    with qtbot.waitSignal(spot.clicked, timeout=1000):
        QTest.keyClick(spot, key)


def test_a_click_asks_about_its_subject(spot, qtbot):
    with qtbot.waitSignal(spot.clicked, timeout=1000):
        QTest.mouseClick(spot, Qt.MouseButton.LeftButton)
    assert spot.subject == SUBJECT


def test_it_lies_over_the_figure_and_says_what_it_is(spot):
    assert spot.geometry().getRect() == (10, 10, 60, 20)
    assert spot.accessibleName() == "Hottest day 40 °C: why?"


def test_dots_are_painted_under_the_figure_and_nothing_over_it(spot):
    spot.clearFocus()
    picture = spot.grab().toImage()
    ground = picture.pixelColor(30, 5)
    bottom = [picture.pixelColor(x, picture.height() - 1) for x in range(picture.width())]
    assert any(colour != ground for colour in bottom)
    assert any(colour == ground for colour in bottom)  # dots, no line
    rows = range(picture.height() - 3)
    assert all(picture.pixelColor(x, y) == ground for y in rows for x in range(picture.width()))


def test_words_are_boxed_at_the_side_where_they_stand():
    box = QRectF(100, 0, 200, 20)
    assert words_box(box, 50, 14, at_right=True).getRect() == (250, 3, 50, 15)
    assert words_box(box, 50, 14, at_right=False).left() == 100
