"""Tables on paper: columns as wide as they need to be, rows broken into lines, continued where an area is full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from grillestack.sheets.draw_list import THIN, Across, Layer, Line, Mark, Point, Polyline, Text
from grillestack.sheets.lettering import lines_of, text_width_mm
from grillestack.sheets.paper import Area

_PITCH_FRAC, _PAD_FRAC, _TITLE_FRAC, _BETWEEN_FRAC = 1.5, 0.55, 2.4, 2.0
# A longer word may be cut, in heights of the text.
_LONGEST_WORD_FRAC = 18.0
_ROUNDING_MM = 0.001
_LEAST_ROWS, _TOGETHER_ROWS = 4, 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: its title, the heads of its columns and its rows; figures stand at the right of the columns named so."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    at_right: frozenset[int] = frozenset()
    # A last row that is set off, such as a sum
    total: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Row:
    cells: tuple[tuple[str, ...], ...]
    height_mm: float
    is_bold: bool


def fill_area(tables: Sequence[Table], area: Area, text_mm: float) -> tuple[tuple[Mark, ...], tuple[Table, ...]]:
    """Return the tables as far as the area holds them, from its top, and what is left of them."""
    marks: list[Mark] = []
    y = area.y1_mm
    for place, table in enumerate(tables):
        done, bottom, rest = _placed(table, Area(area.x0_mm, area.y0_mm, area.x1_mm, y), text_mm)
        shown = 0 if rest is None else len(table.rows) - len(rest.rows)
        if place and rest is not None and (shown < _LEAST_ROWS or len(table.rows) <= _TOGETHER_ROWS):
            # A table begins where it can go on, rather than with a row or two at the foot of another; a short one stays whole.
            return tuple(marks), tuple(tables[place:])
        marks += done
        if rest is not None:
            return tuple(marks), (rest, *tables[place + 1 :])
        y = bottom - _BETWEEN_FRAC * text_mm
    return tuple(marks), ()


def fits_across(table: Table, width_mm: float, text_mm: float) -> bool:
    """Return whether the table's columns have room side by side without a word being cut."""
    pad = 2 * _PAD_FRAC * text_mm
    return sum(_longest_word_mm(table, k, text_mm) + pad for k in range(len(table.heads))) <= width_mm


def natural_width_mm(table: Table, text_mm: float) -> float:
    """Return the width that the table takes with every cell on one line."""
    return sum(_widths(table, 1e6, text_mm))


def bottom_of(marks: Sequence[Mark], area: Area) -> float:
    """Return how low the marks of tables reach."""
    points = [p for mark in marks if isinstance(mark, Polyline) for p in mark.points]
    return min((p.y_mm for p in points), default=area.y1_mm)


def _placed(table: Table, area: Area, text_mm: float) -> tuple[list[Mark], float, Table | None]:
    widths = _widths(table, area.width_mm, text_mm)
    title_mm = _TITLE_FRAC * text_mm if table.title else 0.0
    head = _row(table.heads, widths, text_mm, is_bold=True)
    total = [_row(table.total, widths, text_mm, is_bold=True)] if table.total else []
    rows = [_row(cells, widths, text_mm, is_bold=False) for cells in table.rows]
    room = area.height_mm - title_mm - head.height_mm
    shown: list[_Row] = []
    for row in rows:
        if sum(one.height_mm for one in (*shown, row)) > room:
            break
        shown.append(row)
    is_whole = len(shown) == len(rows) and sum(r.height_mm for r in (*shown, *total)) <= room
    if shown and total and not is_whole and len(shown) == len(rows):
        # The sum does not stand alone on the next sheet.
        shown.pop()
    if not shown and not (is_whole and total):
        return [], area.y1_mm, table
    lines = [head, *shown, *(total if is_whole else [])]
    top = area.y1_mm - title_mm
    marks = list(_marks(lines, widths, Point(area.x0_mm, top), text_mm, table.at_right))
    if table.title:
        at = Point(area.x0_mm, area.y1_mm - 1.2 * text_mm)
        marks.append(Text(at=at, text=table.title, height_mm=text_mm, is_bold=True, layer=Layer.TABLE))
    bottom = top - sum(line.height_mm for line in lines)
    if is_whole:
        return marks, bottom, None
    title = table.title if table.title.endswith("(continued)") else f"{table.title} (continued)".strip()
    return marks, bottom, replace(table, title=title, rows=table.rows[len(shown) :])


def _widths(table: Table, most_mm: float, text_mm: float) -> tuple[float, ...]:
    """Return the widths of the columns: what they need, or less for the widest where the room is short."""
    pad = 2 * _PAD_FRAC * text_mm
    needed = []
    for place, head in enumerate(table.heads):
        cells = [row[place] for row in (*table.rows, *((table.total,) if table.total else ()))]
        widest = max((text_width_mm(cell, text_mm) for cell in cells), default=0.0)
        bold = [text_width_mm(word, text_mm, is_bold=True) for word in (head, *(table.total[place : place + 1]))]
        needed.append(max(widest, *bold) + pad)
    if sum(needed) <= most_mm:
        return tuple(needed)
    least = [_longest_word_mm(table, place, text_mm) + pad for place in range(len(table.heads))]
    # The cap that brings the widest columns down until all fit, but none below its longest word
    low, high = 0.0, most_mm
    for _ in range(50):
        cap = (low + high) / 2
        fits = sum(max(min(n, cap), least_mm) for n, least_mm in zip(needed, least, strict=True)) <= most_mm
        low, high = (cap, high) if fits else (low, cap)
    widths = [max(min(n, low), least_mm) for n, least_mm in zip(needed, least, strict=True)]
    over = most_mm / sum(widths)
    return tuple(width * over for width in widths) if over < 1 else tuple(widths)


def _longest_word_mm(table: Table, place: int, text_mm: float) -> float:
    words = [word for row in table.rows for word in row[place].split()]
    widths = [text_width_mm(word, text_mm) for word in words]
    widths += [text_width_mm(word, text_mm, is_bold=True) for word in table.heads[place].split()]
    return min(max(widths, default=0.0), _LONGEST_WORD_FRAC * text_mm)


def _row(cells: Sequence[str], widths_mm: Sequence[float], text_mm: float, *, is_bold: bool) -> _Row:
    pad = 2 * _PAD_FRAC * text_mm
    broken = tuple(
        lines_of(cell, text_mm, width - pad + _ROUNDING_MM, is_bold=is_bold) or ("",)
        for cell, width in zip(cells, widths_mm, strict=True)
    )
    most = max(len(lines) for lines in broken)
    return _Row(broken, (most * _PITCH_FRAC + 2 * _PAD_FRAC) * text_mm, is_bold)


def _marks(
    rows: Sequence[_Row], widths_mm: Sequence[float], corner: Point, text_mm: float, at_right: frozenset[int]
) -> Iterator[Mark]:
    width, height = sum(widths_mm), sum(row.height_mm for row in rows)
    x0, y1 = corner.x_mm, corner.y_mm
    outline = (Point(x0, y1 - height), Point(x0 + width, y1 - height), Point(x0 + width, y1), Point(x0, y1))
    yield Polyline(points=outline, is_closed=True, stroke=THIN, layer=Layer.TABLE)
    x = x0
    for column in widths_mm[:-1]:
        x += column
        yield Line(start=Point(x, y1), end=Point(x, y1 - height), stroke=THIN, layer=Layer.TABLE)
    y = y1
    for place, row in enumerate(rows):
        if place:
            yield Line(start=Point(x0, y), end=Point(x0 + width, y), stroke=THIN, layer=Layer.TABLE)
        yield from _texts(row, widths_mm, Point(x0, y), text_mm, at_right)
        y -= row.height_mm


def _texts(
    row: _Row, widths_mm: Sequence[float], corner: Point, text_mm: float, at_right: frozenset[int]
) -> Iterator[Text]:
    x, pad = corner.x_mm, _PAD_FRAC * text_mm
    for place, (lines, width) in enumerate(zip(row.cells, widths_mm, strict=True)):
        right = place in at_right
        for number, line in enumerate(lines):
            if line:
                base = corner.y_mm - pad - (number * _PITCH_FRAC + 1.2) * text_mm
                yield Text(
                    at=Point(x + width - pad if right else x + pad, base),
                    text=line,
                    height_mm=text_mm,
                    across=Across.RIGHT if right else Across.LEFT,
                    is_bold=row.is_bold,
                    layer=Layer.TABLE,
                )
        x += width
