"""How far dimensions stick out beyond the view that they belong to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.collisions import all_texts, segments_of
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import Mark
from grillestack.sheets.paper import Area


@dataclass(frozen=True, slots=True, kw_only=True)
class Overhang:
    """What reaches out at each side, 0 where nothing does."""

    left_mm: float
    right_mm: float
    below_mm: float
    above_mm: float


def overhang_of(marks: Sequence[Mark], view: Area) -> Overhang:
    """Return how far the lines and texts of the marks reach beyond the view."""
    x, y = [view.x0_mm, view.x1_mm], [view.y0_mm, view.y1_mm]
    for x0, y0, x1, y1 in segments_of(marks).tolist():
        x += [x0, x1]
        y += [y0, y1]
    for area in (text_area(text) for text in all_texts(marks)):
        x += [area.x0_mm, area.x1_mm]
        y += [area.y0_mm, area.y1_mm]
    return Overhang(
        left_mm=view.x0_mm - min(x),
        right_mm=max(x) - view.x1_mm,
        below_mm=view.y0_mm - min(y),
        above_mm=max(y) - view.y1_mm,
    )
