"""What of the vehicle is drawn beside the pack: openings, support window, obstructions, bonnet line, planes; cut to a box."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.geometry.corners import traced
from grillestack.geometry.depth import BONNET_LINE, GRILLE_PLANE, PULLEY_PLANE
from grillestack.model.nose import Nose, NoseThing
from grillestack.sheets.view_faces import Looking, Seen, seen


@dataclass(frozen=True, slots=True)
class Bounds:
    """An upright rectangle of a view, in mm at full size."""

    u0_mm: float
    v0_mm: float
    u1_mm: float
    v1_mm: float

    def grown(self, across_mm: float, up_mm: float) -> Bounds:
        """Return the rectangle with that much more at both sides, and above and below."""
        return Bounds(self.u0_mm - across_mm, self.v0_mm - up_mm, self.u1_mm + across_mm, self.v1_mm + up_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleLine:
    """One straight piece of the vehicle's outlines and what it belongs to."""

    name: str
    start: Seen
    end: Seen


def bounds_of(points: list[Seen]) -> Bounds:
    """Return the rectangle around some points."""
    us, vs = [p.u_mm for p in points], [p.v_mm for p in points]
    return Bounds(min(us), min(vs), max(us), max(vs))


def vehicle_lines(nose: Nose, looking: Looking, box: Bounds) -> tuple[VehicleLine, ...]:
    """Return the vehicle's lines in a view, as far as they lie within the box."""
    found = []
    for name, start, end in _lines(nose, looking):
        cut = _cut(start, end, box)
        if cut is not None:
            found.append(VehicleLine(name=name, start=cut[0], end=cut[1]))
    return tuple(found)


def _lines(nose: Nose, looking: Looking) -> Iterator[tuple[str, Seen, Seen]]:
    if looking is Looking.AHEAD:
        things: list[tuple[str, NoseThing]] = [(opening.name, opening) for opening in nose.openings]
        things += [(obstruction.name, obstruction) for obstruction in nose.obstructions]
        if nose.support_window is not None:
            things.append(("Support window", nose.support_window))
        for name, thing in things:
            corners = [seen(looking, 0.0, p.y_mm, p.z_mm) for p in traced(thing)]
            yield from ((name, a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))
        return
    yield from _planes(nose, looking)
    for thing in nose.obstructions:
        low, high = _reach(thing, looking)
        yield from _rectangle(thing.name, looking, (thing.x_front_mm, thing.x_rear_mm), (low, high))
    if looking is Looking.ABOVE:
        return
    line = [seen(looking, p.x_mm, 0.0, p.z_mm) for p in nose.stations.bonnet_line]
    yield from ((BONNET_LINE.capitalize(), a, b) for a, b in itertools.pairwise(line))


def _planes(nose: Nose, looking: Looking) -> Iterator[tuple[str, Seen, Seen]]:
    """Return what stands across the vehicle: the planes of grille and pulley."""
    stations = nose.stations
    planes = [(GRILLE_PLANE, stations.grille_x_mm)]
    if stations.pulley_x_mm is not None:
        planes.append((PULLEY_PLANE, stations.pulley_x_mm))
    for name, x in planes:
        yield name.capitalize(), _far(looking, x, -1), _far(looking, x, 1)


def _far(looking: Looking, x_mm: float, side: int) -> Seen:
    return seen(looking, x_mm, side * 1e5, side * 1e5)


def _reach(thing: NoseThing, looking: Looking) -> tuple[float, float]:
    values = [p.y_mm if looking is Looking.ABOVE else p.z_mm for p in thing.outline]
    return min(values), max(values)


def _rectangle(
    name: str, looking: Looking, x_mm: tuple[float, float], other_mm: tuple[float, float]
) -> Iterator[tuple[str, Seen, Seen]]:
    corners = [
        seen(looking, x, other, other)
        for x, other in (
            (x_mm[0], other_mm[0]),
            (x_mm[1], other_mm[0]),
            (x_mm[1], other_mm[1]),
            (x_mm[0], other_mm[1]),
        )
    ]
    yield from ((name, a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))


def _cut(a: Seen, b: Seen, box: Bounds) -> tuple[Seen, Seen] | None:
    """Return the part of a line within the box (Liang and Barsky's way)."""
    low, high = 0.0, 1.0
    du, dv = b.u_mm - a.u_mm, b.v_mm - a.v_mm
    for step, room in (
        (-du, a.u_mm - box.u0_mm),
        (du, box.u1_mm - a.u_mm),
        (-dv, a.v_mm - box.v0_mm),
        (dv, box.v1_mm - a.v_mm),
    ):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if high <= low:
        return None
    return (
        Seen(a.u_mm + low * du, a.v_mm + low * dv),
        Seen(a.u_mm + high * du, a.v_mm + high * dv),
    )
