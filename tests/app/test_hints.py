"""Three notes on the canvas: where they stand, what they point at, and that each can be put away and all come back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.hints import HINTS, Side
from grillestack.storage.settings import Look


@pytest.fixture
def hints(window):
    window.front.zoom_to_fit()
    window.menus.actions["Show hints again"].trigger()
    QApplication.processEvents()
    return window.hints


def on_window(note, window):
    box = note.rect()
    box.moveTopLeft(note.mapTo(window, QPoint(0, 0)))
    return box


def test_there_are_three_and_they_stand_on_the_canvas_apart_from_each_other(hints, window):
    boxes = [on_window(note, window) for note in hints.notes]
    assert len(boxes) == 3
    assert all(note.isVisible() for note in hints.notes)
    views = (window.front, window.side)
    for note, box in zip(hints.notes, boxes, strict=True):
        assert note.parentWidget() in views
        assert note.parentWidget().rect().contains(note.geometry())
        others = [other for other in boxes if other is not box]
        assert not any(box.intersects(other) for other in others)


@pytest.mark.parametrize("size", [(1280, 800), (1000, 700), (1900, 1000)])
def test_no_word_is_cut_off_at_any_size(hints, window, size):
    window.resize(*size)
    QApplication.processEvents()
    for note in hints.notes:
        assert note.words.height() >= note.words.heightForWidth(note.words.width())
        assert note.parentWidget().rect().contains(note.geometry())


def test_where_there_is_no_side_view_the_note_at_the_verdict_stands_on_the_front_view(hints, window):
    note = next(n for n in hints.notes if n.hint.side is Side.RIGHT)
    assert note.parentWidget() is window.side
    window.resize(1000, 700)
    QApplication.processEvents()
    assert note.parentWidget() is window.front
    assert note.isVisible()


def test_a_note_is_put_away_by_a_click_and_the_others_stay(hints):
    first, *others = hints.notes
    QTest.mouseClick(first.put_away, Qt.MouseButton.LeftButton)
    assert first.isHidden()
    assert all(note.isVisible() for note in others)


def test_a_note_is_put_away_by_keys_and_all_come_back(hints, window):
    first = hints.notes[0]
    first.put_away.setFocus()
    QTest.keyClick(first.put_away, Qt.Key.Key_Space)
    assert first.isHidden()
    second = hints.notes[1]
    second.put_away.setFocus()
    QTest.keyClick(second.put_away, Qt.Key.Key_Escape)
    assert second.isHidden()
    window.menus.actions["Show hints again"].trigger()
    assert all(note.isVisible() for note in hints.notes)


def test_the_note_on_the_core_points_at_the_radiator_and_follows_the_zoom(hints, window, session):
    note = next(n for n in hints.notes if n.hint.side is Side.UP)

    def tip():
        at = note.pos() + note._tip.toPoint() - window.front.viewport().pos()
        return window.front.sheet_at(at.toPointF())

    part = session.project.part("radiator-3")
    for factor in (1.0, 0.9):
        window.front.zoom_by(factor)
        across, height = tip()
        assert abs(across - part.placement.y_mm) < part.core_width_mm / 2
        assert abs(height - part.placement.z_mm) < part.core_height_mm / 2


def test_the_tail_lets_the_mouse_through_but_for_its_line(hints):
    note = next(n for n in hints.notes if n.hint.side is Side.UP)
    corner = QPoint(2, 2)  # beside the tail, above the paper
    assert not note.mask().contains(corner)
    assert note.mask().contains(note._paper().center().toPoint())


def test_another_document_takes_the_notes_away(hints, window):
    window.desk.begin_project(window.session.project)
    assert all(note.isHidden() for note in hints.notes)


def test_they_paint_in_every_look(hints, window):
    for look in Look:
        window.show_look(look)
        for note in hints.notes:
            note.grab()


def test_every_hint_points_another_way():
    assert {hint.side for hint in HINTS} == set(Side)
