"""Zooming and pushing a sheet in mm: by wheel, pinch and keys, around a pixel, to one part."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QGestureEvent, QPinchGesture, QWidget

from grillestack.app.canvas.height_ruler import LARGEST_SCALE, SMALLEST_SCALE, HeightRuler

_WHEEL_STEP = 1.0015
_FREE_SHARE = 0.09
_LEAST_PINCH = 0.2


class Zoomed(Protocol):
    """What a view tells of itself to be zoomed."""

    heights: HeightRuler
    across_sign: int

    @property
    def across_scale(self) -> float:
        """Return the pixels per mm across."""

    @property
    def across_left_mm(self) -> float:
        """Return the across coordinate at the view's left edge."""

    def viewport(self) -> QWidget:
        """Return the widget on which the sheet is seen."""

    def sheet_at(self, px: QPointF) -> tuple[float, float]:
        """Return the across coordinate and the height under a pixel."""

    def show_across(self, left_mm: float) -> None:
        """Put this across coordinate at the view's left edge."""

    def zoom_by(self, factor: float, around_px: QPointF | None = None) -> None:
        """Zoom around a pixel."""

    def pan_by(self, dx_px: float, dy_px: float) -> None:
        """Push the sheet by so many pixels."""


def zoom_view(view: Zoomed, factor: float, around: QPointF) -> None:
    """Zoom; what lies under that pixel stays there."""
    across, z = view.sheet_at(around)
    view.heights.let_loose()
    scale = min(LARGEST_SCALE, max(SMALLEST_SCALE, view.heights.px_per_mm * factor))
    view.heights.show_heights(scale, z + around.y() / scale)
    view.show_across(across - view.across_sign * around.x() / view.across_scale)


def push_view(view: Zoomed, dx_px: float, dy_px: float) -> None:
    """Push the sheet by so many pixels."""
    scale = view.heights.px_per_mm
    view.heights.let_loose()
    view.show_across(view.across_left_mm - view.across_sign * dx_px / view.across_scale)
    view.heights.show_heights(scale, view.heights.z_top_mm + dy_px / scale)


def zoom_to_rect(view: Zoomed, rect_mm: QRectF, area: QRectF | QRect) -> None:
    """Show this rectangle of the sheet in the middle of these pixels, as large as they allow with a margin."""
    room = QRectF(area)
    wide, high = (max(1.0, length * (1.0 - 2 * _FREE_SHARE)) for length in (room.width(), room.height()))
    scale = min(wide / max(1.0, rect_mm.width()), high / max(1.0, rect_mm.height()))
    scale = min(LARGEST_SCALE, max(SMALLEST_SCALE, scale))
    middle = rect_mm.center()
    view.heights.let_loose()
    view.heights.show_heights(scale, middle.y() + room.center().y() / scale)
    view.show_across(middle.x() - view.across_sign * room.center().x() / view.across_scale)


def turn_wheel(view: Zoomed, event: QWheelEvent) -> None:
    """Zoom at the pointer; with Shift push the sheet sideways."""
    event.accept()
    turn = event.angleDelta()
    if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
        view.pan_by(turn.y() or turn.x(), 0.0)
    elif turn.y():
        view.zoom_by(_WHEEL_STEP ** turn.y(), event.position())


def pinch(view: Zoomed, event: QEvent) -> bool:
    """Zoom where two fingers spread on a pad or on the screen; say whether the event was one of these."""
    if isinstance(event, QNativeGestureEvent) and event.gestureType() is Qt.NativeGestureType.ZoomNativeGesture:
        view.zoom_by(max(_LEAST_PINCH, 1.0 + event.value()), event.position())
    elif isinstance(event, QGestureEvent):
        spread = event.gesture(Qt.GestureType.PinchGesture)
        if not isinstance(spread, QPinchGesture):
            return False
        middle = view.viewport().mapFromGlobal(spread.centerPoint().toPoint())
        view.zoom_by(max(_LEAST_PINCH, spread.scaleFactor()), QPointF(middle))
        event.accept(spread)
    else:
        return False
    event.accept()
    return True
