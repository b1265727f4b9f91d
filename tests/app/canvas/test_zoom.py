"""Zooming to a part, by wheel and by two fingers: what was under the hand stays there."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice, QWheelEvent
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.height_ruler import LARGEST_SCALE
from grillestack.geometry.projection import project_part

NO_KEYS = Qt.KeyboardModifier.NoModifier


def wheel(view, at, turn, keys=NO_KEYS):
    port = view.viewport()
    event = QWheelEvent(
        at,
        port.mapToGlobal(at),
        QPoint(),
        QPoint(0, turn),
        Qt.MouseButton.NoButton,
        keys,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(port, event)


def pinch(view, at, value):
    port = view.viewport()
    event = QNativeGestureEvent(
        Qt.NativeGestureType.ZoomNativeGesture,
        QPointingDevice.primaryPointingDevice(),
        2,
        at,
        at,
        port.mapToGlobal(at),
        value,
        QPointF(),
    )
    QApplication.sendEvent(port, event)


@pytest.mark.parametrize("turn", [wheel, pinch])
def test_what_lies_under_the_hand_stays_there(front, turn):
    at = front.px_of(120.0, 640.0)
    before = front.heights.px_per_mm
    turn(front, at, 120 if turn is wheel else 0.2)
    assert front.heights.px_per_mm == pytest.approx(before * (1.0015**120 if turn is wheel else 1.2))
    after = front.px_of(120.0, 640.0)
    # Qt scrolls in whole pixels.
    assert (after - at).manhattanLength() <= 2.0


def test_a_pinch_closed_all_the_way_leaves_a_sheet(front):
    pinch(front, QPointF(100.0, 100.0), -5.0)
    assert front.heights.px_per_mm > 0.0


def test_a_wheel_with_shift_pushes_the_sheet_sideways(front):
    scale, at = front.heights.px_per_mm, front.px_of(0.0, 600.0)
    wheel(front, at, 40, Qt.KeyboardModifier.ShiftModifier)
    assert front.heights.px_per_mm == scale
    assert front.px_of(0.0, 600.0).x() == pytest.approx(at.x() + 40.0, abs=1.5)


def test_a_part_is_shown_as_large_as_there_is_room_in_both_views(front, side, session):
    assert front.zoom_to_parts(("cac-1",))
    box = project_part(session.project.part("cac-1")).outline_box
    area = front.sheet_area()
    corners = [front.px_of(y, z) for y in (box.y0_mm, box.y1_mm) for z in (box.z0_mm, box.z1_mm)]
    assert all(area.contains(corner) for corner in corners)
    wide = max(c.x() for c in corners) - min(c.x() for c in corners)
    assert wide > 0.6 * area.width()
    assert side.heights.px_per_mm == front.heights.px_per_mm
    middle = (corners[0] + corners[-1]) / 2
    assert (middle - area.center()).manhattanLength() <= 3.0


def test_nothing_to_zoom_to_changes_nothing(front):
    scale = front.heights.px_per_mm
    assert not front.zoom_to_parts(())
    assert front.heights.px_per_mm == scale


def test_no_zoom_goes_beyond_the_largest_scale(front):
    for _ in range(40):
        wheel(front, QPointF(200.0, 200.0), 480)
    assert front.heights.px_per_mm == LARGEST_SCALE
    front.grab()
