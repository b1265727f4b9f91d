"""Measuring in the window: opened from shelf and menu, put aside and gone on with, put on the nose and on the shelf."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.tape.bench import PUT_ASIDE
from grillestack.storage.catalogue import own_parts, own_parts_path
from tests.app.tape.test_taped import MEASURED


def finish(window, *, keep=False):
    panel = window.tape.panel
    panel.taped = MEASURED
    panel.go_to(6)
    if keep:
        QTest.keyClick(panel.keep, Qt.Key.Key_Space)
    QTest.mouseClick(panel.next, Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("way", ["button", "menu"])
def test_a_measured_part_lands_on_the_nose_in_one_step_and_is_selected(window, session, way):
    before = len(session.project.parts)
    if way == "button":
        QTest.mouseClick(window.shelf.measure, Qt.MouseButton.LeftButton)
    else:
        window.menus.actions["Measure a part…"].trigger()
    assert window.tape.panel.isVisible()
    finish(window)
    assert window.tape.panel is None
    assert window.verdict.isVisible()
    assert len(session.project.parts) == before + 1
    part = session.project.part(session.selection[0])
    assert (part.name, part.core_width_mm) == ("Measured radiator", 600)
    assert own_parts() == ()
    session.undo_stack.undo()
    assert len(session.project.parts) == before


def test_kept_it_is_on_the_shelf_too(window, session):
    window.tape.begin()
    finish(window, keep=True)
    (own,) = own_parts()
    assert own.name == "Measured radiator"
    assert window.shelf.find_part(own.id) is not None
    assert session.project.part(session.selection[0]).core_width_mm == 600


def test_put_aside_it_is_gone_on_with_the_next_time(window):
    window.tape.begin()
    window.tape.panel.go_to(1)
    line = window.tape.panel.page.fields["core_width_mm"].line
    QTest.keyClicks(line, "612")
    QTest.keyClick(window.tape.panel, Qt.Key.Key_Escape)
    assert window.tape.panel is None
    assert PUT_ASIDE in window.strip.sentences()
    window.tape.begin()
    assert window.tape.panel.taped.core_width_mm == 612


def test_a_form_that_had_to_give_way_loses_nothing(window):
    window.tape.begin()
    window.tape.panel.go_to(1)
    QTest.keyClicks(window.tape.panel.page.fields["core_width_mm"].line, "612")
    window.columns.show_beside(None)
    window.tape.begin()
    assert window.tape.panel.taped.core_width_mm == 612


def test_put_aside_untouched_it_says_nothing_and_thrown_away_it_begins_anew(window):
    window.tape.begin()
    QTest.keyClick(window.tape.panel, Qt.Key.Key_Escape)
    assert window.strip.sentences() == []
    window.tape.begin()
    window.tape.panel.taped = MEASURED
    window.tape.put_aside()
    button = next(b for b in window.strip.buttons() if b.text() == "Throw it away")
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    window.tape.begin()
    assert window.tape.panel.taped.core_width_mm is None


def test_a_catalogue_that_cannot_be_written_keeps_the_form_and_says_why(window, session):
    own_parts_path().parent.mkdir(parents=True, exist_ok=True)
    own_parts_path().write_text("{ cut", encoding="utf-8")
    before = session.project
    window.tape.begin()
    finish(window, keep=True)
    assert window.tape.panel is not None
    assert "own_parts.json" in window.tape.panel.complaint.text()
    assert session.project is before
    QTest.keyClick(window.tape.panel.keep, Qt.Key.Key_Space)
    QTest.mouseClick(window.tape.panel.next, Qt.MouseButton.LeftButton)
    assert len(session.project.parts) == len(before.parts) + 1
