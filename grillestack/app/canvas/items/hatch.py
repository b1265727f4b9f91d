"""Which hatch says what: tank, blocked, obstruction and off the opening are told apart without colour."""

from __future__ import annotations

import enum
import functools

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPen, QTransform

_OVERSAMPLE = 2


class Hatch(enum.Enum):
    """The hatches of the sheet; the value is the edge of one tile in pixels."""

    TANK = 7
    BLOCKED = 9
    OBSTRUCTION = 14
    OFF_OPENING = 8


def hatch_brush(hatch: Hatch, colour: QColor, world: QTransform) -> QBrush:
    """Return a brush whose lines keep their spacing in pixels under this transform and stay put on the sheet."""
    brush = QBrush(_tile(hatch, colour.rgba()))
    across = world.m11() or 1.0
    up = world.m22() or 1.0
    # Tiles are drawn as the viewer sees them, so the flips of the sheet are taken out again.
    brush.setTransform(QTransform.fromScale(1.0 / across / _OVERSAMPLE, 1.0 / up / _OVERSAMPLE))
    return brush


@functools.lru_cache(maxsize=128)
def _tile(hatch: Hatch, rgba: int) -> QImage:
    """Return one tile; a sheet asks for the same few dozens of times at each repaint."""
    edge = hatch.value
    tile = QImage(edge * _OVERSAMPLE, edge * _OVERSAMPLE, QImage.Format.Format_ARGB32_Premultiplied)
    tile.fill(Qt.GlobalColor.transparent)
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(_OVERSAMPLE, _OVERSAMPLE)
    _draw_tile(painter, hatch, QColor.fromRgba(rgba), float(edge))
    painter.end()
    return tile


def _draw_tile(painter: QPainter, hatch: Hatch, colour: QColor, edge: float) -> None:
    if hatch is Hatch.OFF_OPENING:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        for at in (QPointF(edge * 0.25, edge * 0.25), QPointF(edge * 0.75, edge * 0.75)):
            painter.drawEllipse(at, 0.8, 0.8)
        return
    painter.setPen(QPen(colour, 1.3 if hatch is Hatch.OBSTRUCTION else 0.9))
    # Three lines, because the corners of the neighbouring tiles' lines reach into this one.
    for shift in (-edge, 0.0, edge):
        if hatch is Hatch.BLOCKED:
            painter.drawLine(QPointF(shift - 1, -1), QPointF(shift + edge + 1, edge + 1))
        else:
            painter.drawLine(QPointF(shift - 1, edge + 1), QPointF(shift + edge + 1, -1))
        if hatch is Hatch.OBSTRUCTION:
            painter.drawLine(QPointF(shift + 2.5, edge + 1), QPointF(shift + edge + 4.5, -1))
