"""Marks of parts that are locked or hidden: a small lock in the corner of the outline, a note of how many are not drawn."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, pen
from grillestack.app.state_marks import paint_lock, paint_veil
from grillestack.model.parts import Part

_LOCK_PX = 12.0
_INSET_PX = 5.0


def is_seen_locked(part: Part) -> bool:
    """Return whether the part is locked and drawn."""
    return part.locked and not part.hidden


def paint_locks(painter: QPainter, over: Over, outlines_px: Sequence[QRectF]) -> None:
    """Draw a lock inside the lower left corner of each outline, as far as it is in sight."""
    for outline in outlines_px:
        seen = outline.intersected(over.area)
        if seen.width() < 2 * _LOCK_PX or seen.height() < 2 * _LOCK_PX:
            continue
        at = QRectF(seen.left() + _INSET_PX, seen.bottom() - _INSET_PX - _LOCK_PX, _LOCK_PX, _LOCK_PX)
        painter.fillRect(at.adjusted(-3.0, -3.0, 3.0, 3.0), over.palette.label_paper)
        paint_lock(painter, at, over.palette.ink)


def paint_hidden_note(painter: QPainter, over: Over, words: str) -> list[QRectF]:
    """Write at the lower left how many parts are not drawn; return the strip it takes, or none."""
    if not words:
        return []
    painter.setFont(over.font)
    metrics = QFontMetricsF(over.font)
    high = metrics.height() + 6.0
    rect = QRectF(
        over.area.left() + 8.0, over.area.bottom() - 6.0 - high, metrics.horizontalAdvance(words) + high + 14.0, high
    )
    painter.fillRect(rect, over.palette.label_paper)
    painter.setPen(pen(Line.NARROW, over.palette.faint_ink))
    painter.drawRect(rect)
    paint_veil(painter, QRectF(rect.left() + 5.0, rect.top() + 3.0, high - 6.0, high - 6.0), over.palette.ink)
    painter.setPen(over.palette.ink)
    side = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    painter.drawText(rect.adjusted(high + 6.0, 0.0, 0.0, 0.0), side, words)
    return [rect]
