"""The dimensions of a sheet as hands left them: where each stands, which are switched off, which is under the pointer."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from msgspec.structs import replace as with_field

from grillestack.model.sheet_choices import DimensionShift, SheetView
from grillestack.sheets.dimension_marks import dimension_marks, text_area
from grillestack.sheets.draw_list import (
    Dimension,
    Fill,
    Leader,
    Line,
    Point,
    Sheet,
    Text,
    dimensions,
)
from grillestack.sheets.shifted import shifted


@dataclass(frozen=True, slots=True)
class Placed:
    """One dimension where it stands; switched off it is not on the paper."""

    dimension: Dimension
    is_off: bool = False

    @property
    def key(self) -> str:
        """Return what names the dimension in the project."""
        return self.dimension.key


def is_movable(sheet: Sheet) -> bool:
    """Return whether hands may move the dimensions of this sheet: those of full-size templates belong to the print."""
    return sheet.view is not SheetView.TEMPLATE


def placed(sheet: Sheet, shifts: Sequence[DimensionShift]) -> tuple[Placed, ...]:
    """Return the dimensions of a sheet that was made without shifts, with these shifts done."""
    if not is_movable(sheet):
        return tuple(Placed(one) for one in dimensions(sheet))
    off = {shift.key for shift in shifts if shift.is_off}
    shown = [with_field(shift, is_off=False) for shift in shifts]
    there = shifted(dimensions(sheet), shown)
    return tuple(Placed(one, one.key in off) for one in there if isinstance(one, Dimension))


def with_shifts(sheet: Sheet, shifts: Sequence[DimensionShift]) -> Sheet:
    """Return the sheet as it goes on paper, from one that was made without shifts."""
    return replace(sheet, marks=tuple(shifted(sheet.marks, shifts))) if is_movable(sheet) else sheet


def words_of(dimension: Dimension) -> str:
    """Return what is written at a dimension, in one line."""
    lines = dimension.lines if isinstance(dimension, Leader) else (dimension.text,)
    return " ".join(" ".join(lines).split())


def nearest(candidates: Sequence[Placed], at: Point, reach_mm: float) -> Placed | None:
    """Return the dimension whose text is under this place or whose lines are nearest within reach, if there is one."""
    found = [
        (distance, number)
        for number, one in enumerate(candidates)
        if (distance := _away_mm(one.dimension, at)) <= reach_mm
    ]
    return candidates[min(found)[1]] if found else None


def _away_mm(dimension: Dimension, at: Point) -> float:
    return min(_distances_mm(dimension, at), default=math.inf)


def _distances_mm(dimension: Dimension, at: Point) -> Iterator[float]:
    for mark in dimension_marks(dimension):
        if isinstance(mark, Text):
            area = text_area(mark).grown(0.5)
            dx = max(area.x0_mm - at.x_mm, 0.0, at.x_mm - area.x1_mm)
            dy = max(area.y0_mm - at.y_mm, 0.0, at.y_mm - area.y1_mm)
            # Whoever points into a text means it, even if a line of another dimension is as near.
            yield math.hypot(dx, dy) or -1.0
        elif isinstance(mark, Line):
            yield _from_line_mm(mark.start, mark.end, at)
        elif not isinstance(mark, Fill):
            for start, end in zip(mark.points, mark.points[1:], strict=False):
                yield _from_line_mm(start, end, at)


def _from_line_mm(start: Point, end: Point, at: Point) -> float:
    dx, dy = end.x_mm - start.x_mm, end.y_mm - start.y_mm
    length2 = dx * dx + dy * dy
    along = ((at.x_mm - start.x_mm) * dx + (at.y_mm - start.y_mm) * dy) / length2 if length2 else 0.0
    along = min(1.0, max(0.0, along))
    return math.hypot(at.x_mm - start.x_mm - along * dx, at.y_mm - start.y_mm - along * dy)
