"""The pictures of a piece of sheet metal: its blank with every hole measured and named, and the section of an angle."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from grillestack.model.sheet_choices import DrawingUnits
from grillestack.sheets.bend import Bend
from grillestack.sheets.detail_block import DetailPicture, Named, Station
from grillestack.sheets.draw_list import CENTRE, OUTLINE, Axis, Layer, Line, Mark, Point, Polyline
from grillestack.sheets.flat_part import BendLine, FlatPart, Hole, flat_marks
from grillestack.sheets.paper import Area
from grillestack.sheets.say_length import said_angle, said_hole, said_length

_OVER_MM = 2.5
_STRAIGHT_MM = 1e-6
_CHORD_DEG = 5.0


def flat_picture(
    key: str, flat: FlatPart, units: DrawingUnits, corners: Sequence[Point] | None = None, name: str = "FLAT PATTERN"
) -> DetailPicture:
    """Return the picture of a blank; all corners of its outline are measured, or only those named."""
    marks: list[Mark] = list(flat_marks(flat, Point(0.0, 0.0), 1.0))
    for hole in flat.holes:
        marks += _cross(hole)
    measured = flat.contour if corners is None else corners
    return DetailPicture(
        name=name,
        area=flat.area,
        marks=tuple(marks),
        stations=(
            *_hole_stations(key, flat.holes),
            *_bend_stations(key, flat.bends),
            *_corner_stations(key, [*measured, *(p for outline in flat.openings for p in outline)]),
        ),
        named=tuple(_named(key, flat.holes, units)),
    )


def angle_picture(key: str, seat_mm: float, leg_mm: float, bend: Bend) -> DetailPicture:
    """Return the section of an angle: its seat at the top, its leg down at the left, measured over the outer faces."""
    thickness, inner = bend.thickness_mm, bend.radius_mm
    outer = inner + thickness
    points = [Point(0.0, 0.0), Point(thickness, 0.0)]
    points += _arc(Point(outer, leg_mm - outer), inner, 180.0, 90.0)
    points += [Point(seat_mm, leg_mm - thickness), Point(seat_mm, leg_mm)]
    points += _arc(Point(outer, leg_mm - outer), outer, 90.0, 180.0)
    corners = (Point(0.0, 0.0), Point(seat_mm, leg_mm))
    return DetailPicture(
        name="PROFILE",
        area=Area(0.0, 0.0, seat_mm, leg_mm),
        marks=(Polyline(points=tuple(points), is_closed=True, stroke=OUTLINE, layer=Layer.OUTLINE),),
        stations=_corner_stations(f"{key}:profile", corners),
    )


def hole_words(hole: Hole, units: DrawingUnits) -> str:
    """Return the size of a hole or slot."""
    if hole.is_slot:
        return f"{said_length(hole.diameter_mm, units)} × {said_length(hole.slot_mm, units)} slot"
    return said_hole(hole.diameter_mm, units)


def _cross(hole: Hole) -> Iterator[Mark]:
    reach = hole.diameter_mm / 2 + _OVER_MM
    along = max(hole.slot_mm, hole.diameter_mm) / 2 + _OVER_MM
    turn = math.radians(hole.along_deg)
    for length, angle in ((along, turn), (reach, turn + math.pi / 2)):
        dx, dy = length * math.cos(angle), length * math.sin(angle)
        yield Line(
            start=Point(hole.at.x_mm - dx, hole.at.y_mm - dy),
            end=Point(hole.at.x_mm + dx, hole.at.y_mm + dy),
            stroke=CENTRE,
            layer=Layer.CENTRE,
        )


def _hole_stations(key: str, holes: Sequence[Hole]) -> tuple[Station, ...]:
    return tuple(
        Station(key=f"{key}:hole-{place}:{axis.value}", axis=axis, at=hole.at)
        for place, hole in enumerate(holes, start=1)
        for axis in Axis
    )


def _bend_stations(key: str, bends: Sequence[BendLine]) -> Iterator[Station]:
    for place, bend in enumerate(bends, start=1):
        label = f"bend {'up' if bend.is_up else 'down'} {said_angle(bend.angle_deg)}"
        if abs(bend.start.x_mm - bend.end.x_mm) < _STRAIGHT_MM:
            low = min(bend.start, bend.end, key=lambda p: p.y_mm)
            yield Station(key=f"{key}:bend-{place}", axis=Axis.ACROSS, at=low, label=label)
        elif abs(bend.start.y_mm - bend.end.y_mm) < _STRAIGHT_MM:
            left = min(bend.start, bend.end, key=lambda p: p.x_mm)
            yield Station(key=f"{key}:bend-{place}", axis=Axis.UP, at=left, label=label)


def _corner_stations(key: str, corners: Sequence[Point]) -> tuple[Station, ...]:
    return tuple(
        Station(key=f"{key}:corner-{place}:{axis.value}", axis=axis, at=corner)
        for place, corner in enumerate(corners, start=1)
        for axis in Axis
    )


def _named(key: str, holes: Sequence[Hole], units: DrawingUnits) -> Iterator[Named]:
    """Return what is written at the holes: alike ones of one name are counted at the first of them."""
    alike: dict[tuple[str, str], list[Hole]] = {}
    for hole in holes:
        alike.setdefault((hole.name, hole_words(hole, units)), []).append(hole)
    for number, ((name, words), found) in enumerate(alike.items(), start=1):
        times = f"{len(found)} × " if len(found) > 1 else ""
        first = found[0]
        yield Named(
            key=f"{key}:size-{number}",
            text=f"{name}: {times}{words}" if name else f"{times}{words}",
            at=first.at,
            radius_mm=max(first.diameter_mm, first.slot_mm) / 2,
        )


def _arc(centre: Point, radius_mm: float, start_deg: float, end_deg: float) -> list[Point]:
    count = max(2, round(abs(end_deg - start_deg) / _CHORD_DEG))
    turns = [math.radians(start_deg + (end_deg - start_deg) * k / count) for k in range(count + 1)]
    return [Point(centre.x_mm + radius_mm * math.cos(t), centre.y_mm + radius_mm * math.sin(t)) for t in turns]
