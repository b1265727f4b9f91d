"""Which sealing strips the pack needs, and how long they are."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.assess.seals import seals_of
from grillestack.geometry.depth import DepthReport
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Core
from grillestack.model.project import Project
from grillestack.sheets.part_tags import part_tags

_EDGES = ("left edge", "bottom edge", "right edge", "top edge")


@dataclass(frozen=True, slots=True, kw_only=True)
class SealStrip:
    """One strip: between what, its length, and the gap it closes where that is known."""

    where: str
    length_mm: float
    gap_mm: float | None
    remark: str


def seal_strips(project: Project, report: DepthReport) -> tuple[SealStrip, ...]:
    """Return the strips along the four edges of the pack and around each gap between two cores.

    An edge strip is as long as the cores reach together; a strip around a gap runs about the area that both cores share
    in the front view.
    """
    cores = [project_part(part) for part in project.parts if isinstance(part, Core)]
    if not cores:
        return ()
    boxes = [core.outline_box for core in cores]
    width = max(b.y1_mm for b in boxes) - min(b.y0_mm for b in boxes)
    height = max(b.z1_mm for b in boxes) - min(b.z0_mm for b in boxes)
    found = [
        SealStrip(
            where=f"Pack to nose, {edge}",
            length_mm=width if "bottom" in edge or "top" in edge else height,
            gap_mm=None,
            remark=f"{seal.value} in the layout",
        )
        for edge, seal in zip(_EDGES, seals_of(project.environment), strict=True)
    ]
    tags = part_tags(project)
    by_id = {core.part_id: core.outline_box for core in cores}
    for gap in report.gaps:
        if gap.front_id in by_id and gap.rear_id in by_id and gap.gap_mm > 0:
            a, b = by_id[gap.front_id], by_id[gap.rear_id]
            across = min(a.y1_mm, b.y1_mm) - max(a.y0_mm, b.y0_mm)
            up = min(a.z1_mm, b.z1_mm) - max(a.z0_mm, b.z0_mm)
            where = f"Between {tags[gap.front_id].tag} and {tags[gap.rear_id].tag}, all round"
            found.append(
                SealStrip(where=where, length_mm=2 * (across + up), gap_mm=gap.gap_mm, remark="closes the gap")
            )
    return tuple(found)
