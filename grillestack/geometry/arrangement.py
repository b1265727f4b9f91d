"""By how much must parts be shifted to stand in line, or with equal gaps between them."""

from __future__ import annotations

import enum
import itertools
from collections.abc import Sequence

from grillestack.geometry.projection import project_part
from grillestack.model.parts import Part

# x, y and z
Shift = tuple[float, float, float]
_STILL: Shift = (0.0, 0.0, 0.0)
_X, _Y, _Z = range(3)


class LineUp(enum.Enum):
    """What of the parts is brought onto one line: the axis, and which end of them (0 is the middle)."""

    TOPS = (_Z, 1)
    BOTTOMS = (_Z, -1)
    MIDDLES_LEVEL = (_Z, 0)
    LEFT_SIDES = (_Y, -1)
    RIGHT_SIDES = (_Y, 1)
    MIDDLES_UPRIGHT = (_Y, 0)
    FRONTS = (_X, -1)
    REARS = (_X, 1)


class Along(enum.Enum):
    """Along which axis gaps are made equal."""

    ACROSS = _Y
    UP = _Z
    DEPTH = _X


def line_up(parts: Sequence[Part], how: LineUp) -> dict[str, Shift]:
    """Return the shift of each part: to the outermost of them, or to the one that is locked; middles to the common middle.

    A locked part never shifts. Left and right are the vehicle's.
    """
    axis, end = how.value
    spans = {part.id: _span(part, axis) for part in parts}
    given = [spans[part.id] for part in parts if part.locked] or list(spans.values())
    if not given:
        return {}
    low, high = min(s[0] for s in given), max(s[1] for s in given)
    target = (low + high) / 2 if end == 0 else low if end < 0 else high
    found = {}
    for part in parts:
        low, high = spans[part.id]
        place = (low + high) / 2 if end == 0 else low if end < 0 else high
        found[part.id] = _STILL if part.locked else _along(axis, target - place)
    return found


def spread(parts: Sequence[Part], along: Along) -> dict[str, Shift]:
    """Return the shift of each part that makes the gaps between neighbours equal; the first and the last stay.

    Where they need more room than there is, the gaps are equal and negative: each reaches as far into the next one.
    """
    axis = along.value
    row = sorted(parts, key=lambda part: sum(_span(part, axis)))
    found = {part.id: _STILL for part in row}
    if len(row) < 3:
        return found
    spans = [_span(part, axis) for part in row]
    sizes = [high - low for low, high in spans]
    gap = (spans[-1][1] - spans[0][0] - sum(sizes)) / (len(row) - 1)
    starts = itertools.accumulate(sizes, lambda at, size: at + size + gap, initial=spans[0][0])
    for part, span, start in itertools.islice(zip(row, spans, starts, strict=False), 1, len(row) - 1):
        found[part.id] = _along(axis, start - span[0])
    return found


def _span(part: Part, axis: int) -> tuple[float, float]:
    seen = project_part(part)
    box = seen.outline_box
    if axis == _Y:
        return box.y0_mm, box.y1_mm
    return (box.z0_mm, box.z1_mm) if axis == _Z else (seen.x_front_mm, seen.x_rear_mm)


def _along(axis: int, by_mm: float) -> Shift:
    x, y, z = (by_mm if place == axis else 0.0 for place in range(3))
    return x, y, z
