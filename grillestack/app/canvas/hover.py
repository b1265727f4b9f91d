"""Where a moving pointer is on the sheet, and which part of a ruler it touches."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRect, Qt

from grillestack.app.canvas.gestures.gesture import Pointer

_REACH_PX = 6


def near_in_strip(strip: QRect, at: QPointF) -> QRect:
    """Return the pixels of a ruler that the pointer's mark takes."""
    middle = QPoint(round(at.x()), round(at.y()))
    if strip.width() > strip.height():
        return QRect(middle.x() - _REACH_PX, strip.top(), 2 * _REACH_PX, strip.height())
    return QRect(strip.left(), middle.y() - _REACH_PX, strip.width(), 2 * _REACH_PX)


def pointer_on(place_mm: tuple[float, float], px_per_mm: float, modifiers: Qt.KeyboardModifier) -> Pointer:
    """Return the pointer at that place of the sheet, with the keys that matter."""
    both = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
    return Pointer(
        across_mm=place_mm[0],
        z_mm=place_mm[1],
        px_per_mm=px_per_mm,
        snaps_off=bool(modifiers & Qt.KeyboardModifier.AltModifier),
        adds=bool(modifiers & both),
    )
