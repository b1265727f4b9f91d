"""What a drag changes, told at the pointer: exposed face, effective face, hottest day, from where it began."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from grillestack.app.palette import Palette
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import NOT_KNOWN, show_quantity

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment

_OFFSET_PX = 18.0
_PAD_PX = 8.0
_BETWEEN_PX = 12.0
_OVER_WORDS = 0.25
# Below these a change of the model's figures means nothing: its own iterations stop there.
_LEAST_CHANGE = {Dimension.AREA: 100.0, Dimension.TEMPERATURE_DIFFERENCE: 0.05}  # mm², K


@dataclass(frozen=True, slots=True)
class TagLine:
    """One figure at the pointer: its name, what it is now, and by how much it has changed."""

    words: str
    now_text: str
    change_text: str


def tag_lines(base: Assessment | None, now: Assessment | None, units: UnitSystem) -> tuple[TagLine, ...]:
    """Return the three figures that a drag is judged by; what is not known says so."""
    old_face, new_face = (a.radiator if a is not None else None for a in (base, now))
    old_case, new_case = (a.deciding_case if a is not None else None for a in (base, now))
    return (
        _line(
            "exposed face",
            old_face.exposed_mm2 if old_face else None,
            new_face.exposed_mm2 if new_face else None,
            (Dimension.AREA, Dimension.AREA),
            units,
        ),
        _line(
            "effective face",
            old_face.effective_mm2 if old_face else None,
            new_face.effective_mm2 if new_face else None,
            (Dimension.AREA, Dimension.AREA),
            units,
        ),
        _line(
            "hottest day",
            old_case.limiting_ambient_degc if old_case else None,
            new_case.limiting_ambient_degc if new_case else None,
            (Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE),
            units,
        ),
    )


def _line(
    words: str,
    old: float | None,
    new: float | None,
    dimensions: tuple[Dimension, Dimension],
    units: UnitSystem,
) -> TagLine:
    if new is None:
        return TagLine(words, NOT_KNOWN, "")
    shown = show_quantity(new, dimensions[0], units)
    if old is None:
        return TagLine(words, shown, "")
    change = show_quantity(abs(new - old), dimensions[1], units)
    if change == show_quantity(0.0, dimensions[1], units):
        return TagLine(words, shown, "no change")
    if abs(new - old) < _LEAST_CHANGE[dimensions[1]]:
        return TagLine(words, shown, "hardly any")
    return TagLine(words, shown, f"+{change}" if new > old else f"−{change}")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedTag:
    """A tag with its place fixed: columns and rows are known before anything is painted."""

    heading: str
    lines: tuple[TagLine, ...]
    rect: QRectF
    row_px: float
    words_px: float
    now_px: float
    change_px: float


def place_tag(
    font: QFont,
    heading: str,
    lines: tuple[TagLine, ...],
    pointer: QPointF,
    within: QRectF,
    keep_off: Sequence[QRectF],
    words: Sequence[QRectF] = (),
) -> PlacedTag:
    """Return the tag near the pointer, inside the view and off what it should not cover, the first of that most of all.

    Of the places that are left it takes one off these `words`.
    """
    metrics, strong = QFontMetricsF(font), QFontMetricsF(_bold(font))
    columns = _columns(lines, metrics, strong)
    if sum(columns) + 2 * _BETWEEN_PX + 2 * _PAD_PX > within.width():
        # A narrow view has room for the changes only.
        lines = tuple(TagLine(line.words, "", line.change_text or line.now_text) for line in lines)
        columns = _columns(lines, metrics, strong)
    words_px, now_px, change_px = columns
    row = metrics.height() + 3.0
    table_px = sum(columns) + (_BETWEEN_PX * (2 if now_px else 1) if lines else 0.0)
    heading = strong.elidedText(heading, Qt.TextElideMode.ElideRight, within.width() - 2 * _PAD_PX)
    wide = max(table_px, strong.horizontalAdvance(heading)) + 2 * _PAD_PX
    high = row * (len(lines) + 1) + 2 * _PAD_PX - 3.0
    return PlacedTag(
        heading=heading,
        lines=lines,
        rect=_beside(QSizeF(wide, high), pointer, within, keep_off, words),
        row_px=row,
        words_px=words_px,
        now_px=now_px,
        change_px=change_px,
    )


def _columns(lines: Sequence[TagLine], metrics: QFontMetricsF, strong: QFontMetricsF) -> tuple[float, float, float]:
    return (
        max((metrics.horizontalAdvance(line.words) for line in lines), default=0.0),
        max((metrics.horizontalAdvance(line.now_text) for line in lines), default=0.0),
        max((strong.horizontalAdvance(line.change_text) for line in lines), default=0.0),
    )


def paint_tag(painter: QPainter, tag: PlacedTag, palette: Palette) -> None:
    """Draw the tag where it was placed."""
    plain, bold = painter.font(), _bold(painter.font())
    rect, high = tag.rect, tag.row_px - 3.0
    painter.fillRect(rect, palette.tag_paper)
    painter.setPen(palette.tag_ink)
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    x, y = rect.left() + _PAD_PX, rect.top() + _PAD_PX
    painter.setFont(bold)
    painter.drawText(QRectF(x, y, rect.width(), high), left, tag.heading)
    for line in tag.lines:
        y += tag.row_px
        painter.setFont(plain)
        painter.drawText(QRectF(x, y, tag.words_px, high), left, line.words)
        painter.drawText(QRectF(x + tag.words_px + _BETWEEN_PX, y, tag.now_px, high), right, line.now_text)
        painter.setFont(bold)
        change = QRectF(rect.right() - _PAD_PX - tag.change_px, y, tag.change_px, high)
        painter.drawText(change, right, line.change_text)
    painter.setFont(plain)


def _bold(font: QFont) -> QFont:
    bold = QFont(font)
    bold.setBold(True)
    return bold


def _beside(
    size: QSizeF, pointer: QPointF, within: QRectF, keep_off: Sequence[QRectF], words: Sequence[QRectF]
) -> QRectF:
    wide, high = size.width(), size.height()
    xs = [pointer.x() + _OFFSET_PX, pointer.x() - _OFFSET_PX - wide, pointer.x() - wide / 2]
    ys = [pointer.y() + _OFFSET_PX, pointer.y() - _OFFSET_PX - high]
    for rect in keep_off:
        xs += [rect.right() + _OFFSET_PX, rect.left() - _OFFSET_PX - wide]
        ys += [rect.bottom() + _OFFSET_PX, rect.top() - _OFFSET_PX - high]
    best, cost_of_best = QRectF(), float("inf")
    for x in xs:
        for y in ys:
            left = min(max(x, within.left()), max(within.left(), within.right() - wide))
            top = min(max(y, within.top()), max(within.top(), within.bottom() - high))
            rect = QRectF(left, top, wide, high)
            away = (rect.center() - pointer).manhattanLength()
            # A tag that hides the pointer hides what the hand is doing.
            over = 4.0 if rect.adjusted(-6.0, -6.0, 6.0, 6.0).contains(pointer) else 0.0
            for number, other in enumerate(keep_off):
                common = rect.intersected(other)
                over += max(0.0, common.width() * common.height()) / (wide * high) * (1.5 if number == 0 else 0.8)
            over += _OVER_WORDS * sum(rect.intersects(other) for other in words)
            cost = away + over * 300.0
            if cost < cost_of_best:
                best, cost_of_best = rect, cost
    return best
