"""Notes in words, numbered and broken to a width, in columns over the areas that are free."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.sheets.draw_list import Layer, Mark, Point, Text
from grillestack.sheets.lettering import lines_of
from grillestack.sheets.paper import Area

_PITCH_FRAC, _BETWEEN_FRAC, _INDENT_FRAC = 1.55, 0.6, 2.2
_GUTTER_MM = 6.0
# Shorter lines are torn, longer ones hard to follow.
_LEAST_WIDTH_MM, _MOST_WIDTH_MM = 56.0, 110.0


def note_block(notes: Sequence[str], areas: Sequence[Area], text_mm: float) -> tuple[Mark, ...] | None:
    """Return the notes, one column after the other as each is full, or nothing if the areas do not hold them all.

    The areas must not overlap each other.
    """
    marks: list[Mark] = []
    left = list(enumerate(notes, start=1))
    for column in (column for area in areas for column in _columns(area)):
        y = column.y1_mm - text_mm
        while left:
            number, note = left[0]
            lines = lines_of(note, text_mm, column.width_mm - _INDENT_FRAC * text_mm)
            last = y - (len(lines) - 1) * _PITCH_FRAC * text_mm
            if last < column.y0_mm:
                break
            marks += _marks(number, lines, Point(column.x0_mm, y), text_mm)
            y = last - (_PITCH_FRAC + _BETWEEN_FRAC) * text_mm
            left.pop(0)
        if not left:
            return tuple(marks)
    return None


def _columns(area: Area) -> Iterator[Area]:
    count = 1
    while (area.width_mm - (count - 1) * _GUTTER_MM) / count > _MOST_WIDTH_MM:
        count += 1
    width = (area.width_mm - (count - 1) * _GUTTER_MM) / count
    if width < _LEAST_WIDTH_MM or area.height_mm <= 0:
        return
    for place in range(count):
        x = area.x0_mm + place * (width + _GUTTER_MM)
        yield Area(x, area.y0_mm, x + width, area.y1_mm)


def _marks(number: int, lines: Sequence[str], at: Point, text_mm: float) -> Iterator[Text]:
    yield Text(at=at, text=f"{number}", height_mm=text_mm, layer=Layer.NOTE)
    for place, line in enumerate(lines):
        down = place * _PITCH_FRAC * text_mm
        here = Point(at.x_mm + _INDENT_FRAC * text_mm, at.y_mm - down)
        yield Text(at=here, text=line, height_mm=text_mm, layer=Layer.NOTE)
