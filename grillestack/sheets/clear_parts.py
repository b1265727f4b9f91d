"""What of an area is left clear by what has been drawn."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from grillestack.sheets.collisions import Floats, all_texts, crosses_area, segments_of
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import Mark
from grillestack.sheets.paper import Area

_AWAY_MM = 2.0


def clear_parts(areas: Sequence[Area], marks: Sequence[Mark]) -> tuple[Area, ...]:
    """Return what each area has left that no text or line reaches into, none over one before it."""
    found: list[Area] = []
    for area in areas:
        part = _clear_part(area, marks, found)
        if part is not None:
            found.append(part)
    return tuple(found)


def _clear_part(area: Area, marks: Sequence[Mark], kept: Sequence[Area]) -> Area | None:
    """Return the largest part of the area, cut straight from one of its sides."""
    rows = [(a.x0_mm, a.y0_mm, a.x1_mm, a.y1_mm) for a in kept]
    boxes = np.vstack((_text_boxes(marks), np.array(rows, dtype=np.float64).reshape(-1, 4)))
    segments = segments_of(marks)
    left = area
    for _ in range(4):
        inside = boxes[_overlap(boxes, left)]
        lines = segments[crosses_area(segments, left)]
        found = [inside, _within(lines, left)]
        taken = np.vstack(found)
        if not len(taken):
            return left
        x0, y0 = taken[:, :2].min(axis=0) - _AWAY_MM
        x1, y1 = taken[:, 2:].max(axis=0) + _AWAY_MM
        parts = [
            Area(left.x0_mm, left.y0_mm, left.x1_mm, float(y0)),
            Area(left.x0_mm, float(y1), left.x1_mm, left.y1_mm),
            Area(left.x0_mm, left.y0_mm, float(x0), left.y1_mm),
            Area(float(x1), left.y0_mm, left.x1_mm, left.y1_mm),
        ]
        real = [part for part in parts if part.width_mm > 0 and part.height_mm > 0]
        if not real:
            return None
        left = max(real, key=lambda part: part.width_mm * part.height_mm)
    return None


def _overlap(boxes: Floats, area: Area) -> np.ndarray:
    return (
        (boxes[:, 0] < area.x1_mm)
        & (boxes[:, 2] > area.x0_mm)
        & (boxes[:, 1] < area.y1_mm)
        & (boxes[:, 3] > area.y0_mm)
    )


def _within(lines: Floats, area: Area) -> Floats:
    """Return the rectangles around lines, cut to the area."""
    low = np.minimum(lines[:, :2], lines[:, 2:])
    high = np.maximum(lines[:, :2], lines[:, 2:])
    low = np.maximum(low, (area.x0_mm, area.y0_mm))
    high = np.minimum(high, (area.x1_mm, area.y1_mm))
    return np.hstack((low, high))


def _text_boxes(marks: Sequence[Mark]) -> Floats:
    """Return the upright rectangle around every text; one row (x0, y0, x1, y1) each."""
    rows = [(a.x0_mm, a.y0_mm, a.x1_mm, a.y1_mm) for a in (text_area(text) for text in all_texts(marks))]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)
