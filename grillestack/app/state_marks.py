"""How a locked and a hidden part are marked, on the sheets and in the list alike."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen


def paint_lock(painter: QPainter, rect: QRectF, ink: QColor) -> None:
    """Draw a lock in this square: a filled body under a bow."""
    painter.save()
    body = QRectF(rect.left() + rect.width() * 0.14, rect.center().y(), rect.width() * 0.72, rect.height() * 0.48)
    bow = QPainterPath(QPointF(body.left() + body.width() * 0.2, body.top()))
    high = body.top() - rect.top() - 0.5
    bow.cubicTo(
        QPointF(body.left() + body.width() * 0.2, body.top() - high * 1.3),
        QPointF(body.right() - body.width() * 0.2, body.top() - high * 1.3),
        QPointF(body.right() - body.width() * 0.2, body.top()),
    )
    painter.setPen(QPen(ink, max(1.2, rect.width() / 9)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(bow)
    painter.fillRect(body, ink)
    painter.restore()


def paint_veil(painter: QPainter, rect: QRectF, ink: QColor) -> None:
    """Draw the mark of a part that is not drawn: a dashed frame with a line through it."""
    painter.save()
    frame = rect.adjusted(rect.width() * 0.06, rect.height() * 0.2, -rect.width() * 0.06, -rect.height() * 0.2)
    dashed = QPen(ink, 1.2)
    dashed.setDashPattern([2.2, 1.8])
    painter.setPen(dashed)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(frame)
    painter.setPen(QPen(ink, 1.4))
    painter.drawLine(rect.bottomLeft(), rect.topRight())
    painter.restore()
