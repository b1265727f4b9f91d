"""The drawing half-way and the handles of a selected outline, laid over the sheet in pixels."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPolygonF

from grillestack.app.canvas.gestures.gesture import Drawing
from grillestack.app.canvas.gestures.outline_hand import OutlineMarks
from grillestack.app.canvas.gestures.outline_handles import HANDLE_REACH_PX, Held
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.canvas.items.sheet_words import text_on_paper

# Drawn smaller than it reaches, so that it hides little of what is under it.
_CORNER_PX = 0.72 * HANDLE_REACH_PX
_DOT_PX = 3.0


def paint_drawing(painter: QPainter, over: Over, drawing: Drawing) -> None:
    """Draw the sides that stand, the one under way, what mirroring adds, and where a click closes it."""
    accent = over.palette.accent
    if drawing.mirrored_mm:
        painter.setPen(pen(Line.HIDDEN, faded(accent, 0.8)))
        painter.drawPolygon(_px(over, drawing.mirrored_mm))
    run = _px(over, (*drawing.corners_mm, drawing.at_mm))
    if drawing.is_outline and not drawing.mirrored_mm and len(drawing.corners_mm) > 1:
        painter.setPen(pen(Line.HIDDEN, faded(accent, 0.6)))
        painter.drawLine(QLineF(over.to_px(*drawing.at_mm), over.to_px(*drawing.corners_mm[0])))
    painter.setPen(pen(Line.SELECTED, accent))
    painter.drawPolyline(run)
    painter.setBrush(over.palette.paper)
    for number, place in enumerate(drawing.corners_mm):
        at = over.to_px(*place)
        first = number == 0 and drawing.is_outline and len(drawing.corners_mm) > 1
        painter.setBrush(accent if first and drawing.closes else over.palette.paper)
        half = over.hand_factor * (_CORNER_PX / 2 if first else _DOT_PX)
        painter.setPen(pen(Line.VISIBLE, accent))
        painter.drawRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half))
    if not drawing.closes:
        painter.setBrush(accent)
        painter.drawEllipse(over.to_px(*drawing.at_mm), _DOT_PX, _DOT_PX)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def sides_drawn(over: Over, drawing: Drawing) -> list[QRectF]:
    """Return the pixels around each side, the one under way first: what is written at the pointer stands off them."""
    run = [over.to_px(*place) for place in (*drawing.corners_mm, drawing.at_mm)]
    sides = [QRectF(a, b).normalized() for a, b in itertools.pairwise(run)]
    return [side.adjusted(-_CORNER_PX, -_CORNER_PX, _CORNER_PX, _CORNER_PX) for side in reversed(sides)]


def paint_outline_handles(painter: QPainter, over: Over, marks: OutlineMarks) -> None:
    """Draw squares at the corners, bars at the sides, and the chosen corner's round handle with its arc's middle."""
    accent, paper = over.palette.accent, over.palette.paper
    thing = marks.thing
    if thing.corner_radii_mm:
        # What the corners would be without their rounds: by these they are held.
        painter.setPen(pen(Line.HIDDEN, faded(accent, 0.5)))
        painter.drawPolygon(_px(over, [(p.y_mm, p.z_mm) for p in thing.outline]))
    for handle, place in marks.handles_mm.items():
        at = over.to_px(*place)
        is_chosen = handle.held is Held.CORNER and handle.place == marks.chosen
        lit = handle == marks.hovered or is_chosen
        painter.setPen(pen(Line.VISIBLE, accent))
        painter.setBrush(accent if lit else paper)
        half = over.hand_factor * _CORNER_PX / 2
        if handle.held is Held.CORNER:
            painter.drawRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half))
        elif handle.held is Held.SIDE:
            _paint_bar(painter, over, marks, handle.place, at)
        else:
            corner = thing.outline[handle.place]
            painter.drawLine(QLineF(over.to_px(corner.y_mm, corner.z_mm), at))
            painter.drawEllipse(at, half, half)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if marks.typed_text and marks.chosen is not None:
        corner = thing.outline[marks.chosen]
        above = over.to_px(corner.y_mm, corner.z_mm) - QPointF(0.0, over.hand_factor * 1.6 * HANDLE_REACH_PX)
        painter.setFont(over.font)
        text_on_paper(painter, f"radius {marks.typed_text}▏", above, accent, over.palette.label_paper, over.area)


def paint_points(painter: QPainter, over: Over, places: Sequence[tuple[float, float]]) -> None:
    """Draw the points by which a line is pulled."""
    painter.setPen(pen(Line.VISIBLE, over.palette.ink))
    painter.setBrush(over.palette.paper)
    for place in places:
        at = over.to_px(*place)
        half = over.hand_factor * _DOT_PX
        painter.drawRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _paint_bar(painter: QPainter, over: Over, marks: OutlineMarks, place: int, at: QPointF) -> None:
    outline = marks.thing.outline
    start, end = outline[place], outline[(place + 1) % len(outline)]
    along = QLineF(over.to_px(start.y_mm, start.z_mm), over.to_px(end.y_mm, end.z_mm))
    painter.save()
    painter.translate(at)
    painter.rotate(-along.angle())
    size = over.hand_factor * _CORNER_PX
    painter.drawRect(QRectF(-size * 0.9, -size * 0.28, size * 1.8, size * 0.56))
    painter.restore()


def _px(over: Over, places: Sequence[tuple[float, float]]) -> QPolygonF:
    return QPolygonF([over.to_px(*place) for place in places])
