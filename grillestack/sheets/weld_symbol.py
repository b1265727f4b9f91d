"""Weld symbols on paper: arrow line, reference line, fillet or groove, size and length, after ISO 2553 or AWS A2.4."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from grillestack.model.sheet_choices import WeldSymbols
from grillestack.sheets.dimension_marks import arrow_head
from grillestack.sheets.draw_list import (
    HIDDEN,
    THIN,
    Across,
    Circle,
    Fill,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Upright,
)
from grillestack.sheets.lettering import text_width_mm


class Weld(enum.Enum):
    """Which weld."""

    FILLET = "fillet"
    SQUARE = "square butt"
    PLUG = "plug"


@dataclass(frozen=True, slots=True, kw_only=True)
class WeldNote:
    """One weld symbol: where its arrow points, where its reference line begins, what it asks for.

    The size is the throat "a" or the leg "z" in ISO 2553 (the text says which) and the leg in AWS A2.4.
    """

    tip: Point
    elbow: Point
    weld: Weld
    size_text: str = ""
    length_text: str = ""
    tail_text: str = ""
    both_sides: bool = False
    all_round: bool = False
    height_mm: float = 2.5


def weld_marks(note: WeldNote, standard: WeldSymbols) -> tuple[Mark, ...]:
    """Return the marks of a weld symbol; the reference line runs to the right from its elbow.

    ISO 2553 system A: a weld on the arrow side stands on the continuous reference line, and a dashed line runs beside it
    unless the weld is on both sides. AWS A2.4: one line only, the arrow side below it. Both from memory.
    """
    height = note.height_mm
    is_iso = standard is WeldSymbols.ISO_2553
    x, y = note.elbow.x_mm, note.elbow.y_mm
    pad = 0.5 * height
    size_width = text_width_mm(note.size_text, height)
    symbol_x = x + 2 * pad + size_width + pad
    length_x = symbol_x + height * 1.2 + pad
    end = Point(length_x + text_width_mm(note.length_text, height) + 2 * pad, y)
    marks: list[Mark] = [
        Polyline(points=(note.tip, note.elbow, end), stroke=THIN, layer=Layer.WELD),
        Fill(points=_head(note), layer=Layer.WELD),
    ]
    sides = (1, -1) if note.both_sides else ((1,) if is_iso else (-1,))
    for side in sides:
        marks += _symbol(note.weld, Point(symbol_x, y), height * 1.2, side)
        middle = y + side * height * 0.95
        marks += [_text(note.size_text, Point(x + 2 * pad, middle), height)] if note.size_text else []
        marks += [_text(note.length_text, Point(length_x, middle), height)] if note.length_text else []
    if is_iso and not note.both_sides:
        below = y - 0.5 * height
        marks.append(Line(start=Point(x, below), end=Point(end.x_mm, below), stroke=HIDDEN, layer=Layer.WELD))
    if note.all_round:
        marks.append(Circle(centre=note.elbow, radius_mm=0.5 * height, stroke=THIN, layer=Layer.WELD))
    if note.tail_text:
        for side in (1, -1):
            tail = Point(end.x_mm + 0.8 * height, y + side * 0.8 * height)
            marks.append(Line(start=end, end=tail, stroke=THIN, layer=Layer.WELD))
        marks.append(_text(note.tail_text, Point(end.x_mm + 1.2 * height, y), height))
    return tuple(marks)


def weld_width_mm(note: WeldNote) -> float:
    """Return how far a weld symbol reaches to the right of its elbow."""
    height = note.height_mm
    width = height * 3.7 + text_width_mm(note.size_text, height) + text_width_mm(note.length_text, height)
    return width + (1.2 * height + text_width_mm(note.tail_text, height) if note.tail_text else 0.0)


def _symbol(weld: Weld, at: Point, size_mm: float, side: int) -> list[Mark]:
    x, y = at.x_mm, at.y_mm
    tip = y + side * size_mm
    if weld is Weld.FILLET:
        corners: tuple[tuple[float, float], ...] = ((x, y), (x, tip), (x + size_mm, y))
    elif weld is Weld.PLUG:
        corners = ((x, y), (x, tip), (x + size_mm, tip), (x + size_mm, y))
    else:
        return [
            Line(start=Point(x + across, y), end=Point(x + across, tip), stroke=THIN, layer=Layer.WELD)
            for across in (0.3 * size_mm, 0.7 * size_mm)
        ]
    return [Polyline(points=tuple(Point(*c) for c in corners), stroke=THIN, layer=Layer.WELD)]


def _head(note: WeldNote) -> tuple[Point, ...]:
    dx, dy = note.tip.x_mm - note.elbow.x_mm, note.tip.y_mm - note.elbow.y_mm
    return arrow_head(note.tip, Point(note.tip.x_mm - dx, note.tip.y_mm - dy), note.height_mm).points


def _text(text: str, at: Point, height_mm: float) -> Text:
    return Text(at=at, text=text, height_mm=height_mm, across=Across.LEFT, upright=Upright.MIDDLE, layer=Layer.WELD)
