"""From which corner of the pack all ordinates of a set of sheets are measured."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.geometry.projection import placed_boxes
from grillestack.model.parts import Core, Part
from grillestack.model.project import Project, cores, radiator
from grillestack.sheets.part_tags import part_tags


@dataclass(frozen=True, slots=True, kw_only=True)
class Datum:
    """The one datum corner, in the axes of the vehicle, and how to find it on the metal."""

    x_mm: float
    y_mm: float
    z_mm: float
    words: str


def datum_of(project: Project) -> Datum | None:
    """Return the datum corner: of the radiator, else of the largest core, else of the largest part; none in an empty pack.

    It is the lower corner at the left of the front view, on the front face of the core.
    """
    part: Part | None = radiator(project) or max(cores(project), key=_size_mm2, default=None)
    part = part or max(project.parts, key=_size_mm2, default=None)
    if part is None:
        return None
    boxes = placed_boxes(part)
    face = "the front face of its core" if isinstance(part, Core) else "its front face"
    return Datum(
        x_mm=min(corner[0] for corner in boxes[0].side_corners_mm[:2]),
        y_mm=max(box.y1_mm for box in boxes),
        z_mm=min(box.side_corners_mm[0][1] for box in boxes),
        words=f"{part_tags(project)[part.id].tag}, lower corner on the vehicle's right, at {face}",
    )


def _size_mm2(part: Part) -> float:
    return max((box.y1_mm - box.y0_mm) * (box.z1_mm - box.z0_mm) for box in placed_boxes(part))
