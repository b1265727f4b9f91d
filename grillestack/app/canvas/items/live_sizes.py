"""Which sizes are shown at a selected part: from each of its sides to the nearest edge that it could be set against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.app.canvas.gestures.snap import Axis, bounds_of
from grillestack.app.canvas.trade_names import clear_words
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, project_part
from grillestack.model.project import Project

_SAME_MM = 0.05


@dataclass(frozen=True, slots=True)
class LiveSize:
    """A distance along one axis from a side of the selected part to an edge, and where along the other axis it is drawn.

    It may as well be drawn anywhere else along that side, from `side_from_mm` to `side_to_mm`.
    """

    axis: Axis
    from_mm: float
    to_mm: float
    beside_mm: float
    to_words: str
    side_from_mm: float
    side_to_mm: float

    @property
    def length_mm(self) -> float:
        """Return the distance, never negative."""
        return abs(self.to_mm - self.from_mm)


@dataclass(frozen=True, slots=True)
class _EdgeBox:
    box: Box
    words: str


def live_sizes(project: Project, part_id: str) -> tuple[LiveSize, ...]:
    """Return at most one size per side: to the nearest edge of the opening or of another core that lies beside that side.

    Edges that the side already touches need no size; if nothing lies beside a side, none is shown.
    """
    own = project_part(project.part(part_id)).outline_box
    others = _edges(project, part_id)
    found = []
    for low_side in (True, False):
        y = own.y0_mm if low_side else own.y1_mm
        beside = [o for o in others if _spans_meet(own.z0_mm, own.z1_mm, o.box.z0_mm, o.box.z1_mm)]
        nearest = _nearest(y, [(e, o.words) for o in beside for e in (o.box.y0_mm, o.box.y1_mm)])
        if nearest is not None:
            middle = (own.z0_mm + own.z1_mm) / 2
            found.append(LiveSize(Axis.Y, y, nearest[0], middle, nearest[1], own.z0_mm, own.z1_mm))
    for low_side in (True, False):
        z = own.z0_mm if low_side else own.z1_mm
        beside = [o for o in others if _spans_meet(own.y0_mm, own.y1_mm, o.box.y0_mm, o.box.y1_mm)]
        nearest = _nearest(z, [(e, o.words) for o in beside for e in (o.box.z0_mm, o.box.z1_mm)])
        if nearest is not None:
            middle = (own.y0_mm + own.y1_mm) / 2
            found.append(LiveSize(Axis.Z, z, nearest[0], middle, nearest[1], own.y0_mm, own.y1_mm))
    return tuple(found)


def _edges(project: Project, part_id: str) -> list[_EdgeBox]:
    words = clear_words(project.parts)
    found = [
        _EdgeBox(bounds_of(traced(o)), "opening" if len(project.nose.openings) == 1 else o.name)
        for o in project.nose.openings
    ]
    for part in project.parts:
        seen = project_part(part)
        if part.id == part_id or not seen.is_core or part.hidden:
            continue
        found.append(_EdgeBox(seen.outline_box, words[part.id]))
    return found


def _nearest(at_mm: float, edges: Sequence[tuple[float, str]]) -> tuple[float, str] | None:
    apart = [(abs(edge - at_mm), edge, words) for edge, words in edges if abs(edge - at_mm) > _SAME_MM]
    if not apart:
        return None
    _, edge, words = min(apart, key=lambda found: found[0])
    return edge, words


def _spans_meet(a0: float, a1: float, b0: float, b1: float) -> bool:
    return min(a1, b1) - max(a0, b0) > 0
