"""The rulers at the edges of the sheet: figures in the unit in use, a fine tick between, the pointer's place."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from grillestack.app.canvas.items.pens import Line, pen
from grillestack.app.canvas.items.ruler_ticks import RulerScale, ticks_along
from grillestack.app.palette import Palette
from grillestack.units.display import UnitSystem

_LEAST_LEVEL_PX = 20
_LEAST_UPRIGHT_PX = 40


def level_ruler_px(font: QFont) -> int:
    """Return how high a level ruler is, so that its figures are never cut off."""
    return max(_LEAST_LEVEL_PX, math.ceil(QFontMetricsF(font).height()) + 6)


def upright_ruler_px(font: QFont) -> int:
    """Return how wide an upright ruler is."""
    return max(_LEAST_UPRIGHT_PX, math.ceil(QFontMetricsF(font).horizontalAdvance("-1000")) + 10)


def paint_level_ruler(painter: QPainter, strip: QRectF, scale: RulerScale, palette: Palette) -> None:
    """Draw a ruler along the lower edge."""
    painter.fillRect(strip, palette.panel)
    painter.setPen(pen(Line.NARROW, palette.rule))
    painter.drawLine(QLineF(strip.topLeft(), strip.topRight()))
    metrics = QFontMetricsF(painter.font())
    ticks = ticks_along(strip.width(), scale)
    painter.setPen(pen(Line.NARROW, palette.faint_ink))
    painter.drawLines(
        [
            QLineF(strip.left() + tick.at_px, strip.top(), strip.left() + tick.at_px, strip.top() + tick.length_px)
            for tick in ticks
        ]
    )
    for tick in ticks:
        if tick.text:
            x, wide = strip.left() + tick.at_px, metrics.horizontalAdvance(tick.text)
            place = QRectF(x - wide / 2 - 1, strip.top() + 5.0, wide + 2, strip.height() - 5.0)
            if strip.contains(place):
                painter.drawText(place, Qt.AlignmentFlag.AlignCenter, tick.text)


def paint_level_mark(painter: QPainter, strip: QRectF, palette: Palette, pointer: float | None) -> None:
    """Mark the pixel across where the pointer stands."""
    if pointer is not None and strip.left() <= pointer <= strip.right():
        painter.setPen(pen(Line.VISIBLE, palette.accent))
        painter.drawLine(QLineF(pointer, strip.top(), pointer, strip.bottom()))


def paint_upright_ruler(painter: QPainter, strip: QRectF, scale: RulerScale, palette: Palette) -> None:
    """Draw a ruler along an upright edge, ticks towards the sheet at its left."""
    painter.fillRect(strip, palette.panel)
    painter.setPen(pen(Line.NARROW, palette.rule))
    painter.drawLine(QLineF(strip.topLeft(), strip.bottomLeft()))
    metrics = QFontMetricsF(painter.font())
    ticks = ticks_along(strip.height(), scale)
    painter.setPen(pen(Line.NARROW, palette.faint_ink))
    painter.drawLines(
        [
            QLineF(strip.left(), strip.top() + tick.at_px, strip.left() + tick.length_px, strip.top() + tick.at_px)
            for tick in ticks
        ]
    )
    for tick in ticks:
        if tick.text:
            y, high = strip.top() + tick.at_px, metrics.height()
            place = QRectF(strip.left() + 9.0, y - high / 2, strip.width() - 9.0, high)
            if strip.contains(place):
                painter.drawText(place, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), tick.text)


def paint_upright_mark(painter: QPainter, strip: QRectF, palette: Palette, pointer: float | None) -> None:
    """Mark the pixel upright where the pointer stands."""
    if pointer is not None and strip.top() <= pointer <= strip.bottom():
        painter.setPen(pen(Line.VISIBLE, palette.accent))
        painter.drawLine(QLineF(strip.left(), pointer, strip.right(), pointer))


def paint_unit_corner(painter: QPainter, corner: QRectF, units: UnitSystem, palette: Palette, font: QFont) -> None:
    """Write the unit of both rulers where they meet."""
    painter.fillRect(corner, palette.panel)
    painter.setFont(font)
    painter.setPen(palette.faint_ink)
    painter.drawText(corner, Qt.AlignmentFlag.AlignCenter, "in" if units.base is UnitSystem.INCH else "mm")


def level_place(strip: QRectF, px: QPointF | None) -> float | None:
    """Return where the pointer stands along a level ruler."""
    return None if px is None or px.x() > strip.right() else px.x()


def upright_place(strip: QRectF, px: QPointF | None) -> float | None:
    """Return where the pointer stands along an upright ruler."""
    return None if px is None or px.y() > strip.bottom() else px.y()
