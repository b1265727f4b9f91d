"""Where the openings for relief flaps have room in the rear panel of a shroud."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from grillestack.sheets.draw_list import Point
from grillestack.sheets.flat_part import Hole, rectangle
from grillestack.sheets.paper import Area

# Sheet that stays beside an opening; the flap's rubber lies on it. Common practice, no source.
LAND_MM = 15.0
_STEP_MM = 5.0
_COUNTS = (2, 1, 4, 3, 6, 8)
# Width to height of an opening: a flap hangs from its longer side.
_ASPECTS = (2.0, 1.5, 3.0, 1.0, 4.0, 0.7, 6.0, 0.5)


def flap_openings(area_mm2: float, panel: Area, holes: Sequence[Hole]) -> tuple[tuple[Point, ...], ...] | None:
    """Return rectangles of that area in all, free of the holes and of each other, spread from the corners inwards.

    Nothing, if they find no room; none at all for no area.
    """
    if area_mm2 <= 0:
        return ()
    for count, aspect in itertools.product(_COUNTS, _ASPECTS):
        height = math.sqrt(area_mm2 / count / aspect)
        placed = _placed(count, aspect * height, height, panel.grown(-LAND_MM), holes)
        if placed is not None:
            return tuple(rectangle(area) for area in placed)
    return None


def _placed(
    count: int, width_mm: float, height_mm: float, room: Area, holes: Sequence[Hole]
) -> tuple[Area, ...] | None:
    placed: list[Area] = []
    clear = [(off, area) for off, area in _places(width_mm, height_mm, room) if all(_is_clear(area, h) for h in holes)]
    while len(placed) < count:
        free = [(off, area) for off, area in clear if not any(area.grown(LAND_MM).overlaps(p) for p in placed)]
        if not free:
            return None
        nearest = min(off for off, _ in free)
        # Of places that are equally far from a corner the one furthest from the others, so that air leaves evenly.
        placed.append(max((area for off, area in free if off == nearest), key=lambda area: _apart_mm(area, placed)))
    return tuple(placed)


def _apart_mm(area: Area, placed: Sequence[Area]) -> float:
    return min((math.dist((area.x0_mm, area.y0_mm), (p.x0_mm, p.y0_mm)) for p in placed), default=0.0)


def _places(width_mm: float, height_mm: float, room: Area) -> Iterator[tuple[float, Area]]:
    """Return places on a lattice, each with how far from a corner of the room it is."""
    slack_x, slack_y = room.width_mm - width_mm, room.height_mm - height_mm
    if slack_x < 0 or slack_y < 0:
        return
    for dx, dy in itertools.product(_inwards(slack_x), _inwards(slack_y)):
        off = min(dx, slack_x - dx) + min(dy, slack_y - dy)
        x0, y0 = room.x0_mm + dx, room.y0_mm + dy
        yield round(off, 6), Area(x0, y0, x0 + width_mm, y0 + height_mm)


def _inwards(slack_mm: float) -> list[float]:
    count = int(slack_mm / 2 / _STEP_MM)
    near = [k * _STEP_MM for k in range(count + 1)]
    return [*near, *(slack_mm - d for d in near if slack_mm - d > near[-1])]


def _is_clear(area: Area, hole: Hole) -> bool:
    dx = hole.at.x_mm - min(max(hole.at.x_mm, area.x0_mm), area.x1_mm)
    dy = hole.at.y_mm - min(max(hole.at.y_mm, area.y0_mm), area.y1_mm)
    return math.hypot(dx, dy) >= max(hole.diameter_mm, hole.slot_mm) / 2 + LAND_MM
