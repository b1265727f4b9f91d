"""Which gaps are written in the side strip, and between which planes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from grillestack.geometry.projection import ProjectedPart, project_part
from grillestack.model.project import Project

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.geometry.depth import DepthReport

_SAME_MM = 0.05


@dataclass(frozen=True, slots=True)
class GapSize:
    """The room along x between two neighbours, or between the pack and a plane of the vehicle."""

    from_x_mm: float
    to_x_mm: float
    z_mm: float
    room_mm: float


def gap_sizes(project: Project, depth: DepthReport) -> tuple[GapSize, ...]:
    """Return the gaps between neighbours and from the pack's ends to grille and pulley plane, from front to rear."""
    found: list[GapSize] = []
    for gap in depth.gaps:
        front, rear = (project_part(project.part(i)) for i in (gap.front_id, gap.rear_id))
        low = max(front.outline_box.z0_mm, rear.outline_box.z0_mm)
        high = min(front.outline_box.z1_mm, rear.outline_box.z1_mm)
        if abs(gap.gap_mm) > _SAME_MM and not rear.is_fan:
            start, end = _planes(front, rear, gap.gap_mm)
            found.append(GapSize(start, end, (low + high) / 2, gap.gap_mm))
    places = depth.stack
    if places:
        foremost = min(places, key=lambda place: place.x_front_mm)
        hindmost = max(places, key=lambda place: place.x_rear_mm)
        first = project_part(project.part(foremost.part_id)).outline_box
        last = project_part(project.part(hindmost.part_id)).outline_box
        grille = project.nose.stations.grille_x_mm
        pulley = project.nose.stations.pulley_x_mm
        if abs(foremost.x_front_mm - grille) > _SAME_MM:
            found.append(
                GapSize(grille, foremost.x_front_mm, (first.z0_mm + first.z1_mm) / 2, foremost.x_front_mm - grille)
            )
        if pulley is not None:
            room = pulley - hindmost.x_rear_mm
            found.append(GapSize(hindmost.x_rear_mm, pulley, (last.z0_mm + last.z1_mm) / 2, room))
    return tuple(sorted(found, key=lambda size: size.from_x_mm))


def _planes(front: ProjectedPart, rear: ProjectedPart, gap_mm: float) -> tuple[float, float]:
    """Return the two planes that the gap lies between: of the cores if it is theirs, else of tanks and plates."""
    for start in (front.core_x_rear_mm, front.x_rear_mm):
        for end in (rear.core_x_front_mm, rear.x_front_mm):
            if abs(end - start - gap_mm) < _SAME_MM:
                return start, end
    return rear.x_front_mm - gap_mm, rear.x_front_mm
