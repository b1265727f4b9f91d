"""What the shades or colours of the painted face mean: a strip under the drawing."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from grillestack.app.canvas.items.air_item import Measured, colour_of, paint_forward, paint_without_air
from grillestack.app.canvas.items.face_item import Met, paint_met, swatch
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.units.scale_marks import ScaleMark

_SWATCH_PX = 14.0
_BETWEEN_PX = 16.0
_MARGIN_PX = 10.0
_BAR_PX = 11.0
_WIDEST_BAR_PX = 420.0


class AirSample(enum.Enum):
    """What is marked on a face of measured air besides the colours."""

    WITHOUT = "no air"
    FORWARD = "from behind"


@dataclass(frozen=True, slots=True)
class ColourBar:
    """The colours of a measured value with the figures along them, and their unit."""

    measured: Measured
    marks: tuple[ScaleMark, ...]
    unit: str


@dataclass(frozen=True, slots=True)
class LegendEntry:
    """One shade: what it stands for, in words, and its area as shown."""

    met: Met | AirSample
    words: str
    area_text: str

    @property
    def text(self) -> str:
        """Return words and area in one line."""
        return f"{self.words}  {self.area_text}".rstrip()


@dataclass(frozen=True, slots=True)
class Legend:
    """The heading, the entries in reading order, and a bar of colours where values are measured.

    `title_rest` is written after the title where there is room for all of it; a message is a title that says why nothing is
    painted.
    """

    title: str
    entries: tuple[LegendEntry, ...]
    bar: ColourBar | None = None
    title_rest: str = ""
    is_message: bool = False


def legend_height_px(legend: Legend | None, font: QFont, width_px: float, kept_free_px: float = 0.0) -> float:
    """Return the height that the legend takes at this width; nothing without a face.

    What is kept free at the right end of the first row pushes a title that has no room beside it into a row of its own.
    """
    if legend is None or not (legend.entries or legend.bar or legend.is_message):
        return 0.0
    rows_px = legend_row_px(font) * (1 if _title_fits(legend, font, width_px, kept_free_px) else 2)
    if legend.bar is not None:
        return rows_px + _bar_row_px(font) + 10.0
    return rows_px + legend_row_px(font) * len(_rows(legend, font, width_px)) + 10.0


def paint_legend(
    painter: QPainter, legend: Legend, strip: QRectF, palette: Palette, font: QFont, kept_free_px: float = 0.0
) -> None:
    """Draw the legend into its strip; the title keeps off what stands at the right end of its row."""
    painter.fillRect(strip, palette.label_paper)
    row_px = legend_row_px(font)
    bold = QFont(font)
    bold.setBold(True)
    painter.setFont(bold)
    painter.setPen(palette.ink)
    y = strip.top() + 4.0
    if not _title_fits(legend, font, strip.width(), kept_free_px):
        y, kept_free_px = y + row_px, 0.0
    title = QRectF(strip.left() + _MARGIN_PX, y, strip.width() - 2 * _MARGIN_PX - kept_free_px, row_px)
    strong = QFontMetricsF(bold)
    words = legend.title + legend.title_rest
    if strong.horizontalAdvance(words) > title.width():
        words = strong.elidedText(legend.title, Qt.TextElideMode.ElideRight, title.width())
    painter.drawText(title, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), words)
    painter.setFont(font)
    if legend.bar is not None:
        under = QRectF(strip.left() + _MARGIN_PX, y + row_px + 3.0, strip.width(), _bar_row_px(font))
        x = _paint_bar(painter, legend.bar, under, palette)
        _paint_row(painter, legend.entries, QPointF(x, under.top()), palette, font)
        return
    for row in _rows(legend, font, strip.width()):
        y += row_px
        _paint_row(painter, row, QPointF(strip.left() + _MARGIN_PX, y), palette, font)


def _paint_row(painter: QPainter, row: Sequence[LegendEntry], at: QPointF, palette: Palette, font: QFont) -> None:
    metrics, row_px = QFontMetricsF(font), legend_row_px(font)
    x, y = at.x(), at.y()
    for entry in row:
        # A swatch starts on whole pixels, so that equal hatches look equal.
        sample = QRectF(round(x), round(y + (row_px - _SWATCH_PX) / 2), _SWATCH_PX + 8.0, _SWATCH_PX)
        painter.save()
        painter.setClipRect(sample)
        _paint_sample(painter, sample, entry.met, palette)
        painter.restore()
        painter.setPen(pen(Line.NARROW, faded(palette.ink, 0.6)))
        painter.drawRect(sample)
        painter.setPen(palette.ink)
        foot = QPointF(sample.right() + 5.0, y + (row_px + metrics.ascent() - metrics.descent()) / 2)
        painter.drawText(foot, entry.text)
        x += _entry_px(entry, metrics)


def _paint_sample(painter: QPainter, sample: QRectF, met: Met | AirSample, palette: Palette) -> None:
    path = swatch(sample)
    if isinstance(met, Met):
        paint_met(painter, path, met, palette)
    elif met is AirSample.WITHOUT:
        paint_without_air(painter, path, palette)
    else:
        painter.fillPath(path, palette.paper)
        paint_forward(painter, path, palette)


def _paint_bar(painter: QPainter, bar: ColourBar, row: QRectF, palette: Palette) -> float:
    """Draw the bar with its figures under it; return where the row is free again."""
    metrics = QFontMetricsF(painter.font())
    high = metrics.height()
    first, last = (metrics.horizontalAdvance(bar.marks[place].text) / 2 for place in (0, -1))
    unit_px = metrics.horizontalAdvance(bar.unit) + 10.0
    wide = round(min(_WIDEST_BAR_PX, row.width() * 0.55))
    left, top = round(row.left() + max(0.0, first - 4.0)), round(row.top())
    bar_px = _BAR_PX
    for px in range(wide):
        painter.fillRect(QRectF(left + px, top, 1.0, bar_px), colour_of(bar.measured, px / (wide - 1), palette))
    painter.setPen(pen(Line.NARROW, faded(palette.ink, 0.6)))
    painter.drawRect(QRectF(left, top, wide, bar_px))
    painter.setPen(palette.ink)
    for mark in bar.marks:
        x = left + mark.place_frac * wide
        painter.drawLine(QLineF(x, top, x, top + bar_px + 2.0))
        box = QRectF(x - 40.0, top + bar_px + 0.5, 80.0, high)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop), mark.text)
    unit = QRectF(left + wide + last + 5.0, top + bar_px + 0.5, unit_px, high)
    painter.drawText(unit, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop), bar.unit)
    return left + wide + last + unit_px + _BETWEEN_PX


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


def _title_fits(legend: Legend, font: QFont, width_px: float, kept_free_px: float) -> bool:
    bold = QFont(font)
    bold.setBold(True)
    room_px = width_px - 2 * _MARGIN_PX - kept_free_px
    return kept_free_px == 0.0 or QFontMetricsF(bold).horizontalAdvance(legend.title) <= room_px


def _bar_row_px(font: QFont) -> float:
    return _BAR_PX + QFontMetricsF(font).height() + 3.0


def legend_row_px(font: QFont) -> float:
    """Return the height of one row of the legend."""
    return max(_SWATCH_PX + 5.0, QFontMetricsF(font).height() + 3.0)
