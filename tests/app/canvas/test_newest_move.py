"""A hand that is faster than the picture skips what nobody would have seen, and never its last place."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.newest_move import NewestMove

NO_KEYS = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def led(qapp):
    """The places that were led to, and what leads there."""
    places = []
    parent = QObject()
    newest = NewestMove(lambda px, _keys: places.append(px.x()), parent)
    newest.keep = parent
    return places, newest


def test_the_first_move_is_followed_at_once_and_of_those_before_the_frame_only_the_newest(led):
    places, newest = led
    for x in (1.0, 2.0, 3.0):
        newest.come(QPointF(x, 0.0), NO_KEYS)
    assert places == [1.0]
    newest.painted()
    QApplication.processEvents()
    assert places == [1.0, 3.0]
    newest.painted()
    QApplication.processEvents()
    assert places == [1.0, 3.0]
    assert not newest.waits


def test_a_move_after_the_frame_is_followed_at_once(led):
    places, newest = led
    newest.come(QPointF(1.0, 0.0), NO_KEYS)
    newest.painted()
    newest.come(QPointF(2.0, 0.0), NO_KEYS)
    assert places == [1.0, 2.0]


def test_what_waits_is_forgotten_when_the_hand_lets_go(led):
    places, newest = led
    newest.come(QPointF(1.0, 0.0), NO_KEYS)
    newest.come(QPointF(2.0, 0.0), NO_KEYS)
    newest.forget()
    newest.painted()
    QApplication.processEvents()
    assert places == [1.0]
    newest.come(QPointF(5.0, 0.0), NO_KEYS)
    assert places == [1.0, 5.0]


def test_a_drag_by_the_platforms_own_mouse_ends_where_the_hand_let_go(front, session):
    port = front.viewport()
    at = session.project.part("cac-1").placement
    start = front.px_of(at.y_mm + 250.0, at.z_mm).toPoint()
    session.select(("cac-1",))
    before = session.project
    QTest.mousePress(port, Qt.MouseButton.LeftButton, NO_KEYS, start)
    for step in range(1, 12):
        QTest.mouseMove(port, start + QPointF(0.0, 4.0 * step).toPoint())
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, NO_KEYS, start + QPointF(0.0, 44.0).toPoint())
    moved_mm = before.part("cac-1").placement.z_mm - session.project.part("cac-1").placement.z_mm
    assert moved_mm == pytest.approx(44.0 / front.heights.px_per_mm, abs=12.0)
    assert session.undo_stack.count() == 1
    assert not front.newest.waits
