"""Words, tables and figures put one under another in columns, page after page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grillestack.sheets.draw_list import Layer, Mark, Point, Text
from grillestack.sheets.lettering import lines_of
from grillestack.sheets.move_marks import moved
from grillestack.sheets.paper import Area
from grillestack.sheets.sheet_body import SheetTooSmallError
from grillestack.sheets.tables import Table, bottom_of, fill_area

_PITCH_FRAC, _BEFORE_HEAD_FRAC, _BETWEEN_FRAC, _HEAD_FRAC = 1.55, 1.2, 1.0, 1.2
# A head does not stand alone at the foot of a column.
_WITH_HEAD_FRAC = 14.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph, or a head over what follows."""

    text: str
    is_head: bool = False
    is_large: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """Marks of a picture whose upper left corner is 0/0, and how much room it takes."""

    marks: tuple[Mark, ...]
    width_mm: float
    height_mm: float


Piece = Words | Table | Figure


def flowed(pieces: Sequence[Piece], columns: Sequence[Area], text_mm: float) -> tuple[tuple[Mark, ...], ...]:
    """Return the marks of each page; every page has these columns.

    Raises
    ------
    SheetTooSmallError
        If a figure or a row of a table is larger than a column.
    """
    return tuple(_Flow(columns, text_mm).pages(pieces))


class _Flow:
    """Fills columns from the top; short-lived, one per report."""

    def __init__(self, columns: Sequence[Area], text_mm: float) -> None:
        self.columns, self.text_mm = tuple(columns), text_mm
        self.done: list[list[Mark]] = [[]]
        self.column, self.y_mm = 0, self.columns[0].y1_mm

    def pages(self, pieces: Sequence[Piece]) -> Iterator[tuple[Mark, ...]]:
        for piece, after in zip(pieces, (*pieces[1:], None), strict=True):
            if isinstance(piece, Words):
                self._words(piece, after)
            elif isinstance(piece, Table):
                self._table(piece)
            else:
                self._figure(piece)
        yield from (tuple(marks) for marks in self.done)

    @property
    def _area(self) -> Area:
        area = self.columns[self.column]
        return Area(area.x0_mm, area.y0_mm, area.x1_mm, self.y_mm)

    @property
    def _is_at_top(self) -> bool:
        return self.y_mm == self.columns[self.column].y1_mm

    def _next(self) -> None:
        self.column += 1
        if self.column == len(self.columns):
            self.column = 0
            self.done.append([])
        self.y_mm = self.columns[self.column].y1_mm

    def _words(self, words: Words, after: Piece | None) -> None:
        height = self.text_mm * (_HEAD_FRAC if words.is_head else 1.0) * (1.4 if words.is_large else 1.0)
        if words.is_head:
            if not self._is_at_top:
                self.y_mm -= _BEFORE_HEAD_FRAC * self.text_mm
            need = _WITH_HEAD_FRAC * self.text_mm
            if isinstance(after, Figure):
                need = after.height_mm + 2 * _PITCH_FRAC * height
            if self._area.height_mm < need and not self._is_at_top:
                self._next()
        for line in lines_of(words.text, height, self._area.width_mm, is_bold=words.is_head):
            if self._area.height_mm < _PITCH_FRAC * height:
                self._next()
            at = Point(self._area.x0_mm, self.y_mm - 1.15 * height)
            self.done[-1].append(Text(at=at, text=line, height_mm=height, is_bold=words.is_head, layer=Layer.NOTE))
            self.y_mm -= _PITCH_FRAC * height
        self.y_mm -= 0.4 * height

    def _table(self, table: Table) -> None:
        rest: tuple[Table, ...] = (table,)
        while rest:
            shown, rest = fill_area(rest, self._area, self.text_mm)
            self.done[-1] += shown
            if rest:
                if not shown and self._is_at_top:
                    raise SheetTooSmallError(
                        f"A row of “{table.title or table.heads[0]}” is too long for this paper: choose a larger sheet."
                    )
                self._next()
            else:
                self.y_mm = bottom_of(shown, self._area) - _BETWEEN_FRAC * self.text_mm

    def _figure(self, figure: Figure) -> None:
        if figure.height_mm > self._area.height_mm and not self._is_at_top:
            self._next()
        area = self._area
        if figure.height_mm > area.height_mm or figure.width_mm > area.width_mm + 1e-6:
            raise SheetTooSmallError("A figure of the report is larger than this paper: choose a larger sheet.")
        self.done[-1] += moved(figure.marks, area.x0_mm, area.y1_mm)
        self.y_mm -= figure.height_mm + _BETWEEN_FRAC * self.text_mm
