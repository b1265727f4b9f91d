"""How the pack stands along x: its order, the gaps in it, the room around it, and what runs into what."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from grillestack.geometry.bodies import TOUCH_MM, BodyTable, body_table
from grillestack.geometry.bonnet import lowest_between
from grillestack.geometry.fan_places import fans_in_shrouds
from grillestack.geometry.projection import PlacedBox, ProjectedPart, project_part
from grillestack.model.outline import SidePoint
from grillestack.model.project import Project, stack

GRILLE_PLANE = "grille plane"
PULLEY_PLANE = "pulley plane"
BONNET_LINE = "bonnet line"


@dataclass(frozen=True, slots=True)
class StackPlace:
    """A part's reach along x, solids and tilt included."""

    part_id: str
    x_front_mm: float
    x_rear_mm: float


@dataclass(frozen=True, slots=True)
class Gap:
    """The smallest distance along x between two neighbours that overlap in the front view; negative if they interlock."""

    front_id: str
    rear_id: str
    gap_mm: float


@dataclass(frozen=True, slots=True)
class Clearance:
    """The room between a part and something of the vehicle; negative if it is not there.

    `to` is the grille plane, the pulley plane, the bonnet line or an obstruction's id.
    """

    part_id: str
    to: str
    clearance_mm: float


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two parts, or a part and an obstruction, in the same space.

    `kind` names the two boxes that meet deepest ("tank and core"); `depth_mm` is the shortest move along x that frees them.
    """

    part_id: str
    other_id: str
    kind: str
    depth_mm: float


@dataclass(frozen=True, slots=True)
class DepthReport:
    """Everything about the pack's depth: parts from front to back, gaps, clearances and overlaps."""

    stack: tuple[StackPlace, ...]
    gaps: tuple[Gap, ...]
    clearances: tuple[Clearance, ...]
    overlaps: tuple[Overlap, ...]


def depth_report(project: Project) -> DepthReport:
    """Return the depth report of a pack.

    Distances run along x, between the parts' boxes as they lean; a fan's ring counts as round. Neighbours are two parts
    that overlap in the front view with no third one between them that overlaps both; a shroud hides nothing, and a fan
    in its own shroud is neither a neighbour nor an overlap.
    """
    parts = tuple(project_part(part) for part in stack(project))
    table = body_table(parts, project.nose.obstructions)
    own_shroud = _own_shroud(project)
    return DepthReport(
        stack=tuple(StackPlace(p.part_id, p.x_front_mm, p.x_rear_mm) for p in parts),
        gaps=_gaps(parts, table, own_shroud),
        clearances=_clearances(project, parts, table),
        overlaps=_overlaps(table, own_shroud),
    )


def _own_shroud(project: Project) -> frozenset[tuple[str, str]]:
    projected = tuple(project_part(part) for part in project.parts)
    fans = [part for part in projected if part.is_fan]
    shrouds = [part for part in projected if part.is_shroud]
    housed = fans_in_shrouds(fans, shrouds)
    pairs = {(fan.part_id, shrouds[k].part_id) for fan, k in zip(fans, housed, strict=True) if k >= 0}
    return frozenset(pairs | {(shroud, fan) for fan, shroud in pairs})


def _gaps(
    parts: tuple[ProjectedPart, ...], table: BodyTable, own_shroud: frozenset[tuple[str, str]]
) -> tuple[Gap, ...]:
    n = len(parts)
    meets = table.meets[:n, :n].tolist()
    apart = table.apart_mm[:n, :n].tolist()
    hiding = [not part.is_shroud for part in parts]
    found: list[Gap] = []
    for i in range(n):
        for j in range(i + 1, n):
            pair = (parts[i].part_id, parts[j].part_id)
            if not meets[i][j] or pair in own_shroud:
                continue
            if not any(hiding[k] and meets[i][k] and meets[k][j] for k in range(i + 1, j)):
                found.append(Gap(*pair, apart[i][j]))
    return tuple(found)


def _overlaps(table: BodyTable, own_shroud: frozenset[tuple[str, str]]) -> tuple[Overlap, ...]:
    n = table.n_parts
    found: list[Overlap] = []
    for i, j in np.argwhere(table.apart_mm < -TOUCH_MM).tolist():
        # Two obstructions may overlap: the vehicle is as it is.
        if i >= j or i >= n or (table.ids[i], table.ids[j]) in own_shroud:
            continue
        depth_mm = -float(table.apart_mm[i, j])
        found.append(Overlap(table.ids[i], table.ids[j], table.nearest_kinds(i, j), depth_mm))
    return tuple(found)


def _clearances(project: Project, parts: tuple[ProjectedPart, ...], table: BodyTable) -> tuple[Clearance, ...]:
    stations = project.nose.stations
    found: list[Clearance] = []
    n = table.n_parts
    for place, part in enumerate(parts):
        found.append(Clearance(part.part_id, GRILLE_PLANE, part.x_front_mm - stations.grille_x_mm))
        if stations.pulley_x_mm is not None:
            found.append(Clearance(part.part_id, PULLEY_PLANE, stations.pulley_x_mm - part.x_rear_mm))
        room_mm = _under_bonnet(part, stations.bonnet_line)
        if room_mm is not None:
            found.append(Clearance(part.part_id, BONNET_LINE, room_mm))
        found += [
            Clearance(part.part_id, table.ids[k], float(table.apart_mm[place, k]))
            for k in range(n, len(table.ids))
            if table.meets[place, k]
        ]
    return tuple(found)


def _under_bonnet(part: ProjectedPart, line: tuple[SidePoint, ...]) -> float | None:
    rooms = [room for box in part.boxes if (room := _room_above(box, line)) is not None]
    return min(rooms, default=None)


def _room_above(box: PlacedBox, line: tuple[SidePoint, ...]) -> float | None:
    """Return how far the lowest metal over the box's top edge lies above it, or nothing where no line is given."""
    (x_a, z_a), (x_b, z_b) = box.side_corners_mm[1:3]
    lowest_mm = lowest_between(line, min(x_a, x_b), max(x_a, x_b))
    return None if lowest_mm is None else lowest_mm - max(z_a, z_b)
