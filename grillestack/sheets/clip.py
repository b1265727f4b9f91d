"""What of a mark lies within a rectangle: lines, outlines, circles, arcs and filled areas cut exactly at its edges."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

from grillestack.sheets.collisions import simple_marks
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import Arc, Circle, Fill, Hatch, Line, Mark, Point, Polyline, Text
from grillestack.sheets.hatch_lines import hatch_lines
from grillestack.sheets.paper import Area

_NOTHING_MM = 1e-9


def clipped(mark: Mark, area: Area) -> Iterator[Mark]:
    """Return what of a mark lies in the area; dimensions are taken apart; a text is there whole or not at all."""
    for simple in simple_marks([mark]):
        if isinstance(simple, Line):
            yield from _line(simple, area)
        elif isinstance(simple, Polyline):
            yield from _polyline(simple, area)
        elif isinstance(simple, Circle):
            yield from _circle(simple, area)
        elif isinstance(simple, Arc):
            yield from _arc(simple, simple.start_deg, (simple.end_deg - simple.start_deg) % 360 or 360.0, area)
        elif isinstance(simple, Fill):
            points = _cut_polygon(simple.points, area)
            if len(points) > 2:
                yield replace(simple, points=points)
        elif isinstance(simple, Hatch):
            for start, end in hatch_lines(simple):
                yield from _line(Line(start=start, end=end, layer=simple.layer), area)
        elif isinstance(simple, Text) and area.holds(text_area(simple)):
            yield simple


def cut_line(start: Point, end: Point, area: Area) -> tuple[Point, Point] | None:
    """Return the part of a straight line within the area (Liang and Barsky's way), or nothing."""
    low, high = 0.0, 1.0
    dx, dy = end.x_mm - start.x_mm, end.y_mm - start.y_mm
    for step, room in (
        (-dx, start.x_mm - area.x0_mm),
        (dx, area.x1_mm - start.x_mm),
        (-dy, start.y_mm - area.y0_mm),
        (dy, area.y1_mm - start.y_mm),
    ):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if (high - low) * math.hypot(dx, dy) <= _NOTHING_MM:
        return None
    ends = [
        start if t == 0 else end if t == 1 else Point(start.x_mm + t * dx, start.y_mm + t * dy) for t in (low, high)
    ]
    return ends[0], ends[1]


def _line(line: Line, area: Area) -> Iterator[Line]:
    cut = cut_line(line.start, line.end, area)
    if cut is not None:
        yield replace(line, start=cut[0], end=cut[1])


def _polyline(line: Polyline, area: Area) -> Iterator[Polyline]:
    if all(_holds(area, p) for p in line.points):
        yield line
        return
    run: list[Point] = []
    points = (*line.points, line.points[0]) if line.is_closed else line.points
    for start, end in itertools.pairwise(points):
        cut = cut_line(start, end, area)
        if run and (cut is None or cut[0] != run[-1]):
            yield replace(line, points=tuple(run), is_closed=False)
            run = []
        if cut is not None:
            run = [*run, cut[1]] if run else [cut[0], cut[1]]
            if cut[1] != end:
                yield replace(line, points=tuple(run), is_closed=False)
                run = []
    if run:
        yield replace(line, points=tuple(run), is_closed=False)


def _circle(circle: Circle, area: Area) -> Iterator[Circle | Arc]:
    x, y, r = circle.centre.x_mm, circle.centre.y_mm, circle.radius_mm
    if area.holds(Area(x - r, y - r, x + r, y + r)):
        yield circle
        return
    whole = Arc(
        centre=circle.centre,
        radius_mm=r,
        start_deg=0.0,
        end_deg=360.0,
        stroke=circle.stroke,
        layer=circle.layer,
    )
    yield from _arc(whole, 0.0, 360.0, area)


def _arc(arc: Arc, start_deg: float, sweep_deg: float, area: Area) -> Iterator[Arc]:
    """Return the pieces of an arc inside, parted where its circle meets the edges; pieces that touch are joined."""
    turns = sorted({0.0, sweep_deg, *(t for t in _meetings(arc, start_deg, area) if 0 < t < sweep_deg)})
    kept: list[list[float]] = []
    for low, high in itertools.pairwise(turns):
        if _holds(area, _on(arc, start_deg + (low + high) / 2)):
            if kept and kept[-1][1] == low:
                kept[-1][1] = high
            else:
                kept.append([low, high])
    for low, high in kept:
        yield replace(arc, start_deg=start_deg + low, end_deg=start_deg + high)


def _meetings(arc: Arc, start_deg: float, area: Area) -> Iterator[float]:
    """Return, as degrees from the start, where the circle meets the lines of the edges."""
    x, y, r = arc.centre.x_mm, arc.centre.y_mm, arc.radius_mm
    for edge in (area.x0_mm, area.x1_mm):
        if abs(edge - x) < r:
            turn = math.degrees(math.acos((edge - x) / r))
            yield (turn - start_deg) % 360
            yield (-turn - start_deg) % 360
    for edge in (area.y0_mm, area.y1_mm):
        if abs(edge - y) < r:
            turn = math.degrees(math.asin((edge - y) / r))
            yield (turn - start_deg) % 360
            yield (180 - turn - start_deg) % 360


def _on(arc: Arc, turn_deg: float) -> Point:
    turn = math.radians(turn_deg)
    return Point(arc.centre.x_mm + arc.radius_mm * math.cos(turn), arc.centre.y_mm + arc.radius_mm * math.sin(turn))


def _holds(area: Area, point: Point) -> bool:
    return area.x0_mm <= point.x_mm <= area.x1_mm and area.y0_mm <= point.y_mm <= area.y1_mm


def _cut_polygon(points: tuple[Point, ...], area: Area) -> tuple[Point, ...]:
    """Return a convex area cut at the four edges one after the other (Sutherland and Hodgman's way)."""
    found = list(points)
    for is_x, edge, sign in (
        (True, area.x0_mm, 1),
        (True, area.x1_mm, -1),
        (False, area.y0_mm, 1),
        (False, area.y1_mm, -1),
    ):
        before, found = found, []
        for a, b in zip(before, [*before[1:], *before[:1]], strict=True):
            da, db = (sign * ((p.x_mm if is_x else p.y_mm) - edge) for p in (a, b))
            if da >= 0:
                found.append(a)
            if da * db < 0:
                t = da / (da - db)
                found.append(Point(a.x_mm + t * (b.x_mm - a.x_mm), a.y_mm + t * (b.y_mm - a.y_mm)))
    return tuple(found)
