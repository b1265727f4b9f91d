"""What a project becomes when parts and things of the nose are pushed, and how far these reach."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, project_part
from grillestack.model.edits import move_parts, set_nose
from grillestack.model.nose import Nose, Obstruction, Opening
from grillestack.model.outline import Outline, Point
from grillestack.model.project import Project


def shifted(
    project: Project, ids: Sequence[str], *, dx_mm: float = 0.0, dy_mm: float = 0.0, dz_mm: float = 0.0
) -> Project:
    """Return the project with those parts, openings, obstructions or the support window pushed by so much."""
    if dx_mm == dy_mm == dz_mm == 0.0:
        return project
    known = {part.id for part in project.parts}
    of_pack = [name for name in ids if name in known]
    project = move_parts(project, of_pack, dx_mm=dx_mm, dy_mm=dy_mm, dz_mm=dz_mm)
    of_nose = [name for name in ids if name not in known]
    return set_nose(project, _shifted_nose(project.nose, of_nose, (dx_mm, dy_mm, dz_mm))) if of_nose else project


def outline_of(project: Project, name: str) -> Box:
    """Return the box around a part, an opening, an obstruction or the support window."""
    for thing in _with_ids(project.nose):
        if thing.id == name:
            return bounds_of(traced(thing))
    if name == SUPPORT_WINDOW_ID and project.nose.support_window is not None:
        return bounds_of(traced(project.nose.support_window))
    return project_part(project.part(name)).outline_box


def name_of(project: Project, name: str) -> str:
    """Return what a part or a thing of the nose is called."""
    for thing in _with_ids(project.nose):
        if thing.id == name:
            return thing.name
    return "support window" if name == SUPPORT_WINDOW_ID else project.part(name).name


def _with_ids(nose: Nose) -> tuple[Opening | Obstruction, ...]:
    return nose.openings + nose.obstructions


def _shifted_nose(nose: Nose, ids: Sequence[str], by_mm: tuple[float, float, float]) -> Nose:
    dx, dy, dz = by_mm
    window = nose.support_window
    if window is not None and SUPPORT_WINDOW_ID in ids:
        window = replace(window, outline=_shifted_outline(window.outline, dy, dz), x_mm=window.x_mm + dx)
    openings = tuple(
        replace(o, outline=_shifted_outline(o.outline, dy, dz), x_mm=o.x_mm + dx) if o.id in ids else o
        for o in nose.openings
    )
    obstructions = tuple(
        replace(
            o,
            outline=_shifted_outline(o.outline, dy, dz),
            x_front_mm=o.x_front_mm + dx,
            x_rear_mm=o.x_rear_mm + dx,
        )
        if o.id in ids
        else o
        for o in nose.obstructions
    )
    return replace(nose, openings=openings, obstructions=obstructions, support_window=window)


def _shifted_outline(outline: Outline, dy_mm: float, dz_mm: float) -> Outline:
    if dy_mm == dz_mm == 0.0:
        return outline
    return tuple(Point(p.y_mm + dy_mm, p.z_mm + dz_mm) for p in outline)
