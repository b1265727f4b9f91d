"""Notes in words, numbered and broken to a width, in one or two columns of an area."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.sheets.draw_list import Layer, Mark, Point, Text
from grillestack.sheets.lettering import lines_of
from grillestack.sheets.paper import Area

_PITCH_FRAC, _BETWEEN_FRAC, _INDENT_FRAC = 1.55, 0.5, 2.2
_GUTTER_MM = 6.0
_LEAST_WIDTH_MM = 48.0
# Longer lines are hard to follow.
_MOST_WIDTH_MM = 125.0


def note_block(notes: Sequence[str], area: Area, text_mm: float) -> tuple[Mark, ...] | None:
    """Return the notes at the top of the area, or nothing if they do not fit."""
    for columns in (1, 2):
        width = min((area.width_mm - (columns - 1) * _GUTTER_MM) / columns, _MOST_WIDTH_MM)
        if width < _LEAST_WIDTH_MM:
            return None
        blocks = [_broken(note, place, text_mm, width) for place, note in enumerate(notes, start=1)]
        for cut in range(len(blocks), 0, -1) if columns == 2 else (len(blocks),):
            parts = (blocks[:cut], blocks[cut:])
            if all(_height(part, text_mm) <= area.height_mm for part in parts):
                return tuple(
                    mark
                    for column, part in enumerate(parts)
                    for mark in _marks(part, area.x0_mm + column * (width + _GUTTER_MM), area.y1_mm, text_mm)
                )
    return None


def _broken(note: str, number: int, text_mm: float, width_mm: float) -> tuple[str, tuple[str, ...]]:
    return f"{number}", lines_of(note, text_mm, width_mm - _INDENT_FRAC * text_mm)


def _height(blocks: Sequence[tuple[str, tuple[str, ...]]], text_mm: float) -> float:
    lines = sum(len(lines) for _, lines in blocks)
    return (lines * _PITCH_FRAC + max(len(blocks) - 1, 0) * _BETWEEN_FRAC) * text_mm


def _marks(blocks: Sequence[tuple[str, tuple[str, ...]]], x_mm: float, y1_mm: float, text_mm: float) -> list[Mark]:
    marks: list[Mark] = []
    y = y1_mm - text_mm
    for number, lines in blocks:
        marks.append(Text(at=Point(x_mm, y), text=number, height_mm=text_mm, layer=Layer.NOTE))
        for line in lines:
            at = Point(x_mm + _INDENT_FRAC * text_mm, y)
            marks.append(Text(at=at, text=line, height_mm=text_mm, layer=Layer.NOTE))
            y -= _PITCH_FRAC * text_mm
        y -= _BETWEEN_FRAC * text_mm
    return marks
