"""Which part of a ruler a moving pointer touches."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRect

_REACH_PX = 6


def near_in_strip(strip: QRect, at: QPointF) -> QRect:
    """Return the pixels of a ruler that the pointer's mark takes."""
    middle = QPoint(round(at.x()), round(at.y()))
    if strip.width() > strip.height():
        return QRect(middle.x() - _REACH_PX, strip.top(), 2 * _REACH_PX, strip.height())
    return QRect(strip.left(), middle.y() - _REACH_PX, strip.width(), 2 * _REACH_PX)
