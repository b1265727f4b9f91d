"""Gaps between the parts, room ahead and behind, and overall sizes, as linear dimensions that are wanted."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.geometry.depth import DepthReport, Gap
from grillestack.geometry.projection import Body, project_part
from grillestack.model.project import Project
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_length
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_faces import Looking, Seen, seen

_SAME_MM = 0.01
# Gaps below this are drawn as touching, not dimensioned.
_TOUCHING_MM = 0.05
REF = "REF"


@dataclass(frozen=True, slots=True, kw_only=True)
class GapWish:
    """One linear dimension that is wanted between two points of a view."""

    key: str
    first: Seen
    second: Seen
    measured_mm: float
    text: str
    names: str = ""


def gap_wishes(project: Project, report: DepthReport) -> tuple[tuple[GapWish, ...], tuple[str, ...]]:
    """Return the gaps to be drawn in the plan view, and sentences on those that no straight dimension can show."""
    drawn: list[GapWish] = []
    said: list[str] = []
    tags = part_tags(project)
    for gap in report.gaps:
        names = f"{tags[gap.front_id].tag} to {tags[gap.rear_id].tag}"
        length = said_length(abs(gap.gap_mm), project.sheet.units)
        if abs(gap.gap_mm) < _TOUCHING_MM:
            said.append(f"{names}: touching")
            continue
        if gap.gap_mm < 0:
            said.append(f"{names}: run into each other by {length}, see the layout")
            continue
        wish = _between_bodies(project, gap, f"{length} {REF}", names)
        if wish is None:
            said.append(f"{names}: {length} {REF}")
        else:
            drawn.append(wish)
    return tuple(drawn), tuple(said)


def overall_depth_wishes(project: Project, looking: Looking, pack: Bounds) -> tuple[GapWish, ...]:
    """Return the depth of the whole pack, and the room to the planes of grille and pulley, for a side view."""
    parts = [project_part(part) for part in project.parts]
    front, rear = min(part.x_front_mm for part in parts), max(part.x_rear_mm for part in parts)
    stations = project.nose.stations
    spans = [("overall-depth", front, rear), ("room-ahead", stations.grille_x_mm, front)]
    if stations.pulley_x_mm is not None:
        spans.append(("room-behind", rear, stations.pulley_x_mm))
    v = pack.v1_mm
    return tuple(
        GapWish(
            key=f"side:pack:{name}",
            first=Seen(seen(looking, start, 0.0, 0.0).u_mm, v),
            second=Seen(seen(looking, end, 0.0, 0.0).u_mm, v),
            measured_mm=end - start,
            text=f"{said_length(end - start, project.sheet.units)} {REF}",
        )
        for name, start, end in spans
        if end - start > _TOUCHING_MM
    )


def _between_bodies(project: Project, gap: Gap, text: str, names: str) -> GapWish | None:
    front, rear = (project_part(project.part(part_id)) for part_id in (gap.front_id, gap.rear_id))
    for a in front.bodies:
        for b in rear.bodies:
            leans = a.lean_frac or b.lean_frac
            if leans or not _meet(a, b) or abs(b.front_mm - a.rear_mm - gap.gap_mm) > _SAME_MM:
                continue
            return GapWish(
                key=f"plan:{gap.front_id}:gap-to-{gap.rear_id}",
                first=Seen(-a.box.y0_mm, a.rear_mm),
                second=Seen(-b.box.y0_mm, b.front_mm),
                measured_mm=b.front_mm - a.rear_mm,
                text=text,
                names=names,
            )
    return None


def _meet(a: Body, b: Body) -> bool:
    return min(a.box.y1_mm, b.box.y1_mm) > max(a.box.y0_mm, b.box.y0_mm) and min(a.box.z1_mm, b.box.z1_mm) > max(
        a.box.z0_mm, b.box.z0_mm
    )
