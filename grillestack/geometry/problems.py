"""What is wrong with the drawn nose itself: outlines that cannot be what was meant."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from grillestack.geometry.corners import too_large_places
from grillestack.geometry.outlines import SLIVER_MM2, outline_shape
from grillestack.model.nose import Nose, NoseThing

SUPPORT_WINDOW = "support window"


class ProblemKind(enum.Enum):
    """What is wrong."""

    CROSSES_ITSELF = "the outline crosses itself"
    NO_AREA = "the outline encloses no area"
    RADIUS_TOO_LARGE = "a corner radius has no room between its sides and is drawn smaller"


@dataclass(frozen=True, slots=True)
class GeometryProblem:
    """One thing that is wrong, and with what: the id of an opening or an obstruction, or the support window.

    `places` counts the corners it is about, 0 where it is about the outline as a whole.
    """

    kind: ProblemKind
    subject: str
    places: int = 0


def nose_problems(nose: Nose) -> tuple[GeometryProblem, ...]:
    """Return what is wrong with the outlines of openings, obstructions and support window."""
    things: list[tuple[str, NoseThing]] = [(opening.id, opening) for opening in nose.openings]
    things += [(obstruction.id, obstruction) for obstruction in nose.obstructions]
    if nose.support_window is not None:
        things.append((SUPPORT_WINDOW, nose.support_window))
    return tuple(problem for subject, thing in things for problem in _wrong_with(subject, thing))


def _wrong_with(subject: str, thing: NoseThing) -> list[GeometryProblem]:
    shape = outline_shape(thing.outline, thing.corner_radii_mm)
    if shape.area_mm2 <= SLIVER_MM2:
        return [GeometryProblem(ProblemKind.NO_AREA, subject)]
    found = [GeometryProblem(ProblemKind.CROSSES_ITSELF, subject)] if shape.crosses_itself else []
    places = too_large_places(thing.outline, thing.corner_radii_mm)
    if places:
        found.append(GeometryProblem(ProblemKind.RADIUS_TOO_LARGE, subject, len(places)))
    return found
