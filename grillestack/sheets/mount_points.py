"""The mount points of the cores as the frame takes hold of them: on which face each sits, what stands in it, which end is free."""

from __future__ import annotations

import enum
from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.model.parts import Core, CoreRole, Mount
from grillestack.model.project import Project, cores
from grillestack.sheets.paper import Area
from grillestack.sheets.part_plane import InPlane, own_point, plane_area
from grillestack.sheets.thermal_growth import charge_rise_k, growth_mm

# A mount this near to an edge of the part sits on that face.
_AT_EDGE_MM = 15.0
# Where a part states no mounts: pins so far in from its ends, common practice, no source.
_ASSUMED_IN_MM, _ASSUMED_HOLE_MM = 60.0, 10.0
VERIFY = "assumed: verify on part"


class Sits(enum.Enum):
    """On which face of a core a mount sits; its pin or bolt stands out of that face."""

    BELOW = "below"
    ABOVE = "above"
    SIDE = "side"
    FACE = "face"


class End(enum.Enum):
    """Whether an end of a core that grows is held or let slide."""

    PLAIN = "plain"
    FIXED = "fixed"
    FREE = "free"


@dataclass(frozen=True, slots=True, kw_only=True)
class MountPoint:
    """One mount of a core, in the core's plane as seen from ahead."""

    core: Core
    place: int
    at: InPlane
    hole_mm: float
    sits: Sits
    end: End = End.PLAIN
    growth_mm: float = 0.0
    is_pin: bool = False
    is_assumed: bool = False


def mount_points(project: Project) -> tuple[MountPoint, ...]:
    """Return the mounts of all cores from front to back; those of a core that states none are assumed."""
    return tuple(point for core in cores(project) for point in _points(project, core))


def _points(project: Project, core: Core) -> tuple[MountPoint, ...]:
    area = plane_area(core)
    placed = [(own_point(core, m.u_mm, m.v_mm, m.w_mm), m) for m in core.mounts]
    is_assumed = not placed
    if is_assumed:
        placed = list(_assumed(core, area))
    points = [
        MountPoint(
            core=core,
            place=place,
            at=at,
            hole_mm=mount.hole_mm,
            sits=_sits(at, area),
            is_pin="pin" in mount.kind_text.casefold(),
            is_assumed=is_assumed,
        )
        for place, (at, mount) in enumerate(placed, start=1)
    ]
    if core.role is not CoreRole.CHARGE_AIR_COOLER:
        return tuple(points)
    return _with_ends(points, [mount for _, mount in placed], charge_rise_k(project))


def _with_ends(points: list[MountPoint], mounts: list[Mount], rise_k: float) -> tuple[MountPoint, ...]:
    """Return the mounts of a hot core: one end fixed, the other free by what the length between them grows."""
    free = [_is_free(point, mount, points) for point, mount in zip(points, mounts, strict=True)]
    if all(free) or not any(free):
        free = [_is_free(point, None, points) for point in points]
    fixed = [p.at.across_mm for p, is_free in zip(points, free, strict=True) if not is_free]
    found = []
    for point, is_free in zip(points, free, strict=True):
        length = min((abs(point.at.across_mm - a) for a in fixed), default=0.0)
        if is_free:
            length = max((abs(point.at.across_mm - a) for a in fixed), default=0.0)
        found.append(
            MountPoint(
                core=point.core,
                place=point.place,
                at=point.at,
                hole_mm=point.hole_mm,
                sits=point.sits,
                end=End.FREE if is_free else End.FIXED,
                growth_mm=growth_mm(length, rise_k) if is_free else 0.0,
                is_pin=point.is_pin,
                is_assumed=point.is_assumed,
            )
        )
    return tuple(found)


def _is_free(point: MountPoint, mount: Mount | None, points: list[MountPoint]) -> bool:
    """Return whether a mount is let slide: as its words say, else at the vehicle's left end."""
    words = "" if mount is None else mount.kind_text.casefold()
    if "free" in words or "slot" in words:
        return True
    if "fixed" in words or "round" in words:
        return False
    middle = (min(p.at.across_mm for p in points) + max(p.at.across_mm for p in points)) / 2
    return point.at.across_mm > middle


def _assumed(core: Core, area: Area) -> Iterator[tuple[InPlane, Mount]]:
    inwards = min(_ASSUMED_IN_MM, area.width_mm / 4)
    for up in (area.y0_mm, area.y1_mm):
        for across in (area.x0_mm + inwards, area.x1_mm - inwards):
            at = InPlane(across, up, core.depth_mm / 2)
            yield at, Mount(u_mm=0.0, v_mm=0.0, hole_mm=_ASSUMED_HOLE_MM, kind_text="pin")


def _sits(at: InPlane, area: Area) -> Sits:
    """Return the face that a mount sits on: the nearest edge, or the front or rear face if none is near."""
    near = {
        Sits.BELOW: at.up_mm - area.y0_mm,
        Sits.ABOVE: area.y1_mm - at.up_mm,
        Sits.SIDE: min(at.across_mm - area.x0_mm, area.x1_mm - at.across_mm),
    }
    face = min(near, key=lambda sits: near[sits])
    return face if near[face] <= _AT_EDGE_MM else Sits.FACE
