"""The grid over the sheet, faint, and no finer than the eye can tell apart."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QPainter

from grillestack.app.canvas.gestures.grid import grid_step_mm
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.units.display import UnitSystem

_LEAST_PX = 9.0
_COARSER = (1, 2, 5, 10, 20, 50, 100)


def paint_grid(
    painter: QPainter, area_mm: QRectF, zero_mm: tuple[float, float], units: UnitSystem, palette: Palette
) -> None:
    """Draw the grid's lines over an area of the sheet; `zero_mm` is where it begins across and up."""
    scale = abs(painter.worldTransform().m22()) or 1.0
    step = grid_step_mm(units)
    step *= next((factor for factor in _COARSER if factor * step * scale >= _LEAST_PX), _COARSER[-1])
    painter.setPen(pen(Line.NARROW, faded(palette.ink, 0.1)))
    lines = [
        QLineF(at, area_mm.top(), at, area_mm.bottom())
        for at in _places(area_mm.left(), area_mm.right(), zero_mm[0], step)
    ]
    lines += [
        QLineF(area_mm.left(), at, area_mm.right(), at)
        for at in _places(area_mm.top(), area_mm.bottom(), zero_mm[1], step)
    ]
    painter.drawLines(lines)


def _places(low: float, high: float, zero: float, step: float) -> list[float]:
    first, last = math.ceil((low - zero) / step), math.floor((high - zero) / step)
    return [zero + number * step for number in range(first, last + 1)]
