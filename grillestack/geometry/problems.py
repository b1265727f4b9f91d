"""What is wrong with the drawn geometry itself: outlines that cannot be what was meant, cores where no air arrives."""

from __future__ import annotations

import enum
from dataclasses import dataclass

import numpy as np

from grillestack.geometry.corners import too_large_places
from grillestack.geometry.outlines import SLIVER_MM2, outline_shape
from grillestack.geometry.overlay import Overlay
from grillestack.model.nose import NoseThing, Obstruction, Opening
from grillestack.model.project import Project

SUPPORT_WINDOW = "support window"


class ProblemKind(enum.Enum):
    """What is wrong."""

    CROSSES_ITSELF = "the outline crosses itself"
    NO_AREA = "the outline encloses no area"
    RADIUS_TOO_LARGE = "a corner radius has no room between its sides and is drawn smaller"
    OUTSIDE_JET = "no air from an opening arrives straight at the core"


@dataclass(frozen=True, slots=True)
class GeometryProblem:
    """One thing that is wrong, and with what: the id of an opening, an obstruction or a core, or the support window."""

    kind: ProblemKind
    subject: str


def geometry_problems(project: Project, overlay: Overlay) -> tuple[GeometryProblem, ...]:
    """Return what is wrong with the nose's outlines and which cores lie wholly outside the openings' reach."""
    nose = project.nose
    listed: tuple[Opening | Obstruction, ...] = (*nose.openings, *nose.obstructions)
    things: list[tuple[str, NoseThing]] = [(thing.id, thing) for thing in listed]
    if nose.support_window is not None:
        things.append((SUPPORT_WINDOW, nose.support_window))
    found = [GeometryProblem(kind, subject) for subject, thing in things for kind in _wrong_with(thing)]
    if nose.openings:
        reached = np.logical_or.reduce(overlay.core_hit & overlay.in_opening[:, None], axis=0)
        found += [
            GeometryProblem(ProblemKind.OUTSIDE_JET, core_id)
            for core_id, in_air in zip(overlay.core_ids, reached, strict=True)
            if not in_air
        ]
    return tuple(found)


def _wrong_with(thing: NoseThing) -> list[ProblemKind]:
    shape = outline_shape(thing.outline, thing.corner_radii_mm)
    if shape.area_mm2 <= SLIVER_MM2:
        return [ProblemKind.NO_AREA]
    found = [ProblemKind.CROSSES_ITSELF] if shape.crosses_itself else []
    return [*found, ProblemKind.RADIUS_TOO_LARGE] if too_large_places(thing.outline, thing.corner_radii_mm) else found
