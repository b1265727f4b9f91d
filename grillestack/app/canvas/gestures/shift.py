"""What a project becomes when parts and things of the nose are pushed over the face of the nose."""

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


def shifted(project: Project, ids: Sequence[str], dy_mm: float, dz_mm: float) -> Project:
    """Return the project with those parts, openings, obstructions or the support window pushed by so much."""
    if dy_mm == 0.0 and dz_mm == 0.0:
        return project
    known = {part.id for part in project.parts}
    project = move_parts(project, [name for name in ids if name in known], dy_mm=dy_mm, dz_mm=dz_mm)
    of_nose = [name for name in ids if name not in known]
    return set_nose(project, _shifted_nose(project.nose, of_nose, dy_mm, dz_mm)) if of_nose else project


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


def _shifted_nose(nose: Nose, ids: Sequence[str], dy_mm: float, dz_mm: float) -> Nose:
    window = nose.support_window
    if window is not None and SUPPORT_WINDOW_ID in ids:
        window = replace(window, outline=_shifted_outline(window.outline, dy_mm, dz_mm))
    return replace(
        nose,
        openings=tuple(
            replace(o, outline=_shifted_outline(o.outline, dy_mm, dz_mm)) if o.id in ids else o for o in nose.openings
        ),
        obstructions=tuple(
            replace(o, outline=_shifted_outline(o.outline, dy_mm, dz_mm)) if o.id in ids else o
            for o in nose.obstructions
        ),
        support_window=window,
    )


def _shifted_outline(outline: Outline, dy_mm: float, dz_mm: float) -> Outline:
    return tuple(Point(p.y_mm + dy_mm, p.z_mm + dz_mm) for p in outline)
