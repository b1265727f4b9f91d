"""The marks on a photo while they are being set: which there are, which one is in hand, and how they look on the sheet."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter, QPainterPath, QPen, QPolygonF

from grillestack.app.palette import Palette

CORNER_NAMES = ("lower left corner", "lower right corner", "upper right corner", "upper left corner")
POINT_NAMES = ("first point", "second point")
_RING_PX = 8.0
_LOUPE_PX = 132.0
_LOUPE_TIMES = 4.0
_GAP_PX = 26.0
_HALO = QColor(255, 255, 255, 210)


def first_marks(width_px: int, height_px: int, count: int) -> list[QPointF]:
    """Return where the marks begin: around the middle of the photo, in their order."""
    if count == len(POINT_NAMES):
        return [QPointF(width_px * x, height_px / 2) for x in (0.3, 0.7)]
    places = ((0.3, 0.62), (0.7, 0.62), (0.7, 0.38), (0.3, 0.38))
    return [QPointF(width_px * x, height_px * y) for x, y in places]


def paint_marks(painter: QPainter, places: list[QPointF], held: int | None, palette: Palette) -> None:
    """Draw the lines between the marks and a ring with a cross around each; the place itself stays free to be seen."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for pen in (QPen(_HALO, 4.0), QPen(_on_photo(palette), 1.6)):
        painter.setPen(pen)
        if len(places) == len(POINT_NAMES):
            painter.drawLine(places[0], places[1])
        else:
            painter.drawPolygon(QPolygonF(places))
    for number, at in enumerate(places):
        for pen in (QPen(_HALO, 4.5), QPen(_on_photo(palette), 2.6 if number == held else 1.6)):
            painter.setPen(pen)
            painter.drawEllipse(at, _RING_PX, _RING_PX)
            for dx, dy in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)):
                way = QPointF(dx, dy)
                painter.drawLine(at + way * _RING_PX, at + way * (_RING_PX + 5.0))


def paint_mark_names(
    painter: QPainter, places: list[QPointF], names: tuple[str, ...], within: QRectF, palette: Palette
) -> None:
    """Write what each mark is for on a strip of paper, outside the marked thing."""
    metrics = QFontMetricsF(painter.font())
    middle = QPointF(sum(p.x() for p in places) / len(places), sum(p.y() for p in places) / len(places))
    for at, name in zip(places, names, strict=True):
        words = name.removesuffix(" corner")
        rect = QRectF(QPointF(), QSizeF(metrics.horizontalAdvance(words) + 8.0, metrics.height()))
        below = at.y() > middle.y() or len(places) == len(POINT_NAMES)
        rect.moveCenter(QPointF(at.x(), at.y() + (1.0 if below else -1.0) * (_RING_PX + 7.0 + metrics.height() / 2)))
        rect.moveLeft(min(max(rect.left(), within.left()), within.right() - rect.width()))
        rect.moveTop(min(max(rect.top(), within.top()), within.bottom() - rect.height()))
        painter.fillRect(rect, palette.label_paper)
        painter.setPen(palette.ink)
        painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, words)


def paint_loupe(painter: QPainter, photo: QImage, mark_px: QPointF, beside: QPointF, within: QRectF) -> None:
    """Draw the pixels around a mark enlarged, beside the mark and never over it; a thin cross meets in the mark."""
    half = _LOUPE_PX / 2
    left = beside.x() + _GAP_PX + _LOUPE_PX <= within.right()
    x = beside.x() + (_GAP_PX + half if left else -_GAP_PX - half)
    y = min(max(beside.y() - _GAP_PX - half, within.top() + half + 2.0), within.bottom() - half - 2.0)
    middle = QPointF(x, y)
    circle = QPainterPath()
    circle.addEllipse(middle, half, half)
    painter.save()
    painter.setClipPath(circle)
    painter.fillPath(circle, QColor("#808080"))
    painter.translate(middle)
    painter.scale(_LOUPE_TIMES, _LOUPE_TIMES)
    painter.translate(-mark_px)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, on=False)
    reach = half / _LOUPE_TIMES + 2.0
    around = QRectF(mark_px.x() - reach, mark_px.y() - reach, 2 * reach, 2 * reach).toAlignedRect()
    shown = around.intersected(photo.rect())
    painter.drawImage(shown.topLeft(), photo, shown)
    painter.restore()
    for pen in (QPen(_HALO, 3.0), QPen(QColor("#000000"), 1.0)):
        painter.setPen(pen)
        for way in (QPointF(1.0, 0.0), QPointF(0.0, 1.0)):
            painter.drawLine(middle - way * half, middle - way * 5.0)
            painter.drawLine(middle + way * 5.0, middle + way * half)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(_HALO, 4.0))
    painter.drawEllipse(middle, half, half)
    painter.setPen(QPen(QColor("#303030"), 1.5))
    painter.drawEllipse(middle, half, half)


def _on_photo(palette: Palette) -> QColor:
    """Return a colour that stands out from a photo between its white borders, whatever the palette."""
    return palette.accent if palette.accent.lightnessF() < 0.6 else palette.accent.darker(240)
