"""How words and sizes are laid over the sheet: small text on a strip of paper, sizes with arrows after ISO 129-1."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPolygonF

from grillestack.app.canvas.items.pens import Line, pen
from grillestack.app.palette import Palette

_ARROW_PX = 8.0
_ARROW_HALF_PX = 2.4
_BALLOON_PX = 17.0
_PAD_PX = 3.0


def sheet_font(base: QFont, points_less: float = 0.0, *, bold: bool = False) -> QFont:
    """Return the view's font, a little smaller where asked."""
    font = QFont(base)
    if font.pointSizeF() > 0:
        font.setPointSizeF(max(6.5, font.pointSizeF() - points_less))
    font.setBold(bold)
    return font


def text_on_paper(
    painter: QPainter, text: str, middle: QPointF, ink: QColor, paper: QColor, within: QRectF | None = None
) -> QRectF:
    """Write a text around a point on a strip of paper and return the strip."""
    metrics = QFontMetricsF(painter.font())
    rect = QRectF(QPointF(), QSizeF(metrics.horizontalAdvance(text) + 2 * _PAD_PX, metrics.height()))
    rect.moveCenter(middle)
    if within is not None:
        rect.moveLeft(min(max(rect.left(), within.left()), max(within.left(), within.right() - rect.width())))
        rect.moveTop(min(max(rect.top(), within.top()), max(within.top(), within.bottom() - rect.height())))
    painter.fillRect(rect, paper)
    painter.setPen(ink)
    painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, text)
    return rect


def paint_size(painter: QPainter, a: QPointF, b: QPointF, text: str, ink: QColor, paper: QColor) -> QRectF:
    """Draw a size between two points that lie level or upright to each other; return the strip of its text."""
    paint_size_line(painter, a, b, ink)
    return text_on_paper(painter, text, size_strip(painter.font(), a, b, text).center(), ink, paper)


def size_strip(font: QFont, a: QPointF, b: QPointF, text: str) -> QRectF:
    """Return where the text of a size stands: over its middle, or beside it where the size is too short for both."""
    metrics = QFontMetricsF(font)
    level = abs(a.y() - b.y()) < abs(a.x() - b.x())
    strip = QRectF(QPointF(), QSizeF(metrics.horizontalAdvance(text) + 2 * _PAD_PX, metrics.height()))
    middle = (a + b) / 2
    needed = (strip.width() if level else strip.height()) + 2 * _ARROW_PX + 2
    if QLineF(a, b).length() < needed:
        middle += QPointF(0.0, -strip.height() * 0.75) if level else QPointF(strip.width() / 2 + 6.0, 0.0)
    strip.moveCenter(middle)
    return strip


def paint_size_line(painter: QPainter, a: QPointF, b: QPointF, ink: QColor) -> None:
    """Draw a size without its text."""
    line = QLineF(a, b)
    length = line.length()
    painter.setPen(pen(Line.NARROW, ink))
    step = QPointF(line.dx() / length, line.dy() / length) if length > 0 else QPointF(1.0, 0.0)
    if length >= 2 * _ARROW_PX + 2:
        painter.drawLine(line)
        _arrow(painter, a, step * -1.0, ink)
        _arrow(painter, b, step, ink)
    else:
        # Too short for arrows inside: they point from outside, as on any drawing.
        painter.drawLine(QLineF(a - step * 2 * _ARROW_PX, b + step * 2 * _ARROW_PX))
        _arrow(painter, a, step, ink)
        _arrow(painter, b, step * -1.0, ink)
    across = QPointF(-step.y(), step.x()) * 5.0
    for end in (a, b):
        painter.drawLine(QLineF(end - across, end + across))


def covered_px2(strip: QRectF, taken: Sequence[QRectF]) -> float:
    """Return how much of other words a strip would cover, in square pixels."""
    shared = (strip.intersected(other) for other in taken)
    return sum(common.width() * common.height() for common in shared if not common.isEmpty())


def _arrow(painter: QPainter, tip: QPointF, way: QPointF, ink: QColor) -> None:
    tail = tip - way * _ARROW_PX
    wing = QPointF(-way.y(), way.x()) * _ARROW_HALF_PX
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawPolygon(QPolygonF([tip, tail + wing, tail - wing]))
    painter.restore()


def label_size(font: QFont, text: str, *, numbered: bool) -> QSizeF:
    """Return the room a name needs, with or without a number before it."""
    metrics = QFontMetricsF(font)
    high = max(_BALLOON_PX, metrics.height()) if numbered else metrics.height()
    before = _BALLOON_PX + 4.0 if numbered else _PAD_PX
    return QSizeF(before + metrics.horizontalAdvance(text) + _PAD_PX, high + 1.0)


def paint_label(
    painter: QPainter, rect: QRectF, number: int | None, text: str, palette: Palette, *, selected: bool
) -> None:
    """Write a name, for a part with its number from the front in a ring."""
    painter.fillRect(rect, palette.label_paper)
    words = QRectF(rect)
    if number is not None:
        middle = QPointF(rect.left() + _BALLOON_PX / 2, rect.center().y())
        paint_balloon(painter, middle, number, palette, selected=selected)
        words.setLeft(rect.left() + _BALLOON_PX + 4.0)
    else:
        words.setLeft(rect.left() + _PAD_PX)
    plain = palette.ink if number is not None else palette.faint_ink
    painter.setPen(palette.accent if selected else plain)
    painter.drawText(words, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), text)


def paint_balloon(painter: QPainter, middle: QPointF, number: int, palette: Palette, *, selected: bool) -> None:
    """Draw a part's number in a ring, as part references stand on an assembly drawing."""
    ink = palette.accent if selected else palette.ink
    radius = (_BALLOON_PX - 1.0) / 2
    painter.setPen(pen(Line.NARROW, ink))
    painter.setBrush(ink if selected else palette.paper)
    painter.drawEllipse(middle, radius, radius)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(palette.paper if selected else ink)
    box = QRectF(middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius)
    painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), str(number))
