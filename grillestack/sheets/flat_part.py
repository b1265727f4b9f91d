"""A piece of sheet metal laid flat: its outline, holes, slots, further openings and the lines on which it is bent."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.sheets.draw_list import Circle, Layer, Line, LineKind, Mark, Point, Polyline, Stroke, Weight
from grillestack.sheets.paper import Area

# Round ends of slots are cut as chords this far apart; on a radius of 10 mm they lie within 0.01 mm of the arc.
_CHORD_DEG = 5.0
BEND_STROKE = Stroke(LineKind.DOUBLE_CHAIN, Weight.NARROW)
CUT_STROKE = Stroke(LineKind.CONTINUOUS, Weight.WIDE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole; a slot where `slot_mm`, its length over all, is larger than its width, lying along `along_deg`."""

    at: Point
    diameter_mm: float
    slot_mm: float = 0.0
    along_deg: float = 0.0
    name: str = ""

    @property
    def is_slot(self) -> bool:
        """Return whether it is longer than wide."""
        return self.slot_mm > self.diameter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class BendLine:
    """The middle of a bend; up is towards whoever looks at the drawing."""

    start: Point
    end: Point
    angle_deg: float = 90.0
    is_up: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPart:
    """The blank of one piece, in mm from the lower left corner of the rectangle around it."""

    contour: tuple[Point, ...]
    holes: tuple[Hole, ...] = ()
    openings: tuple[tuple[Point, ...], ...] = ()
    bends: tuple[BendLine, ...] = ()

    @property
    def area(self) -> Area:
        """Return the rectangle around the outline."""
        xs, ys = [p.x_mm for p in self.contour], [p.y_mm for p in self.contour]
        return Area(min(xs), min(ys), max(xs), max(ys))


def slot_outline(hole: Hole) -> tuple[Point, ...]:
    """Return the closed outline of a slot, its round ends as chords whose corners lie on the arcs."""
    radius = hole.diameter_mm / 2
    half = (hole.slot_mm - hole.diameter_mm) / 2
    turn = math.radians(hole.along_deg)
    steps = round(180 / _CHORD_DEG)
    points = []
    for end in (1, -1):
        for step in range(steps + 1):
            around = math.radians(-90 + step * _CHORD_DEG + (0 if end == 1 else 180))
            x, y = end * half + radius * math.cos(around), radius * math.sin(around)
            points.append(
                Point(
                    hole.at.x_mm + x * math.cos(turn) - y * math.sin(turn),
                    hole.at.y_mm + x * math.sin(turn) + y * math.cos(turn),
                )
            )
    return tuple(points)


def rectangle(area: Area) -> tuple[Point, ...]:
    """Return the corners of an upright rectangle, anticlockwise from the lower left."""
    return (
        Point(area.x0_mm, area.y0_mm),
        Point(area.x1_mm, area.y0_mm),
        Point(area.x1_mm, area.y1_mm),
        Point(area.x0_mm, area.y1_mm),
    )


def flat_marks(flat: FlatPart, origin: Point, scale_factor: float) -> Iterator[Mark]:
    """Return the blank on paper: every cut once, on its own layer; bend lines on theirs."""

    def at(point: Point) -> Point:
        return Point(origin.x_mm + point.x_mm / scale_factor, origin.y_mm + point.y_mm / scale_factor)

    for outline in (flat.contour, *flat.openings):
        yield Polyline(points=tuple(at(p) for p in outline), is_closed=True, stroke=CUT_STROKE, layer=Layer.CUT)
    for hole in flat.holes:
        if hole.is_slot:
            points = tuple(at(p) for p in slot_outline(hole))
            yield Polyline(points=points, is_closed=True, stroke=CUT_STROKE, layer=Layer.CUT)
        else:
            radius = hole.diameter_mm / 2 / scale_factor
            yield Circle(centre=at(hole.at), radius_mm=radius, stroke=CUT_STROKE, layer=Layer.CUT)
    for bend in flat.bends:
        yield Line(start=at(bend.start), end=at(bend.end), stroke=BEND_STROKE, layer=Layer.BEND)


def mirrored(flat: FlatPart) -> FlatPart:
    """Return the blank mirrored left to right; the bend lines then go to the same side of the other hand's piece."""
    width = flat.area.x0_mm + flat.area.x1_mm

    def turned(point: Point) -> Point:
        return Point(width - point.x_mm, point.y_mm)

    return FlatPart(
        contour=tuple(turned(p) for p in reversed(flat.contour)),
        holes=tuple(
            Hole(
                at=turned(h.at),
                diameter_mm=h.diameter_mm,
                slot_mm=h.slot_mm,
                along_deg=180 - h.along_deg,
                name=h.name,
            )
            for h in flat.holes
        ),
        openings=tuple(tuple(turned(p) for p in reversed(outline)) for outline in flat.openings),
        bends=tuple(
            BendLine(start=turned(b.start), end=turned(b.end), angle_deg=b.angle_deg, is_up=b.is_up) for b in flat.bends
        ),
    )
