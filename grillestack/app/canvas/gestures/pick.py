"""What lies under the pointer, and which of it is meant: the foremost at first, the next one at each further click."""

from __future__ import annotations

import math
from collections.abc import Sequence

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.stretch import HANDLES, Handle, handle_place
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import ProjectedPart, project_part
from grillestack.model.outline import Point
from grillestack.model.parts import Part
from grillestack.model.project import Project, stack

HANDLE_PX = 10.0
_EDGE_PX = 10.0


def under_front(project: Project, at: Pointer) -> tuple[str, ...]:
    """Return the ids of all that lies under a place of the front view: parts and obstructions from front to back, then outlines."""
    drawn = (project_part(part) for part in stack(project) if not part.hidden)
    solid = [(seen.x_front_mm, seen.part_id) for seen in drawn if _front_holds(seen, at)]
    solid += [
        (thing.x_front_mm, thing.id)
        for thing in project.nose.obstructions
        if inside(traced(thing), at.across_mm, at.z_mm)
    ]
    near_mm = _EDGE_PX / at.px_per_mm
    outlines = [o.id for o in project.nose.openings if _near(traced(o), at, near_mm)]
    window = project.nose.support_window
    if window is not None and _near(traced(window), at, near_mm):
        outlines.append(SUPPORT_WINDOW_ID)
    return (*(name for _, name in sorted(solid, key=lambda found: found[0])), *outlines)


def under_side(project: Project, at: Pointer) -> tuple[str, ...]:
    """Return the ids of the parts whose boxes lie under a place of the side strip; thin parts are easy to hit."""
    slack = 3.0 / at.px_per_mm
    found = []
    for part in stack(project):
        if part.hidden:
            continue
        boxes = project_part(part).boxes
        if any(
            box.x0_mm - slack <= at.across_mm <= box.x1_mm + slack and box.z0_mm <= at.z_mm <= box.z1_mm
            for box in boxes
        ):
            found.append(part.id)
    return tuple(found)


def under_plan(project: Project, at: Pointer) -> tuple[str, ...]:
    """Return the ids of the parts that lie under a place of the view from above, the highest first; `z_mm` is x there."""
    slack = 3.0 / at.px_per_mm
    found = []
    for part in project.parts:
        seen = project_part(part)
        if not part.hidden and any(
            box.x0_mm - slack <= at.z_mm <= box.x1_mm + slack and box.y0_mm <= at.across_mm <= box.y1_mm
            for box in seen.boxes
        ):
            found.append((-seen.outline_box.z1_mm, part.id))
    return tuple(name for _, name in sorted(found, key=lambda one: one[0]))


def handle_under(part: Part, at: Pointer) -> Handle | None:
    """Return the nearest handle of the part within reach, or nothing."""
    box = project_part(part).outline_box
    # On a part that looks small, handles must leave room to take hold of the part itself.
    smaller = min(box.y1_mm - box.y0_mm, box.z1_mm - box.z0_mm)
    reach = min(HANDLE_PX / at.px_per_mm, smaller / 4)
    best, nearest = None, reach
    for handle in HANDLES:
        y, z = handle_place(part, handle)
        away = math.hypot(at.across_mm - y, at.z_mm - z)
        if away <= nearest:
            best, nearest = handle, away
    return best


def selection_after_click(
    under: Sequence[str], selected: Sequence[str], *, adds: bool, repeated: bool
) -> tuple[str, ...]:
    """Return what a click selects: the foremost thing, behind it at each repetition, nothing on bare paper.

    A click that adds takes the foremost thing to the selection or out of it.
    """
    if not under:
        return tuple(selected) if adds else ()
    if adds:
        rest = tuple(name for name in selected if name != under[0])
        return rest if under[0] in selected else (*selected, under[0])
    return (next_in_cycle(under, selected) if repeated else under[0],)


def next_in_cycle(under: Sequence[str], selected: Sequence[str]) -> str:
    """Return what a repeated click at one place selects: the one behind that which is selected now."""
    for place, name in enumerate(under):
        if name in selected:
            return under[(place + 1) % len(under)]
    return under[0]


def inside(outline: Sequence[Point], y_mm: float, z_mm: float) -> bool:
    """Return whether a place lies inside a closed outline (even-odd rule)."""
    within = False
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (a.z_mm > z_mm) != (b.z_mm > z_mm):
            crossing = a.y_mm + (z_mm - a.z_mm) / (b.z_mm - a.z_mm) * (b.y_mm - a.y_mm)
            if y_mm < crossing:
                within = not within
    return within


def _front_holds(part: ProjectedPart, at: Pointer) -> bool:
    if part.circle is not None:
        return math.hypot(at.across_mm - part.circle.y_mm, at.z_mm - part.circle.z_mm) <= part.circle.radius_mm
    return part.outline_box.holds(at.across_mm, at.z_mm)


def _near(outline: Sequence[Point], at: Pointer, near_mm: float) -> bool:
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return any(_distance(at.across_mm, at.z_mm, a, b) <= near_mm for a, b in pairs)


def _distance(y: float, z: float, a: Point, b: Point) -> float:
    dy, dz = b.y_mm - a.y_mm, b.z_mm - a.z_mm
    length2 = dy * dy + dz * dz
    t = 0.0 if length2 == 0 else min(1.0, max(0.0, ((y - a.y_mm) * dy + (z - a.z_mm) * dz) / length2))
    return math.hypot(y - a.y_mm - t * dy, z - a.z_mm - t * dz)
