"""Is there room for a changed pack: nothing new in the same space, nothing nearer than practice allows, nothing out of the window."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from grillestack.advice.depth import (
    BONNET_LEAST_MM,
    CORE_TO_FAN_LEAST_MM,
    GAP_LEAST_MM,
    OBSTRUCTION_LEAST_MM,
    PULLEY_LEAST_MM,
)
from grillestack.geometry.corners import traced
from grillestack.geometry.depth import BONNET_LINE, GRILLE_PLANE, PULLEY_PLANE, DepthReport, depth_report
from grillestack.geometry.projection import Box, project_part
from grillestack.model.nose import SupportWindow
from grillestack.model.parts import Core, Fan
from grillestack.model.project import Project, cores

# What was too near before may stay as near, to within the play of a tape.
_SLACK_MM: Final = 0.1
_LEAST_MM: Final = {GRILLE_PLANE: 0.0, PULLEY_PLANE: PULLEY_LEAST_MM, BONNET_LINE: BONNET_LEAST_MM}


@dataclass(frozen=True, slots=True)
class Margins:
    """Room on the four sides of a box within the support window; negative where the box stands out of it."""

    left_mm: float
    right_mm: float
    down_mm: float
    up_mm: float


def has_room(before: Project, stood: DepthReport, after: Project) -> bool:
    """Return whether the changed pack can be built where the present one can.

    What is wrong already may stay as wrong, but not get worse. `stood` is the depth report of the present pack.
    """
    stands = depth_report(after)
    return (
        _no_new_overlap(stood, stands)
        and _clear_of_the_vehicle(stood, stands)
        and _gaps_kept(stood, after, stands)
        and _within_the_window(before, after)
    )


def window_margins(window: SupportWindow, part: Core) -> Margins:
    """Return the room of a core within the support window's bounds.

    What stands wholly ahead of the plate needs only its core before the hole; anything else must go through it whole.
    """
    placed = project_part(part)
    ahead = placed.x_rear_mm <= window.x_mm
    box = placed.core_box if ahead and placed.core_box is not None else placed.outline_box
    hole = window_bounds(window)
    return Margins(box.y0_mm - hole.y0_mm, hole.y1_mm - box.y1_mm, box.z0_mm - hole.z0_mm, hole.z1_mm - box.z1_mm)


def window_bounds(window: SupportWindow) -> Box:
    """Return the bounds of the hole in the core support."""
    outline = traced(window)
    ys, zs = [point.y_mm for point in outline], [point.z_mm for point in outline]
    return Box(min(ys), min(zs), max(ys), max(zs))


def _no_new_overlap(stood: DepthReport, stands: DepthReport) -> bool:
    known = {frozenset((o.part_id, o.other_id)): o.depth_mm for o in stood.overlaps}
    return all(
        overlap.depth_mm <= known.get(frozenset((overlap.part_id, overlap.other_id)), 0.0) + _SLACK_MM
        for overlap in stands.overlaps
    )


def _clear_of_the_vehicle(stood: DepthReport, stands: DepthReport) -> bool:
    known = {(c.part_id, c.to): c.clearance_mm for c in stood.clearances}
    return all(
        _enough(c.clearance_mm, _LEAST_MM.get(c.to, OBSTRUCTION_LEAST_MM), known.get((c.part_id, c.to)))
        for c in stands.clearances
    )


def _gaps_kept(stood: DepthReport, after: Project, stands: DepthReport) -> bool:
    known = {frozenset((gap.front_id, gap.rear_id)): gap.gap_mm for gap in stood.gaps}
    for gap in stands.gaps:
        kinds = [type(after.part(part_id)) for part_id in (gap.front_id, gap.rear_id)]
        least_mm = (
            GAP_LEAST_MM if kinds == [Core, Core] else CORE_TO_FAN_LEAST_MM if set(kinds) == {Core, Fan} else None
        )
        if least_mm is not None and not _enough(
            gap.gap_mm, least_mm, known.get(frozenset((gap.front_id, gap.rear_id)))
        ):
            return False
    return True


def _within_the_window(before: Project, after: Project) -> bool:
    window = after.nose.support_window
    if window is None:
        return True
    known = {core.id: window_margins(window, core) for core in cores(before)}
    for core in cores(after):
        now, then = window_margins(window, core), known.get(core.id)
        sides = ("left_mm", "right_mm", "down_mm", "up_mm")
        if not all(_enough(getattr(now, side), 0.0, None if then is None else getattr(then, side)) for side in sides):
            return False
    return True


def _enough(room_mm: float, least_mm: float, before_mm: float | None) -> bool:
    allowed_mm = least_mm if before_mm is None else min(least_mm, before_mm)
    return room_mm >= allowed_mm - _SLACK_MM
