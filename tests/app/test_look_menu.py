"""Zooming to a part, measuring and the face's showing are reached by menu, key and double click."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from grillestack.app.canvas.face_show import FaceShow
from grillestack.app.canvas.gestures.measure import MeasureTool


def act(window, words):
    return window.menus.actions[words]


def test_measuring_is_taken_up_in_both_views_and_ended_in_both(window):
    act(window, "Measure between…").trigger()
    assert isinstance(window.front.tool, MeasureTool)
    assert isinstance(window.side.tool, MeasureTool)
    QTest.keyClick(window.side, Qt.Key.Key_Escape)
    assert window.front.tool is None
    assert window.side.tool is None
    assert not window.measuring.is_on
    act(window, "Measure between…").trigger()
    act(window, "Measure between…").trigger()
    assert not window.measuring.is_on


def test_what_is_selected_is_zoomed_to_by_menu_and_by_a_double_click_in_the_list(window, session):
    said = []
    session.message.connect(said.append)
    session.select(())
    window.front.zoom_to_fit()
    scale = window.front.heights.px_per_mm
    act(window, "Zoom to the part").trigger()
    assert said
    assert window.front.heights.px_per_mm == scale
    session.select((session.project.parts[-1].id,))
    act(window, "Zoom to the part").trigger()
    near = window.front.heights.px_per_mm
    assert near > scale
    window.front.zoom_to_fit()
    fan = window.pack.item(window.pack.count() - 1)
    window.pack.scrollToItem(fan)
    place = window.pack.visualItemRect(fan).center()
    QTest.mouseClick(window.pack.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place)
    QTest.mouseDClick(window.pack.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place)
    assert window.front.heights.px_per_mm > scale


def test_each_showing_of_the_face_has_a_line_and_a_key_of_its_own(window):
    lines = {
        "Face: what lies ahead": FaceShow.AHEAD,
        "Face: how warm the air is": FaceShow.TEMPERATURE,
        "Face: how fast the air is": FaceShow.SPEED,
    }
    keys = set()
    for words, show in lines.items():
        act(window, words).trigger()
        assert window.front.face.choice.show is show
        assert window.front.face.switch.buttons[show].isChecked()
        keys.add(act(window, words).shortcut().toString(QKeySequence.SequenceFormat.PortableText))
    assert keys == {"Ctrl+1", "Ctrl+2", "Ctrl+3"}


def test_no_two_lines_of_the_menus_share_a_key(window):
    given = [
        action.shortcut().toString() for action in window.menus.actions.values() if not action.shortcut().isEmpty()
    ]
    assert len(given) == len(set(given))
