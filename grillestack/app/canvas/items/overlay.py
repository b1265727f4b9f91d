"""What is laid over the sheet in pixels: names, live sizes, handles, snap lines, rubber band and the pointer's tag."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from grillestack.app.canvas.gestures.gesture import Marks
from grillestack.app.canvas.gestures.snap import Axis, SnapLine
from grillestack.app.canvas.items.labels import PlacedLabel, WantedLabel, place_labels
from grillestack.app.canvas.items.live_sizes import LiveSize
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.canvas.items.sheet_words import (
    covered_px2,
    label_size,
    paint_label,
    paint_size,
    size_strip,
    text_on_paper,
)
from grillestack.app.palette import Palette
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_HANDLE_PX = 7.0
_LONGEST_NAME_PX = 190.0
_ALONG_SIDE = (0.36, 0.64, 0.22, 0.78, 0.1, 0.9)

ToPx = Callable[[float, float], QPointF]


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedThing:
    """Something to be named on the sheet: where it is in pixels, its number from the front if it is a part."""

    key: str
    text: str
    around: QRectF
    number: int | None
    selected: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Over:
    """The sheet as an overlay sees it: where sheet coordinates fall, the free area, colours, unit and font.

    `upward` is the axis that runs up the sheet, `hand_factor` by how much larger than for a mouse handles are drawn.
    """

    to_px: ToPx
    area: QRectF
    palette: Palette
    units: UnitSystem
    font: QFont
    upward: Axis = Axis.Z
    hand_factor: float = 1.0


def paint_live_sizes(
    painter: QPainter, over: Over, sizes: Sequence[LiveSize], taken: Sequence[QRectF] = ()
) -> list[QRectF]:
    """Draw the sizes, each off what is written already; return the strips of their texts."""
    painter.setFont(over.font)
    ink, paper = over.palette.accent, over.palette.label_paper
    strips: list[QRectF] = []
    for size in sizes:
        text = show_quantity(size.length_mm, Dimension.LENGTH, over.units)
        a, b = _free_place(over, size, text, (*taken, *strips))
        strips.append(paint_size(painter, a, b, text, ink, paper))
    return strips


def _free_place(over: Over, size: LiveSize, text: str, taken: Sequence[QRectF]) -> tuple[QPointF, QPointF]:
    """Return the ends of a size in pixels: in the middle of its side, or where along it its text stands free."""
    places = [size.beside_mm]
    places += [size.side_from_mm + share * (size.side_to_mm - size.side_from_mm) for share in _ALONG_SIDE]
    first: tuple[QPointF, QPointF] | None = None
    for beside in places:
        if size.axis is Axis.Y:
            ends = over.to_px(size.from_mm, beside), over.to_px(size.to_mm, beside)
        else:
            ends = over.to_px(beside, size.from_mm), over.to_px(beside, size.to_mm)
        first = first or ends
        strip = size_strip(over.font, *ends, text)
        if not any(strip.intersects(other) for other in taken):
            return ends
    return first or (QPointF(), QPointF())


def paint_names(
    painter: QPainter,
    over: Over,
    things: Sequence[NamedThing],
    taken: Sequence[QRectF],
    last_choices: dict[str, int],
) -> tuple[PlacedLabel, ...]:
    """Write all names where they do not collide, each with a leader to what it names; remembers the choices made."""
    painter.setFont(over.font)
    font = over.font.toString()
    texts = {t.key: _elided(font, t.text) for t in things}
    wanted = [WantedLabel(t.key, _label_size(font, texts[t.key], t.number is not None), t.around) for t in things]
    drawing = [t.around for t in things]
    placed = place_labels(wanted, over.area, taken, drawing, last_choices)
    last_choices.clear()
    last_choices.update((label.key, label.choice) for label in placed)
    for thing, label in zip(things, placed, strict=True):
        ink = over.palette.accent if thing.selected else over.palette.faint_ink
        painter.setPen(pen(Line.NARROW, ink))
        painter.drawLine(QLineF(label.leader_from, label.leader_to))
        painter.setBrush(ink)
        if label.leader_from != label.leader_to:
            painter.drawEllipse(label.leader_to, 1.8, 1.8)
        painter.setBrush(Qt.BrushStyle.NoBrush)
    for thing, label in zip(things, placed, strict=True):
        paint_label(painter, label.rect, thing.number, texts[thing.key], over.palette, selected=thing.selected)
    return placed


@functools.lru_cache(maxsize=512)
def _elided(font_words: str, text: str) -> str:
    """Return the name as far as there is room for it; while a part moves the names are the same at each repaint."""
    return QFontMetricsF(_font(font_words)).elidedText(text, Qt.TextElideMode.ElideRight, _LONGEST_NAME_PX)


@functools.lru_cache(maxsize=512)
def _label_size(font_words: str, text: str, numbered: bool) -> QSizeF:  # noqa: FBT001  part of the key
    return label_size(_font(font_words), text, numbered=numbered)


def _font(font_words: str) -> QFont:
    font = QFont()
    font.fromString(font_words)
    return font


def paint_handles(painter: QPainter, over: Over, places_mm: Sequence[tuple[float, float]]) -> None:
    """Draw the places by which an own-size part is pulled."""
    painter.setPen(pen(Line.NARROW, over.palette.accent))
    painter.setBrush(over.palette.paper)
    for place in places_mm:
        at = over.to_px(*place)
        half = _HANDLE_PX * over.hand_factor / 2
        painter.drawRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def paint_marks(
    painter: QPainter, over: Over, marks: Marks, moving: QRectF | None, taken: Sequence[QRectF] = ()
) -> list[QRectF]:
    """Draw snap lines with their names, and the rubber band; `moving` is what is held, in pixels."""
    palette = over.palette
    painter.setFont(over.font)
    strips: list[QRectF] = []
    for line in marks.snaps:
        drawn = _snap_px(over, line, moving)
        snap_pen = pen(Line.CENTRE, palette.accent)
        snap_pen.setWidthF(1.4)
        painter.setPen(snap_pen)
        painter.drawLine(drawn)
        strips += _paint_gaps(painter, over, line)
        middle = _snap_words_place(drawn, QFontMetricsF(over.font), (*taken, *strips), line, over.upward)
        strips.append(text_on_paper(painter, line.words, middle, palette.accent, palette.label_paper, over.area))
    if marks.band is not None:
        band = marks.band
        a = over.to_px(band.across_from_mm, band.z_from_mm)
        b = over.to_px(band.across_to_mm, band.z_to_mm)
        painter.setPen(pen(Line.NARROW, palette.accent))
        painter.setBrush(palette.accent_wash)
        painter.drawRect(QRectF(a, b).normalized())
        painter.setBrush(Qt.BrushStyle.NoBrush)
    return strips


def paint_next_step(painter: QPainter, over: Over, sentence: str, *, alone: bool) -> None:
    """Write the next step: in the middle of an empty sheet, else at the foot of the drawing."""
    font = QFont(over.font)
    if font.pointSizeF() > 0:
        font.setPointSizeF(font.pointSizeF() + 2.0)
    painter.setFont(font)
    painter.setPen(over.palette.ink)
    room = over.area.adjusted(40.0, 40.0, -40.0, -16.0)
    upright = Qt.AlignmentFlag.AlignVCenter if alone else Qt.AlignmentFlag.AlignBottom
    flags = int(Qt.AlignmentFlag.AlignHCenter | upright) | int(Qt.TextFlag.TextWordWrap)
    painter.fillRect(painter.boundingRect(room, flags, sentence).adjusted(-6, -4, 6, 4), over.palette.label_paper)
    painter.drawText(room, flags, sentence)


def paint_vehicle_sides(painter: QPainter, over: Over, left_text: str, right_text: str) -> list[QRectF]:
    """Write at the upper corners which side of the vehicle lies there; pointers lead outwards."""
    painter.setFont(over.font)
    metrics = QFontMetricsF(over.font)
    high = metrics.height() + 4.0
    strips = []
    if metrics.horizontalAdvance(left_text + right_text) + 70.0 > over.area.width():
        left_text, right_text = left_text.split()[-1], right_text.split()[-1]  # a narrow view says RIGHT and LEFT only
    for text, at_left in ((left_text, True), (right_text, False)):
        wide = metrics.horizontalAdvance(text) + 20.0
        x = over.area.left() + 8.0 if at_left else over.area.right() - 8.0 - wide
        rect = QRectF(x, over.area.top() + 5.0, wide, high)
        painter.fillRect(rect.adjusted(-3.0, 0.0, 3.0, 0.0), over.palette.label_paper)  # a photo may lie there
        painter.setPen(over.palette.faint_ink)
        words = rect.adjusted(14.0, 0.0, 0.0, 0.0) if at_left else rect.adjusted(0.0, 0.0, -14.0, 0.0)
        side = Qt.AlignmentFlag.AlignLeft if at_left else Qt.AlignmentFlag.AlignRight
        painter.drawText(words, int(side | Qt.AlignmentFlag.AlignVCenter), text)
        tip = QPointF(rect.left(), rect.center().y()) if at_left else QPointF(rect.right(), rect.center().y())
        back = 8.0 if at_left else -8.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(faded(over.palette.faint_ink, 0.9))
        painter.drawPolygon([tip, tip + QPointF(back, -4.0), tip + QPointF(back, 4.0)])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        strips.append(rect)
    return strips


def paint_focus(painter: QPainter, over: Over) -> None:
    """Draw a frame around the sheet while keys go to it."""
    frame = pen(Line.NARROW, over.palette.accent)
    frame.setWidthF(2.0)
    painter.setPen(frame)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(over.area.adjusted(1.0, 1.0, -1.0, -1.0))


def _paint_gaps(painter: QPainter, over: Over, line: SnapLine) -> list[QRectF]:
    """Draw the rooms that a line makes equal, each with its size."""
    strips = []
    for start, end in line.gaps_mm:
        if line.axis is over.upward:
            a, b = over.to_px(line.beside_mm, start), over.to_px(line.beside_mm, end)
        else:
            a, b = over.to_px(start, line.beside_mm), over.to_px(end, line.beside_mm)
        text = show_quantity(abs(end - start), Dimension.LENGTH, over.units)
        strips.append(paint_size(painter, a, b, text, over.palette.accent, over.palette.label_paper))
    return strips


def _snap_words_place(
    line: QLineF, metrics: QFontMetricsF, taken: Sequence[QRectF], snap: SnapLine, upward: Axis
) -> QPointF:
    """Return where the middle of a snap line's name stands: near an end of the line, off other words."""
    half, up = metrics.horizontalAdvance(snap.words) / 2 + 3.0, metrics.height() * 0.7
    if snap.axis is upward:
        left, right = sorted((line.p1().x(), line.p2().x()))
        y = line.p1().y()
        places = [QPointF(x, y + dy) for dy in (-up, up, -3 * up, 3 * up) for x in (left + half, right - half)]
    else:
        top, bottom = sorted((line.p1().y(), line.p2().y()))
        x = line.p1().x()
        ends = (top + up, bottom - up, top - up, bottom + up)
        places = [QPointF(x + dx, y) for y in ends for dx in (0.0, half + 6.0, -half - 6.0)]
    return min(places, key=lambda place: covered_px2(QRectF(place.x() - half, place.y() - up, 2 * half, 2 * up), taken))


def _snap_px(over: Over, line: SnapLine, moving: QRectF | None) -> QLineF:
    reach = 26.0
    if line.axis is over.upward:
        y = over.to_px(0.0, line.at_mm).y()
        if line.from_mm == line.to_mm:
            return QLineF(over.area.left(), y, over.area.right(), y)
        ends = [over.to_px(line.from_mm, line.at_mm).x(), over.to_px(line.to_mm, line.at_mm).x()]
        if moving is not None:
            ends += [moving.left(), moving.right()]
        return QLineF(min(ends) - reach, y, max(ends) + reach, y)
    x = over.to_px(line.at_mm, 0.0).x()
    if line.from_mm == line.to_mm:
        return QLineF(x, over.area.top(), x, over.area.bottom())
    ends = [over.to_px(line.at_mm, line.from_mm).y(), over.to_px(line.at_mm, line.to_mm).y()]
    if moving is not None:
        ends += [moving.top(), moving.bottom()]
    return QLineF(x, min(ends) - reach, x, max(ends) + reach)
