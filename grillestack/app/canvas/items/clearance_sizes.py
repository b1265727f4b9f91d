"""Which room around one part is written in the side strip: to the metal above it, and to what of the vehicle is nearest."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import ProjectedPart, project_part
from grillestack.model.nose import Obstruction
from grillestack.model.outline import SidePoint
from grillestack.model.project import Project

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.geometry.depth import DepthReport

# As geometry's depth report names it; that may not load before the first paint.
_BONNET_LINE = "bonnet line"
_FAR_MM = 150.0
_SAME_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceSize:
    """A room from the part to something of the vehicle: where it begins and ends in the side view, and how much it is."""

    from_mm: tuple[float, float]
    to_mm: tuple[float, float]
    room_mm: float


def clearance_sizes(project: Project, depth: DepthReport, part_id: str) -> tuple[ClearanceSize, ...]:
    """Return the room over the part, and that to the nearest obstruction ahead and behind, where it is near."""
    seen = project_part(project.part(part_id))
    rooms = {room.to: room.clearance_mm for room in depth.clearances if room.part_id == part_id}
    found = []
    if _BONNET_LINE in rooms:
        found.append(_over(seen, project.nose.stations.bonnet_line, rooms[_BONNET_LINE]))
    near = [o for o in project.nose.obstructions if o.id in rooms and _SAME_MM < abs(rooms[o.id]) <= _FAR_MM]
    for is_behind in (False, True):
        there = [o for o in near if _is_behind(o, seen) == is_behind]
        if there:
            nearest = min(there, key=lambda o: rooms[o.id])
            found.append(_beside(seen, nearest, rooms[nearest.id], is_behind=is_behind))
    return tuple(found)


def _over(seen: ProjectedPart, line: tuple[SidePoint, ...], room_mm: float) -> ClearanceSize:
    top = max(box.z1_mm for box in seen.boxes)
    # The metal is lowest over one end of the part, as a bonnet rises to the rear or falls to the front.
    heights = [(_height_over(line, x), x) for x in (seen.x_front_mm, seen.x_rear_mm)]
    known = [(z, x) for z, x in heights if z is not None]
    x = min(known)[1] if known else seen.x_rear_mm
    return ClearanceSize(from_mm=(x, top), to_mm=(x, top + room_mm), room_mm=room_mm)


def _height_over(line: tuple[SidePoint, ...], x_mm: float) -> float | None:
    for a, b in itertools.pairwise(line):
        left, right = (a, b) if a.x_mm <= b.x_mm else (b, a)
        if left.x_mm <= x_mm <= right.x_mm and right.x_mm > left.x_mm:
            share = (x_mm - left.x_mm) / (right.x_mm - left.x_mm)
            return left.z_mm + share * (right.z_mm - left.z_mm)
    return None


def _is_behind(thing: Obstruction, seen: ProjectedPart) -> bool:
    return thing.x_front_mm + thing.x_rear_mm > seen.x_front_mm + seen.x_rear_mm


def _beside(seen: ProjectedPart, thing: Obstruction, room_mm: float, *, is_behind: bool) -> ClearanceSize:
    box = bounds_of(traced(thing))
    z = (max(box.z0_mm, seen.outline_box.z0_mm) + min(box.z1_mm, seen.outline_box.z1_mm)) / 2
    edge = thing.x_front_mm if is_behind else thing.x_rear_mm
    away = -room_mm if is_behind else room_mm
    return ClearanceSize(from_mm=(edge + away, z), to_mm=(edge, z), room_mm=room_mm)
