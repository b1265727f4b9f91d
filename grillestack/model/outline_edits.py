"""Every change of one outline by hand as a pure function: a thing of the nose in, the same thing with another outline out."""

from __future__ import annotations

import math
from typing import TypeVar

from msgspec.structs import replace

from grillestack.model.nose import NoseThing
from grillestack.model.outline import Point
from grillestack.model.values import ModelError

FEWEST_CORNERS = 3

Thing = TypeVar("Thing", bound=NoseThing)


def radii_of(thing: NoseThing) -> tuple[float, ...]:
    """Return one radius for each corner, 0 where it is sharp."""
    return thing.corner_radii_mm or (0.0,) * len(thing.outline)


def move_corner(thing: Thing, place: int, y_mm: float, z_mm: float) -> Thing:
    """Return the thing with that corner there."""
    outline = thing.outline
    return replace(thing, outline=(*outline[:place], Point(y_mm, z_mm), *outline[place + 1 :]))


def push_side(thing: Thing, place: int, outward_mm: float) -> Thing:
    """Return the thing with the side that begins at that corner pushed parallel to itself, along `side_normal`."""
    y, z = side_normal(thing, place)
    after = (place + 1) % len(thing.outline)
    start, end = thing.outline[place], thing.outline[after]
    thing = move_corner(thing, place, start.y_mm + outward_mm * y, start.z_mm + outward_mm * z)
    return move_corner(thing, after, end.y_mm + outward_mm * y, end.z_mm + outward_mm * z)


def side_normal(thing: NoseThing, place: int) -> tuple[float, float]:
    """Return the unit step (y, z) across the side that begins at that corner, out of the outline; (0, 0) for a point."""
    start, end = thing.outline[place], thing.outline[(place + 1) % len(thing.outline)]
    dy, dz = end.y_mm - start.y_mm, end.z_mm - start.z_mm
    length = math.hypot(dy, dz)
    if length == 0:
        return 0.0, 0.0
    anticlockwise = signed_area_mm2(thing.outline) >= 0
    y, z = (dz / length, -dy / length) if anticlockwise else (-dz / length, dy / length)
    return y + 0.0, z + 0.0


def insert_corner(thing: Thing, place: int, y_mm: float, z_mm: float) -> Thing:
    """Return the thing with one more, sharp, corner on the side that begins at that corner."""
    outline, radii = thing.outline, radii_of(thing)
    return replace(
        thing,
        outline=(*outline[: place + 1], Point(y_mm, z_mm), *outline[place + 1 :]),
        corner_radii_mm=(*radii[: place + 1], 0.0, *radii[place + 1 :]),
    )


def remove_corner(thing: Thing, place: int) -> Thing:
    """Return the thing without that corner.

    Raises
    ------
    ModelError
        If it has no more corners than an outline needs.
    """
    outline, radii = thing.outline, radii_of(thing)
    if len(outline) <= FEWEST_CORNERS:
        raise ModelError("outline", "An outline needs at least 3 corners: move this one, or remove the whole outline.")
    return replace(
        thing,
        outline=(*outline[:place], *outline[place + 1 :]),
        corner_radii_mm=(*radii[:place], *radii[place + 1 :]),
    )


def set_radius(thing: Thing, place: int, radius_mm: float) -> Thing:
    """Return the thing with that corner rounded by this radius, or sharp for 0."""
    radii = radii_of(thing)
    return replace(thing, corner_radii_mm=(*radii[:place], radius_mm, *radii[place + 1 :]))


def signed_area_mm2(outline: tuple[Point, ...]) -> float:
    """Return the area inside sharp corners, above 0 if they run from +y to +z."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(a.y_mm * b.z_mm - b.y_mm * a.z_mm for a, b in pairs) / 2
