"""Words that can be pressed: by mouse and by Space, with a focus that can be seen, faint when they cannot."""

import pytest
from PySide6.QtCore import Qt

from grillestack.app import palette as palettes
from grillestack.app.panels.link import Link


@pytest.fixture
def link(qtbot):
    made = Link("do it", palettes.light())
    qtbot.addWidget(made)
    made.show()
    return made


def test_mouse_and_space_press_it(link, qtbot):
    for press in (
        lambda: qtbot.mouseClick(link, Qt.MouseButton.LeftButton),
        lambda: qtbot.keyClick(link, Qt.Key.Key_Space),
    ):
        with qtbot.waitSignal(link.clicked):
            press()


def test_it_looks_different_when_it_cannot_be_pressed(link):
    before = link.grab().toImage()
    link.setEnabled(False)
    assert link.grab().toImage() != before


def test_another_look_is_painted(link):
    before = link.grab().toImage()
    link.show_palette(palettes.high_contrast())
    assert link.grab().toImage() != before
