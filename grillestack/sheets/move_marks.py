"""Marks put elsewhere on the paper, and shapes drawn at full size put on it at a scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from grillestack.sheets.draw_list import (
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


def moved(marks: Iterable[Mark], dx_mm: float, dy_mm: float) -> Iterator[Mark]:
    """Return the marks moved over the paper."""
    return (put(mark, 1.0, Point(dx_mm, dy_mm)) for mark in marks)


def put(mark: Mark, scale_factor: float, origin: Point) -> Mark:
    """Return a mark at 1 : `scale_factor`, its 0/0 at the origin; letters keep their height."""

    def at(point: Point) -> Point:
        return Point(origin.x_mm + point.x_mm / scale_factor, origin.y_mm + point.y_mm / scale_factor)

    def all_at(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(at(point) for point in points)

    match mark:
        case Line():
            return replace(mark, start=at(mark.start), end=at(mark.end))
        case Polyline() | Fill() | Hatch():
            return replace(mark, points=all_at(mark.points))
        case Circle() | Arc():
            return replace(mark, centre=at(mark.centre), radius_mm=mark.radius_mm / scale_factor)
        case Text():
            return replace(mark, at=at(mark.at))
        case LinearDimension():
            return replace(
                mark,
                first=at(mark.first),
                second=at(mark.second),
                line_at=at(mark.line_at),
                text_at=at(mark.text_at),
            )
        case OrdinateDimension():
            return replace(
                mark,
                datum=at(mark.datum),
                feature=at(mark.feature),
                leader=all_at(mark.leader),
                text_at=at(mark.text_at),
            )
        case Leader():
            return replace(mark, points=all_at(mark.points), text_at=at(mark.text_at))
