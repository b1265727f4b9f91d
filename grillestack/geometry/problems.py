"""What is wrong with the drawn geometry itself: outlines that cannot be what was meant, cores where no air arrives."""

from __future__ import annotations

import enum
from dataclasses import dataclass

import numpy as np

from grillestack.geometry.outlines import SLIVER_MM2, Shape, outline_shape
from grillestack.geometry.overlay import Overlay
from grillestack.model.project import Project

SUPPORT_WINDOW = "support window"


class ProblemKind(enum.Enum):
    """What is wrong."""

    CROSSES_ITSELF = "the outline crosses itself"
    NO_AREA = "the outline encloses no area"
    OUTSIDE_JET = "no air from an opening arrives straight at the core"


@dataclass(frozen=True, slots=True)
class GeometryProblem:
    """One thing that is wrong, and with what: the id of an opening, an obstruction or a core, or the support window."""

    kind: ProblemKind
    subject: str


def geometry_problems(project: Project, overlay: Overlay) -> tuple[GeometryProblem, ...]:
    """Return what is wrong with the nose's outlines and which cores lie wholly outside the openings' reach."""
    nose = project.nose
    outlines = [(opening.id, outline_shape(opening.outline)) for opening in nose.openings]
    outlines += [(obstruction.id, outline_shape(obstruction.outline)) for obstruction in nose.obstructions]
    if nose.support_window is not None:
        outlines.append((SUPPORT_WINDOW, outline_shape(nose.support_window.outline)))
    found = [GeometryProblem(kind, subject) for subject, shape in outlines for kind in _wrong_with(shape)]
    if nose.openings:
        reached = np.logical_or.reduce(overlay.core_hit & overlay.in_opening[:, None], axis=0)
        found += [
            GeometryProblem(ProblemKind.OUTSIDE_JET, core_id)
            for core_id, in_air in zip(overlay.core_ids, reached, strict=True)
            if not in_air
        ]
    return tuple(found)


def _wrong_with(shape: Shape) -> list[ProblemKind]:
    if shape.area_mm2 <= SLIVER_MM2:
        return [ProblemKind.NO_AREA]
    return [ProblemKind.CROSSES_ITSELF] if shape.crosses_itself else []
