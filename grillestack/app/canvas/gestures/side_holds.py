"""By which places of the side view is the nose held: grille and pulley plane, bonnet line's points, obstructions' ends."""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass

from msgspec.structs import replace

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.outline_handles import HANDLE_REACH_PX
from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.nose_things import find_thing, put_thing
from grillestack.geometry.corners import traced
from grillestack.model.edits import set_nose
from grillestack.model.nose import Obstruction
from grillestack.model.outline import SidePoint
from grillestack.model.project import Project
from grillestack.model.values import ModelError

# A plane is a line over the whole height: less reach is enough to find it, and leaves what stands beside it free.
_PLANE_REACH_PX = 10.0
_ON_PLANE_MM = 0.01


class SideHeld(enum.Enum):
    """What of the nose is held in the side view."""

    GRILLE = "grille plane"
    PULLEY = "pulley plane"
    BONNET = "bonnet line"
    FRONT = "front"
    REAR = "rear"


@dataclass(frozen=True, slots=True)
class SideHold:
    """What is held; the number of the bonnet line's point, or the obstruction's id, where there are several."""

    held: SideHeld
    number: int = 0
    identifier: str = ""


def point_hold_at(project: Project, at: Pointer) -> SideHold | None:
    """Return the bonnet line's nearest point within reach, or nothing; a point is held even where it lies over a part."""
    best, nearest = None, HANDLE_REACH_PX / at.px_per_mm
    for number, point in enumerate(project.nose.stations.bonnet_line):
        away = math.hypot(point.x_mm - at.across_mm, point.z_mm - at.z_mm)
        if away < nearest:
            best, nearest = SideHold(SideHeld.BONNET, number), away
    return best


def line_hold_at(project: Project, at: Pointer) -> SideHold | None:
    """Return the nearest end of an obstruction at this height, else the nearest plane, or nothing."""
    return _end_at(project, at) or _plane_at(project, at)


def moved_hold(project: Project, hold: SideHold, dx_mm: float, dz_mm: float) -> Project:
    """Return the project with what is held pushed by so much; only points of the bonnet line move up and down.

    Openings that stand on the grille plane go with it.

    Raises
    ------
    ModelError
        If it would end where it cannot be, such as an obstruction's rear ahead of its front.
    """
    nose, stations = project.nose, project.nose.stations
    if hold.held is SideHeld.BONNET:
        line = list(stations.bonnet_line)
        point = line[hold.number]
        line[hold.number] = SidePoint(point.x_mm + dx_mm, point.z_mm + dz_mm)
        return set_nose(project, replace(nose, stations=replace(stations, bonnet_line=tuple(line))))
    if hold.held is SideHeld.PULLEY and stations.pulley_x_mm is not None:
        moved = replace(stations, pulley_x_mm=stations.pulley_x_mm + dx_mm)
        return set_nose(project, replace(nose, stations=moved))
    if hold.held is SideHeld.GRILLE:
        openings = tuple(
            replace(o, x_mm=o.x_mm + dx_mm) if abs(o.x_mm - stations.grille_x_mm) <= _ON_PLANE_MM else o
            for o in nose.openings
        )
        moved = replace(stations, grille_x_mm=stations.grille_x_mm + dx_mm)
        return set_nose(project, replace(nose, stations=moved, openings=openings))
    thing = find_thing(project, hold.identifier)
    if not isinstance(thing, Obstruction):
        raise ModelError("id", "What was held is no longer in the nose: take hold of something else.")
    if hold.held is SideHeld.FRONT:
        return put_thing(project, replace(thing, x_front_mm=min(thing.x_front_mm + dx_mm, thing.x_rear_mm)))
    return put_thing(project, replace(thing, x_rear_mm=max(thing.x_rear_mm + dx_mm, thing.x_front_mm)))


def hold_place(project: Project, hold: SideHold) -> tuple[float, float | None]:
    """Return x of what is held, and its height if it has one."""
    stations = project.nose.stations
    if hold.held is SideHeld.BONNET:
        point = stations.bonnet_line[hold.number]
        return point.x_mm, point.z_mm
    if hold.held is SideHeld.GRILLE:
        return stations.grille_x_mm, None
    if hold.held is SideHeld.PULLEY:
        return stations.pulley_x_mm or 0.0, None
    thing = find_thing(project, hold.identifier)
    if not isinstance(thing, Obstruction):
        return 0.0, None
    return (thing.x_front_mm if hold.held is SideHeld.FRONT else thing.x_rear_mm), None


def hold_words(project: Project, hold: SideHold) -> str:
    """Return what is held in the job's words."""
    if hold.held is SideHeld.BONNET:
        return "a point of the bonnet line"
    if hold.held in (SideHeld.GRILLE, SideHeld.PULLEY):
        return f"the {hold.held.value}"
    thing = find_thing(project, hold.identifier)
    name = thing.name if isinstance(thing, Obstruction) else "obstruction"
    return f"the {hold.held.value} of {name}"


def _end_at(project: Project, at: Pointer) -> SideHold | None:
    best, nearest = None, HANDLE_REACH_PX / at.px_per_mm
    for thing in project.nose.obstructions:
        box = bounds_of(traced(thing))
        if not box.z0_mm <= at.z_mm <= box.z1_mm:
            continue
        for held, x_mm in ((SideHeld.FRONT, thing.x_front_mm), (SideHeld.REAR, thing.x_rear_mm)):
            away = abs(at.across_mm - x_mm)
            if away < nearest:
                best, nearest = SideHold(held, identifier=thing.id), away
    return best


def _plane_at(project: Project, at: Pointer) -> SideHold | None:
    stations = project.nose.stations
    best, nearest = None, _PLANE_REACH_PX / at.px_per_mm
    for held, x_mm in ((SideHeld.GRILLE, stations.grille_x_mm), (SideHeld.PULLEY, stations.pulley_x_mm)):
        if x_mm is not None and abs(at.across_mm - x_mm) <= nearest:
            best, nearest = SideHold(held), abs(at.across_mm - x_mm)
    return best
