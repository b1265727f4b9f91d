"""Where in its room a part is tried: a handful of places that a fitter would think of."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

from grillestack.fit.fits import body_for, room_for
from grillestack.fit.slots import Slot
from grillestack.fit.ways import Way
from grillestack.geometry.posed_body import Body
from grillestack.geometry.projection import project_part
from grillestack.geometry.room import Room, Travel, holds, nearest_place, travel_at
from grillestack.geometry.setting import Setting
from grillestack.model.parts import Part, Placement
from grillestack.model.project import Project, radiator

Spot = tuple[float, float]
Spotted = tuple[Spot, Travel]


def placement_of(setting: Setting, way: Way, spot: Spot) -> Placement:
    """Return the placement of a part that stands that way at that place, in the plane of the lean."""
    y, z = spot
    return Placement(
        x_mm=way.x_mm + setting.lean_frac * (z - setting.lean_z_mm),
        y_mm=y,
        z_mm=z,
        quarter_turns=way.pose.quarter_turns,
        flipped=way.pose.flipped,
        tilt_deg=setting.tilt_deg,
    )


def spots_in(project: Project, slot: Slot, setting: Setting, part: Part, way: Way, most: int) -> tuple[Spotted, ...]:
    """Return the places to try in the room of that way, the present part's first, and the margin all round each.

    They are the places of the room nearest to: where the taken-out part stands; the middle of the radiator; the radiator's
    lower and upper edge, in its middle; the lowest and the highest place in the middle; the leftmost and the rightmost.
    """
    room = room_for(setting, part, way)
    body = body_for(setting, part, way.pose)
    found: dict[Spot, None] = {}
    for wanted in _wanted(project, slot, room, body):
        spot = nearest_place(room, *wanted)
        if spot is not None:
            found.setdefault(_whole(room, spot))
        if len(found) == most:
            break
    return tuple((spot, travel_at(room, *spot)) for spot in found)


def first_spot(project: Project, slot: Slot, setting: Setting, part: Part, way: Way) -> Spotted:
    """Return the first place to try: where the taken-out part stands, or as near to it as there is room."""
    return spots_in(project, slot, setting, part, way, most=1)[0]


def _wanted(project: Project, slot: Slot, room: Room, body: Body) -> Iterable[Spot]:
    if room.bounds is None:
        return
    b = room.bounds
    if slot.taken_out is not None:
        at = project.part(slot.taken_out).placement
        yield at.y_mm, at.z_mm
    main = radiator(project)
    core = project_part(main).core_box if main is not None and main.id != slot.taken_out else None
    middle = (b.y0_mm + b.y1_mm) / 2 if core is None else (core.y0_mm + core.y1_mm) / 2
    if core is not None and body.core is not None:
        own = body.core
        yield middle, (core.z0_mm + core.z1_mm) / 2 - (own.z0_mm + own.z1_mm) / 2
        yield middle, core.z0_mm - own.z0_mm
        yield middle, core.z1_mm - own.z1_mm
    yield middle, b.z0_mm
    yield middle, b.z1_mm
    height = (b.z0_mm + b.z1_mm) / 2
    yield b.y0_mm, height
    yield b.y1_mm, height


def _whole(room: Room, spot: Spot) -> Spot:
    """Return the place in whole millimetres if one next to it is in the room, else to a thousandth if that is, else as it is."""
    whole = itertools.product(*((round(v), math.floor(v), math.ceil(v)) for v in spot))
    for y, z in (*whole, (round(spot[0], 3), round(spot[1], 3))):
        if holds(room, y, z):
            return float(y), float(z)
    return spot
