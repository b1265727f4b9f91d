"""What the shades of the painted face mean, and how much of the face each takes: a strip under the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from grillestack.app.canvas.items.face_item import Met, paint_met, swatch
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette

_SWATCH_PX = 14.0
_BETWEEN_PX = 16.0
_MARGIN_PX = 10.0


@dataclass(frozen=True, slots=True)
class LegendEntry:
    """One shade: what it stands for, in words, and its area as shown."""

    met: Met
    words: str
    area_text: str

    @property
    def text(self) -> str:
        """Return words and area in one line."""
        return f"{self.words}  {self.area_text}"


@dataclass(frozen=True, slots=True)
class Legend:
    """The heading and the entries in reading order."""

    title: str
    entries: tuple[LegendEntry, ...]


def legend_height_px(legend: Legend | None, font: QFont, width_px: float) -> float:
    """Return the height that the legend takes at this width; nothing without a face."""
    if legend is None or not legend.entries:
        return 0.0
    rows = _rows(legend, font, width_px)
    return _row_px(font) * (len(rows) + 1) + 10.0


def paint_legend(painter: QPainter, legend: Legend, strip: QRectF, palette: Palette, font: QFont) -> None:
    """Draw the legend into its strip."""
    painter.fillRect(strip, palette.label_paper)
    row_px = _row_px(font)
    bold = QFont(font)
    bold.setBold(True)
    painter.setFont(bold)
    painter.setPen(palette.ink)
    y = strip.top() + 4.0
    title = QRectF(strip.left() + _MARGIN_PX, y, strip.width() - 2 * _MARGIN_PX, row_px)
    words = QFontMetricsF(bold).elidedText(legend.title, Qt.TextElideMode.ElideRight, title.width())
    painter.drawText(title, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), words)
    painter.setFont(font)
    metrics = QFontMetricsF(font)
    for row in _rows(legend, font, strip.width()):
        y += row_px
        x = strip.left() + _MARGIN_PX
        for entry in row:
            # A swatch starts on whole pixels, so that equal hatches look equal.
            sample = QRectF(round(x), round(y + (row_px - _SWATCH_PX) / 2), _SWATCH_PX + 8.0, _SWATCH_PX)
            painter.save()
            painter.setClipRect(sample)
            paint_met(painter, swatch(sample), entry.met, palette)
            painter.restore()
            painter.setPen(pen(Line.NARROW, faded(palette.ink, 0.6)))
            painter.drawRect(sample)
            painter.setPen(palette.ink)
            at = QPointF(sample.right() + 5.0, y + (row_px + metrics.ascent() - metrics.descent()) / 2)
            painter.drawText(at, entry.text)
            x += _entry_px(entry, metrics)


def _rows(legend: Legend, font: QFont, width_px: float) -> list[list[LegendEntry]]:
    metrics = QFontMetricsF(font)
    rows: list[list[LegendEntry]] = [[]]
    used = _MARGIN_PX
    for entry in legend.entries:
        wide = _entry_px(entry, metrics)
        if rows[-1] and used + wide - _BETWEEN_PX > width_px - _MARGIN_PX:
            rows.append([])
            used = _MARGIN_PX
        rows[-1].append(entry)
        used += wide
    return rows


def _entry_px(entry: LegendEntry, metrics: QFontMetricsF) -> float:
    return _SWATCH_PX + 8.0 + 5.0 + metrics.horizontalAdvance(entry.text) + _BETWEEN_PX


def _row_px(font: QFont) -> float:
    return max(_SWATCH_PX + 5.0, QFontMetricsF(font).height() + 3.0)
