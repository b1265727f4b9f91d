"""The field at what is held, in which a distance is typed: the way it goes, the figure, and what cannot be read of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from grillestack.app.canvas.gestures.typed_offset import TypedRow
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, pen

_PAD_PX = 8.0
_ROW_PAD_PX = 5.0
_AWAY_PX = 10.0
_LEAST_TEXT_PX = 64.0
_WIDEST_FOOT_PX = 330.0
_FOOT_FLAGS = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop) | int(Qt.TextFlag.TextWordWrap)
_FOOT = "Enter sets it · arrows or Tab turn it · Esc leaves it"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedField:
    """A field with its place fixed, so that other words keep off it before it is painted over them all."""

    rows: tuple[TypedRow, ...]
    rect: QRectF
    row_px: float
    text_px: float
    foot_text: str
    is_trouble: bool


def place_typed_field(over: Over, rows: Sequence[TypedRow], moving: QRectF | None) -> PlacedField | None:
    """Return the field beside what is held, inside the sheet, or nothing while none is open."""
    if not rows:
        return None
    metrics = QFontMetricsF(over.font)
    high = metrics.height() + 2 * _ROW_PAD_PX
    words_px = max(metrics.horizontalAdvance(row.words) for row in rows)
    text_px = max(_LEAST_TEXT_PX, *(metrics.horizontalAdvance(row.text) + 10.0 for row in rows))
    trouble = next((row.trouble_text for row in rows if row.trouble_text), "")
    foot = trouble or _FOOT
    most = over.area.width() - 2 * _PAD_PX - 8.0
    foot_px = min(metrics.horizontalAdvance(foot) + 1.0, _WIDEST_FOOT_PX)
    wide = min(most, max(words_px + text_px + 3 * _PAD_PX, foot_px + 2 * _PAD_PX))
    room = QRectF(0.0, 0.0, wide - 2 * _PAD_PX, 400.0)
    foot_high = metrics.boundingRect(room, _FOOT_FLAGS, foot).height()
    return PlacedField(
        rows=tuple(rows),
        rect=_place(over.area, moving, wide, high * len(rows) + foot_high + _ROW_PAD_PX * 2),
        row_px=high,
        text_px=text_px,
        foot_text=foot,
        is_trouble=bool(trouble),
    )


def paint_typed_field(painter: QPainter, over: Over, field: PlacedField) -> None:
    """Draw the field where it was placed."""
    metrics, palette, rect = QFontMetricsF(over.font), over.palette, field.rect
    painter.setFont(over.font)
    painter.setPen(pen(Line.NARROW, palette.accent))
    painter.setBrush(palette.paper)
    painter.drawRect(rect)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    inner = rect.adjusted(_PAD_PX, 0.0, -_PAD_PX, 0.0)
    for number, row in enumerate(field.rows):
        top = rect.top() + number * field.row_px
        line = QRectF(inner.left(), top + 2.0, inner.width(), field.row_px - 2.0)
        painter.setPen(palette.ink if row.is_chosen else palette.faint_ink)
        painter.drawText(line, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), row.words)
        room = QRectF(inner.right() - field.text_px, top + 4.0, field.text_px, field.row_px - 6.0)
        _paint_text(painter, over, row, room, metrics)
    painter.setPen(palette.warning if field.is_trouble else palette.faint_ink)
    top = rect.top() + field.row_px * len(field.rows) + _ROW_PAD_PX
    painter.drawText(QRectF(inner.left(), top, inner.width(), rect.bottom() - top), _FOOT_FLAGS, field.foot_text)


def _paint_text(painter: QPainter, over: Over, row: TypedRow, room: QRectF, metrics: QFontMetricsF) -> None:
    palette = over.palette
    middle = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    if row.is_chosen:
        painter.fillRect(room, palette.accent_wash)
    painter.setPen(palette.accent if row.is_chosen else palette.faint_ink)
    painter.drawText(room.adjusted(5.0, 0.0, 0.0, 0.0), middle, row.text)
    if row.is_chosen:
        x = room.left() + 6.0 + metrics.horizontalAdvance(row.text[: row.caret])
        painter.drawLine(QLineF(QPointF(x, room.top() + 3.0), QPointF(x, room.bottom() - 3.0)))


def _place(area: QRectF, moving: QRectF | None, wide: float, high: float) -> QRectF:
    """Return the field's place: right over what is held if there is room, else under it, else inside it at its top."""
    if moving is None:
        return QRectF(area.center().x() - wide / 2, area.top() + 40.0, wide, high)
    left = min(max(moving.center().x() - wide / 2, area.left() + 4.0), area.right() - 4.0 - wide)
    top = moving.top() - _AWAY_PX - high
    if top < area.top() + 4.0:
        top = moving.bottom() + _AWAY_PX
    if top + high > area.bottom() - 4.0:
        top = max(area.top() + 4.0, moving.top() + _AWAY_PX)
    return QRectF(left, top, wide, high)
