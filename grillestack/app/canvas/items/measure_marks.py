"""The line that is measured, laid over the sheet: its ends, its straight length, and how far it goes across and up."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from grillestack.app.canvas.gestures.gesture import MeasuredLine
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.canvas.items.sheet_words import text_on_paper
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_ARM_PX = 7.0
_SHORT_PX = 24.0


def paint_measured(painter: QPainter, over: Over, measured: MeasuredLine) -> list[QRectF]:
    """Draw both ends and the legs with their lengths; return the strips of the texts."""
    accent = over.palette.accent
    painter.setFont(over.font)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    end = over.to_px(*measured.caught_mm)
    _paint_end(painter, over, end)
    if measured.from_mm is None:
        return []
    start = over.to_px(*measured.from_mm)
    _paint_end(painter, over, start)
    across_mm, up_mm = (abs(b - a) for a, b in zip(measured.from_mm, measured.caught_mm, strict=True))
    corner = QPointF(end.x(), start.y())
    strips = []
    if min(across_mm, up_mm) > 0.0:
        painter.setPen(pen(Line.HIDDEN, faded(accent, 0.8)))
        painter.drawLine(QLineF(start, corner))
        painter.drawLine(QLineF(corner, end))
        strips += _leg_words(painter, over, (start, corner, end), (across_mm, up_mm))
    painter.setPen(pen(Line.SELECTED, accent))
    painter.drawLine(QLineF(start, end))
    if measured.is_set and (end - start).manhattanLength() >= _SHORT_PX:
        words = show_quantity(math.dist(measured.from_mm, measured.caught_mm), Dimension.LENGTH, over.units)
        middle = (start + end) / 2
        strips.append(text_on_paper(painter, words, middle, accent, over.palette.label_paper, over.area))
    return strips


def measured_px(over: Over, measured: MeasuredLine) -> QRectF:
    """Return the pixels that the line with its legs takes."""
    end = over.to_px(*measured.caught_mm)
    start = end if measured.from_mm is None else over.to_px(*measured.from_mm)
    return QRectF(start, end).normalized().adjusted(-_ARM_PX, -_ARM_PX, _ARM_PX, _ARM_PX)


def _leg_words(
    painter: QPainter, over: Over, run: tuple[QPointF, QPointF, QPointF], legs_mm: tuple[float, float]
) -> list[QRectF]:
    """Write the length of each leg outside the corner, so that the straight line between stays free."""
    start, corner, end = run
    metrics = QFontMetricsF(painter.font())
    words = [show_quantity(leg, Dimension.LENGTH, over.units) for leg in legs_mm]
    down = metrics.height() * (0.8 if end.y() < start.y() else -0.8)
    half = metrics.horizontalAdvance(words[1]) / 2 + 6.0
    aside = half if end.x() > start.x() else -half
    places = ((start + corner) / 2 + QPointF(0.0, down), (corner + end) / 2 + QPointF(aside, 0.0))
    ink, paper = over.palette.accent, over.palette.label_paper
    return [text_on_paper(painter, text, at, ink, paper, over.area) for text, at in zip(words, places, strict=True)]


def _paint_end(painter: QPainter, over: Over, at: QPointF) -> None:
    """Draw a cross in a ring: where a tape would be held."""
    painter.setPen(pen(Line.VISIBLE, over.palette.accent))
    painter.drawEllipse(at, _ARM_PX * 0.6, _ARM_PX * 0.6)
    painter.drawLine(QLineF(at.x() - _ARM_PX, at.y(), at.x() + _ARM_PX, at.y()))
    painter.drawLine(QLineF(at.x(), at.y() - _ARM_PX, at.x(), at.y() + _ARM_PX))
