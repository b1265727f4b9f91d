"""How do an outline's rounded corners run: arcs that touch both sides, flattened, and how large a radius has room."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.model.nose import NoseThing
from grillestack.model.outline import Point

# A chord stands off its arc by this much at most.
FLATNESS_MM = 0.05
_SAME_MM = 1e-9
# A turn below this is no corner, and within this of a full turn back there is no room for any arc.
_LEAST_TURN = 1e-6
_ROOM_FOR_ROUNDING_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """One corner: where it is, the unit steps (y, z) to its neighbours, how long the sides are, and half the angle between."""

    at: Point
    to_last_frac: tuple[float, float]
    to_next_frac: tuple[float, float]
    last_mm: float
    next_mm: float
    half_angle_rad: float

    @property
    def can_be_round(self) -> bool:
        """Return whether there is an angle in which an arc can stand."""
        apart = _LEAST_TURN / 2
        return min(self.last_mm, self.next_mm) > _SAME_MM and apart < self.half_angle_rad < math.pi / 2 - apart

    @property
    def inward_frac(self) -> tuple[float, float]:
        """Return the unit step along the middle between both sides, on which the arc's centre stands."""
        y, z = self.to_last_frac[0] + self.to_next_frac[0], self.to_last_frac[1] + self.to_next_frac[1]
        length = math.hypot(y, z)
        return (y / length, z / length) if length > 0 else (0.0, 0.0)

    def tangent_mm(self, radius_mm: float) -> float:
        """Return how far from the corner the arc leaves the sides."""
        return radius_mm / math.tan(self.half_angle_rad) if self.can_be_round else 0.0

    def radius_of_mm(self, tangent_mm: float) -> float:
        """Return the radius of the arc that leaves the sides so far from the corner."""
        return tangent_mm * math.tan(self.half_angle_rad) if self.can_be_round else 0.0


def corner_of(outline: Sequence[Point], place: int) -> Corner:
    """Return one corner of a closed outline with its sides."""
    at, count = outline[place], len(outline)
    to_last_frac, last_mm = _step(at, outline[place - 1])
    to_next_frac, next_mm = _step(at, outline[(place + 1) % count])
    along = to_last_frac[0] * to_next_frac[0] + to_last_frac[1] * to_next_frac[1]
    across = to_last_frac[0] * to_next_frac[1] - to_last_frac[1] * to_next_frac[0]
    half = math.atan2(abs(across), along) / 2
    return Corner(
        at=at,
        to_last_frac=to_last_frac,
        to_next_frac=to_next_frac,
        last_mm=last_mm,
        next_mm=next_mm,
        half_angle_rad=half,
    )


def fitted_radii(outline: Sequence[Point], radii_mm: Sequence[float]) -> tuple[float, ...]:
    """Return the radii as far as the sides have room for them.

    Where the arcs at both ends of a side need more than the side is long, both shrink in one proportion until they meet.
    """
    if not any(radii_mm):
        return (0.0,) * len(outline)
    found = [corner_of(outline, place) for place in range(len(outline))]
    needed = [corner.tangent_mm(radius) for corner, radius in zip(found, radii_mm, strict=True)]
    share = [1.0] * len(found)
    for place, corner in enumerate(found):
        after = (place + 1) % len(found)
        both = needed[place] + needed[after]
        if both > corner.next_mm:
            share[place] = min(share[place], corner.next_mm / both)
            share[after] = min(share[after], corner.next_mm / both)
    return tuple(
        radius * part if corner.can_be_round else 0.0
        for corner, radius, part in zip(found, radii_mm, share, strict=True)
    )


def too_large_places(outline: Sequence[Point], radii_mm: Sequence[float]) -> tuple[int, ...]:
    """Return the corners whose radius has no room and is drawn smaller."""
    if not any(radii_mm):
        return ()
    fitted = fitted_radii(outline, radii_mm)
    return tuple(
        place for place, radius in enumerate(radii_mm) if radius - fitted[place] > _ROOM_FOR_ROUNDING_MM * (1 + radius)
    )


def largest_radius_mm(outline: Sequence[Point], radii_mm: Sequence[float], place: int) -> float:
    """Return the largest radius that this corner can have beside its neighbours as they are; 0 where none has room."""
    corner, count = corner_of(outline, place), len(outline)
    fitted = fitted_radii(outline, radii_mm or (0.0,) * count)
    last, after = (place - 1) % count, (place + 1) % count
    room_mm = min(
        corner.last_mm - corner_of(outline, last).tangent_mm(fitted[last]),
        corner.next_mm - corner_of(outline, after).tangent_mm(fitted[after]),
    )
    return max(0.0, corner.radius_of_mm(room_mm))


@functools.lru_cache(maxsize=512)
def rounded_outline(outline: tuple[Point, ...], radii_mm: tuple[float, ...] = ()) -> tuple[Point, ...]:
    """Return the outline with its rounded corners as chords; with no radius it is the very same outline.

    Notes
    -----
    The corners of the chords lie on the arc, at most `FLATNESS_MM` of height over each chord. So the area is off by at
    most 2/3 of that height times the arc's length for each rounded corner: too small where the corner points outward,
    too large where it points inward.
    """
    if not any(radii_mm):
        return outline
    fitted = fitted_radii(outline, radii_mm)
    run: list[Point] = []
    for place, radius_mm in enumerate(fitted):
        for point in _arc(corner_of(outline, place), radius_mm):
            if not run or _apart(run[-1], point) > _SAME_MM:
                run.append(point)
    while len(run) > 3 and _apart(run[0], run[-1]) <= _SAME_MM:
        run.pop()
    return tuple(run)


def traced(thing: NoseThing) -> tuple[Point, ...]:
    """Return the outline of an opening, an obstruction or the support window as it runs, rounded corners as chords."""
    return rounded_outline(thing.outline, thing.corner_radii_mm)


def arc_centre(corner: Corner, radius_mm: float) -> Point:
    """Return where the centre of the arc at this corner stands."""
    away = radius_mm / math.sin(corner.half_angle_rad) if corner.can_be_round else 0.0
    y, z = corner.inward_frac
    return Point(corner.at.y_mm + away * y, corner.at.z_mm + away * z)


def _arc(corner: Corner, radius_mm: float) -> list[Point]:
    if radius_mm <= _SAME_MM:
        return [corner.at]
    centre = arc_centre(corner, radius_mm)
    turn = math.pi - 2 * corner.half_angle_rad
    chords = max(1, math.ceil(turn / (2 * math.acos(max(0.0, 1 - FLATNESS_MM / radius_mm)))))
    tangent = corner.tangent_mm(radius_mm)
    start_y = corner.at.y_mm + tangent * corner.to_last_frac[0] - centre.y_mm
    start_z = corner.at.z_mm + tangent * corner.to_last_frac[1] - centre.z_mm
    across = corner.to_last_frac[0] * corner.to_next_frac[1] - corner.to_last_frac[1] * corner.to_next_frac[0]
    step = math.copysign(turn / chords, -across)
    points = []
    for number in range(chords + 1):
        cos, sin = math.cos(number * step), math.sin(number * step)
        points.append(Point(centre.y_mm + cos * start_y - sin * start_z, centre.z_mm + sin * start_y + cos * start_z))
    return points


def _step(start: Point, end: Point) -> tuple[tuple[float, float], float]:
    dy, dz = end.y_mm - start.y_mm, end.z_mm - start.z_mm
    length = math.hypot(dy, dz)
    return ((dy / length, dz / length) if length > _SAME_MM else (0.0, 0.0)), length


def _apart(a: Point, b: Point) -> float:
    return math.hypot(a.y_mm - b.y_mm, a.z_mm - b.z_mm)
