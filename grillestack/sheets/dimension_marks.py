"""Which lines, arrow heads and texts a dimension consists of, after ISO 129-1, and what area a text takes."""

from __future__ import annotations

import math

from grillestack.sheets.draw_list import (
    THIN,
    Across,
    Dimension,
    Fill,
    Leader,
    Line,
    LinearDimension,
    OrdinateDimension,
    Point,
    Polyline,
    Text,
    Upright,
)
from grillestack.sheets.lettering import DESCENT_FRAC, text_width_mm
from grillestack.sheets.paper import Area

# All as shares of the height of the text, which is ten times the width of a narrow line.
ARROW_FRAC = 1.0
OVERSHOOT_FRAC = 0.6
GAP_FRAC = 0.4
TAIL_FRAC = 1.4
LINE_PITCH_FRAC = 1.5
_HALF_ARROW_FRAC = 0.2  # about 23° of arrow head

Simple = Line | Polyline | Fill | Text


def dimension_marks(dimension: Dimension) -> tuple[Simple, ...]:
    """Return the simple marks of a dimension or a leader."""
    if isinstance(dimension, LinearDimension):
        return _linear(dimension)
    if isinstance(dimension, OrdinateDimension):
        return _ordinate(dimension)
    return _leader(dimension)


def dimension_texts(dimension: Dimension) -> tuple[Text, ...]:
    """Return the texts of a dimension."""
    return tuple(mark for mark in dimension_marks(dimension) if isinstance(mark, Text))


def feet_of(dimension: LinearDimension) -> tuple[Point, Point]:
    """Return where the two ends of the dimension line lie."""
    nx, ny = _normal(dimension.direction_deg)
    feet = []
    for point in (dimension.first, dimension.second):
        out = (dimension.line_at.x_mm - point.x_mm) * nx + (dimension.line_at.y_mm - point.y_mm) * ny
        feet.append(Point(point.x_mm + out * nx, point.y_mm + out * ny))
    return feet[0], feet[1]


def text_area(text: Text) -> Area:
    """Return the upright rectangle around a text, letters that hang below the line included."""
    width = text_width_mm(text.text, text.height_mm, is_bold=text.is_bold)
    height, below = text.height_mm, DESCENT_FRAC * text.height_mm
    left = {Across.LEFT: 0.0, Across.CENTRE: -width / 2, Across.RIGHT: -width}[text.across]
    base = {Upright.BASELINE: 0.0, Upright.MIDDLE: -height / 2, Upright.TOP: -height}[text.upright]
    turn = math.radians(text.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    corners = [
        (text.at.x_mm + u * cos - v * sin, text.at.y_mm + u * sin + v * cos)
        for u in (left, left + width)
        for v in (base - below, base + height)
    ]
    across, up = [c[0] for c in corners], [c[1] for c in corners]
    return Area(min(across), min(up), max(across), max(up))


def arrow_head(tip: Point, tail: Point, length_mm: float) -> Fill:
    """Return a filled arrow head at `tip` that points there from `tail`."""
    dx, dy = tip.x_mm - tail.x_mm, tip.y_mm - tail.y_mm
    length = math.hypot(dx, dy) or 1.0
    cos, sin = dx / length, dy / length
    half = length_mm * _HALF_ARROW_FRAC
    x, y = tip.x_mm - length_mm * cos, tip.y_mm - length_mm * sin
    return Fill(points=(tip, Point(x - half * sin, y + half * cos), Point(x + half * sin, y - half * cos)))


def _linear(dimension: LinearDimension) -> tuple[Simple, ...]:
    height, layer = dimension.text_height_mm, dimension.layer
    feet = feet_of(dimension)
    marks: list[Simple] = []
    for point, foot in zip((dimension.first, dimension.second), feet, strict=True):
        reach = math.hypot(foot.x_mm - point.x_mm, foot.y_mm - point.y_mm)
        if reach > GAP_FRAC * height:
            start, end = _along(point, foot, GAP_FRAC * height), _along(point, foot, reach + OVERSHOOT_FRAC * height)
            marks.append(Line(start=start, end=end, stroke=THIN, layer=layer))
    low, high = _ends(dimension, feet)
    marks.append(Line(start=low, end=high, stroke=THIN, layer=layer))
    for foot, other in ((feet[0], feet[1]), (feet[1], feet[0])):
        beyond = Point(2 * foot.x_mm - other.x_mm, 2 * foot.y_mm - other.y_mm)
        marks.append(arrow_head(foot, beyond if dimension.arrows_outside else other, ARROW_FRAC * height))
    marks.append(
        Text(
            at=dimension.text_at,
            text=dimension.text,
            height_mm=height,
            across=Across.CENTRE,
            upright=Upright.MIDDLE,
            angle_deg=0.0 if dimension.text_is_level else dimension.direction_deg,
            layer=layer,
        )
    )
    return tuple(marks)


def _ends(dimension: LinearDimension, feet: tuple[Point, Point]) -> tuple[Point, Point]:
    """Return the ends of the dimension line: it reaches under a text that stands beside it, and carries outside arrows."""
    turn = math.radians(dimension.direction_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    origin = feet[0]

    def along(point: Point) -> float:
        return (point.x_mm - origin.x_mm) * cos + (point.y_mm - origin.y_mm) * sin

    second = along(feet[1])
    low, high = min(0.0, second), max(0.0, second)
    if dimension.arrows_outside:
        tail = TAIL_FRAC * dimension.text_height_mm
        low, high = low - tail, high + tail
        if not dimension.text_is_level:
            half = text_width_mm(dimension.text, dimension.text_height_mm) / 2
            middle = along(dimension.text_at)
            low, high = min(low, middle - half), max(high, middle + half)
    return (
        Point(origin.x_mm + low * cos, origin.y_mm + low * sin),
        Point(origin.x_mm + high * cos, origin.y_mm + high * sin),
    )


def _ordinate(dimension: OrdinateDimension) -> tuple[Simple, ...]:
    last, end = dimension.leader[-2:]
    is_upright = abs(end.y_mm - last.y_mm) > abs(end.x_mm - last.x_mm)
    outward_is_low = (end.y_mm < last.y_mm) if is_upright else (end.x_mm < last.x_mm)
    height, lines = dimension.text_height_mm, dimension.text.split("\n")
    longest = max(text_width_mm(line, height) for line in lines)
    # All lines begin at the end of the leader.
    start = longest / 2 if outward_is_low else -longest / 2
    marks: list[Simple] = [Polyline(points=dimension.leader, stroke=THIN, layer=dimension.layer)]
    for place, line in enumerate(lines):
        down = (place - (len(lines) - 1) / 2) * LINE_PITCH_FRAC * height
        along = dimension.text_at.x_mm + start, dimension.text_at.y_mm - down
        if is_upright:
            along = dimension.text_at.x_mm + down, dimension.text_at.y_mm + start
        marks.append(
            Text(
                at=Point(*along),
                text=line,
                height_mm=height,
                across=Across.RIGHT if outward_is_low else Across.LEFT,
                upright=Upright.MIDDLE,
                angle_deg=90.0 if is_upright else 0.0,
                layer=dimension.layer,
            )
        )
    return tuple(marks)


def _leader(leader: Leader) -> tuple[Simple, ...]:
    marks: list[Simple] = []
    if len(leader.points) > 1:
        tip, before = leader.points[:2]
        marks.append(Polyline(points=leader.points, stroke=THIN, layer=leader.layer))
        marks.append(arrow_head(tip, before, ARROW_FRAC * leader.text_height_mm))
    for place, line in enumerate(leader.lines):
        down = place * LINE_PITCH_FRAC * leader.text_height_mm
        marks.append(
            Text(
                at=Point(leader.text_at.x_mm, leader.text_at.y_mm - down),
                text=line,
                height_mm=leader.text_height_mm,
                across=leader.across,
                upright=Upright.MIDDLE,
                layer=leader.layer,
            )
        )
    return tuple(marks)


def _normal(direction_deg: float) -> tuple[float, float]:
    turn = math.radians(direction_deg)
    return -math.sin(turn), math.cos(turn)


def _along(start: Point, towards: Point, by_mm: float) -> Point:
    dx, dy = towards.x_mm - start.x_mm, towards.y_mm - start.y_mm
    length = math.hypot(dx, dy)
    return Point(start.x_mm + dx / length * by_mm, start.y_mm + dy / length * by_mm)
