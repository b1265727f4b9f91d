"""What on a sheet runs into what: texts into texts and lines, dimensions into dimensions and outlines."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.sheets.dimension_marks import dimension_marks, feet_of, text_area
from grillestack.sheets.draw_list import (
    OUTLINE,
    Arc,
    Circle,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    Mark,
    OrdinateDimension,
    Point,
    Polyline,
    Text,
)
from grillestack.sheets.paper import Area

Floats = NDArray[np.float64]
# x0, y0, x1, y1
Segment = tuple[float, float, float, float]

_ROUND_PIECES = 48
_CUT_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Collision:
    """Two things in one place."""

    first: str
    second: str


def collisions(marks: Sequence[Mark]) -> tuple[Collision, ...]:
    """Return what collides on a sheet.

    Counted are: a text on a text; a text on any line; a dimension line on another dimension line, on an arrow of one or on
    a wide outline; ordinate lines across one another beyond the view. Extension lines may cross outlines and one another
    (ISO 129-1 allows it where it cannot be helped).
    """
    return (*_texts_on_texts(marks), *_texts_on_lines(marks), *_lines_on_lines(marks))


def all_texts(marks: Iterable[Mark]) -> tuple[Text, ...]:
    """Return every text, those of dimensions among them."""
    return tuple(mark for mark in simple_marks(marks) if isinstance(mark, Text))


def simple_marks(marks: Iterable[Mark]) -> Iterator[Mark]:
    """Return the marks with dimensions taken apart."""
    for mark in marks:
        if isinstance(mark, (LinearDimension, OrdinateDimension, Leader)):
            yield from dimension_marks(mark)
        else:
            yield mark


def segments_of(marks: Iterable[Mark]) -> Floats:
    """Return every line, round ones as chords; one row (x0, y0, x1, y1) each."""
    rows = [segment for mark in simple_marks(marks) for segment in _segments(mark)]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)


def crosses_area(segments: Floats, area: Area) -> NDArray[np.bool_]:
    """Return which lines run through the inside of the area; shape (N,)."""
    x0, y0, x1, y1 = segments.T
    dx, dy = x1 - x0, y1 - y0
    low, high = np.zeros(len(segments)), np.ones(len(segments))
    outside = np.zeros(len(segments), dtype=bool)
    for step, room in (
        (-dx, x0 - area.x0_mm),
        (dx, area.x1_mm - x0),
        (-dy, y0 - area.y0_mm),
        (dy, area.y1_mm - y0),
    ):
        still = step == 0
        outside |= still & (room <= 0)
        share = np.divide(room, step, out=np.zeros_like(room), where=~still)
        low = np.where(~still & (step < 0), np.maximum(low, share), low)
        high = np.where(~still & (step > 0), np.minimum(high, share), high)
    inside: NDArray[np.bool_] = ~outside & (high > low)
    return inside


def _segments(mark: Mark) -> Iterator[Segment]:
    if isinstance(mark, Line):
        yield mark.start.x_mm, mark.start.y_mm, mark.end.x_mm, mark.end.y_mm
    elif isinstance(mark, Polyline | Fill | Hatch):
        points = mark.points
        is_closed = not isinstance(mark, Polyline) or mark.is_closed
        for a, b in itertools.pairwise((*points, points[0]) if is_closed else points):
            yield a.x_mm, a.y_mm, b.x_mm, b.y_mm
    elif isinstance(mark, Circle):
        yield from _chords(mark.centre, mark.radius_mm, 0.0, 360.0)
    elif isinstance(mark, Arc):
        sweep = (mark.end_deg - mark.start_deg) % 360 or 360.0
        yield from _chords(mark.centre, mark.radius_mm, mark.start_deg, mark.start_deg + sweep)


def _chords(centre: Point, radius_mm: float, start_deg: float, end_deg: float) -> Iterator[Segment]:
    count = max(4, math.ceil(_ROUND_PIECES * (end_deg - start_deg) / 360))
    turns = [math.radians(start_deg + (end_deg - start_deg) * k / count) for k in range(count + 1)]
    points = [(centre.x_mm + radius_mm * math.cos(t), centre.y_mm + radius_mm * math.sin(t)) for t in turns]
    for a, b in itertools.pairwise(points):
        yield (*a, *b)


def _texts_on_texts(marks: Sequence[Mark]) -> Iterator[Collision]:
    texts = [(text, text_area(text)) for text in all_texts(marks)]
    for (text, area), (other, other_area) in itertools.combinations(texts, 2):
        if area.overlaps(other_area):
            yield Collision(first=f"text “{text.text}”", second=f"text “{other.text}”")


def _texts_on_lines(marks: Sequence[Mark]) -> Iterator[Collision]:
    segments = segments_of(marks)
    for text in all_texts(marks):
        area = text_area(text)
        hit = np.flatnonzero(crosses_area(segments, area.grown(-_CUT_MM)))
        if len(hit):
            x0, y0, x1, y1 = (float(v) for v in segments[hit[0]])
            yield Collision(first=f"text “{text.text}”", second=f"line ({x0:.1f}, {y0:.1f})–({x1:.1f}, {y1:.1f})")


def _lines_on_lines(marks: Sequence[Mark]) -> Iterator[Collision]:
    linear = [mark for mark in marks if isinstance(mark, LinearDimension)]
    ordinates = [mark for mark in marks if isinstance(mark, OrdinateDimension)]
    own = [(mark.key, np.array(_dimension_line(mark)).reshape(-1, 4)) for mark in linear]
    own += [(mark.key, np.array(_beyond_view(mark)).reshape(-1, 4)) for mark in ordinates]
    for (key, lines), (other, other_lines) in itertools.combinations(own, 2):
        if any(_meet(_segment(a), _segment(b)) for a in lines for b in other_lines):
            yield Collision(first=key, second=other)
    wide = segments_of(m for m in marks if isinstance(m, Line | Polyline | Circle | Arc) and m.stroke == OUTLINE)
    for mark in linear:
        line = _dimension_line(mark)[0]
        near = wide[_boxes_touch(wide, line)]
        if any(_meet(line, _segment(other)) for other in near):
            yield Collision(first=mark.key, second="an outline")


def _boxes_touch(segments: Floats, line: Segment) -> NDArray[np.bool_]:
    x0, x1 = sorted((line[0], line[2]))
    y0, y1 = sorted((line[1], line[3]))
    touch: NDArray[np.bool_] = (
        (np.minimum(segments[:, 0], segments[:, 2]) <= x1)
        & (np.maximum(segments[:, 0], segments[:, 2]) >= x0)
        & (np.minimum(segments[:, 1], segments[:, 3]) <= y1)
        & (np.maximum(segments[:, 1], segments[:, 3]) >= y0)
    )
    return touch


def _dimension_line(mark: LinearDimension) -> list[Segment]:
    """Return the dimension line with its tails, the third of its marks' lines."""
    feet = feet_of(mark)
    lines = [m for m in dimension_marks(mark) if isinstance(m, Line)]
    line = next(
        one for one in reversed(lines) if abs(_off(one, feet[0])) < _CUT_MM and abs(_off(one, feet[1])) < _CUT_MM
    )
    return [(line.start.x_mm, line.start.y_mm, line.end.x_mm, line.end.y_mm)]


def _off(line: Line, point: Point) -> float:
    dx, dy = line.end.x_mm - line.start.x_mm, line.end.y_mm - line.start.y_mm
    length = math.hypot(dx, dy) or 1.0
    return ((point.x_mm - line.start.x_mm) * dy - (point.y_mm - line.start.y_mm) * dx) / length


def _beyond_view(mark: OrdinateDimension) -> list[Segment]:
    """Return an ordinate's line from its jog on; up to there it is an extension line."""
    points = mark.leader[1:] if len(mark.leader) > 2 else mark.leader[-1:]
    return [(a.x_mm, a.y_mm, b.x_mm, b.y_mm) for a, b in itertools.pairwise(points)]


def _segment(row: Floats) -> Segment:
    return float(row[0]), float(row[1]), float(row[2]), float(row[3])


def _meet(a: Segment, b: Segment) -> bool:
    """Return whether two lines cross, or run along each other."""
    ax, ay, bx, by = a
    cx, cy, dx, dy = b

    def side(px: float, py: float, qx: float, qy: float, rx: float, ry: float) -> float:
        return (qx - px) * (ry - py) - (qy - py) * (rx - px)

    d1, d2 = side(ax, ay, bx, by, cx, cy), side(ax, ay, bx, by, dx, dy)
    d3, d4 = side(cx, cy, dx, dy, ax, ay), side(cx, cy, dx, dy, bx, by)
    if d1 * d2 < 0 and d3 * d4 < 0:
        return True
    length = math.hypot(bx - ax, by - ay) or 1.0
    if max(abs(d1), abs(d2)) / length > _CUT_MM:
        return False
    ux, uy = (bx - ax) / length, (by - ay) / length
    low, high = sorted(((cx - ax) * ux + (cy - ay) * uy, (dx - ax) * ux + (dy - ay) * uy))
    return min(high, length) - max(low, 0.0) > _CUT_MM
