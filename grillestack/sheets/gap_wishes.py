"""Gaps between the parts, room ahead and behind, and overall sizes, as linear dimensions that are wanted."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.geometry.depth import DepthReport, Gap
from grillestack.geometry.projection import Body, project_part
from grillestack.model.project import Project
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_length
from grillestack.sheets.view_faces import Looking, Seen, seen

_SAME_MM = 0.01
# Gaps below this are drawn as touching, not dimensioned.
_TOUCHING_MM = 0.05
REF = "REF"


@dataclass(frozen=True, slots=True, kw_only=True)
class GapWish:
    """One length along the vehicle that is wanted, between two points (x, y, z) of the nose."""

    key: str
    first_mm: tuple[float, float, float]
    second_mm: tuple[float, float, float]
    measured_mm: float
    text: str
    names: str
    # Where the two surfaces end on the vehicle's right
    right_y_mm: tuple[float, float] = (0.0, 0.0)

    def ends(self, looking: Looking) -> tuple[Seen, Seen]:
        """Return its two points in a view."""
        return seen(looking, *self.first_mm), seen(looking, *self.second_mm)


def gap_wishes(project: Project, report: DepthReport, *, from_top: bool) -> tuple[tuple[GapWish, ...], tuple[str, ...]]:
    """Return the gaps that can be dimensioned, and words on those that no straight dimension can show.

    Their points lie on the vehicle's left, at the top or the bottom of what bounds the gap.
    """
    drawn: list[GapWish] = []
    said: list[str] = []
    tags = part_tags(project)
    for gap in report.gaps:
        names = f"{tags[gap.front_id].tag} to {tags[gap.rear_id].tag}"
        length = said_length(abs(gap.gap_mm), project.sheet.units)
        if abs(gap.gap_mm) < _TOUCHING_MM:
            said.append(f"{names}: touching")
        elif gap.gap_mm < 0:
            said.append(f"{names}: run into each other by {length}, see the layout")
        else:
            bodies = _bodies(project, gap)
            if bodies is None:
                said.append(f"{names}: {length} {REF}")
            else:
                drawn.append(_wish(gap, bodies, (f"{length} {REF}", names), from_top=from_top))
    return tuple(drawn), tuple(said)


def room_wishes(project: Project, edge_z_mm: float, *, to_planes: bool) -> tuple[GapWish, ...]:
    """Return the depth of the whole pack and, where wanted, the room to the planes of grille and pulley."""
    parts = [project_part(part) for part in project.parts]
    front, rear = min(part.x_front_mm for part in parts), max(part.x_rear_mm for part in parts)
    stations = project.nose.stations
    spans = [("overall-depth", "overall depth", front, rear)]
    if to_planes:
        spans.append(("room-ahead", "grille plane to pack", stations.grille_x_mm, front))
        if stations.pulley_x_mm is not None:
            spans.append(("room-behind", "pack to pulley plane", rear, stations.pulley_x_mm))
    return tuple(
        GapWish(
            key=f"side:pack:{name}",
            first_mm=(start, 0.0, edge_z_mm),
            second_mm=(end, 0.0, edge_z_mm),
            measured_mm=end - start,
            text=f"{said_length(end - start, project.sheet.units)} {REF}",
            names=words,
        )
        for name, words, start, end in spans
        if end - start > _TOUCHING_MM
    )


def _wish(gap: Gap, bodies: tuple[Body, Body], words: tuple[str, str], *, from_top: bool) -> GapWish:
    a, b = bodies
    z_a, z_b = (a.box.z1_mm, b.box.z1_mm) if from_top else (a.box.z0_mm, b.box.z0_mm)
    return GapWish(
        key=f"plan:{gap.front_id}:gap-to-{gap.rear_id}",
        first_mm=(a.rear_mm, a.box.y0_mm, z_a),
        second_mm=(b.front_mm, b.box.y0_mm, z_b),
        measured_mm=b.front_mm - a.rear_mm,
        text=words[0],
        names=words[1],
        right_y_mm=(a.box.y1_mm, b.box.y1_mm),
    )


def _bodies(project: Project, gap: Gap) -> tuple[Body, Body] | None:
    """Return the two boxes that bound a gap, if neither leans."""
    front, rear = (project_part(project.part(part_id)) for part_id in (gap.front_id, gap.rear_id))
    for a in front.bodies:
        for b in rear.bodies:
            leans = a.lean_frac or b.lean_frac
            if not leans and _meet(a, b) and abs(b.front_mm - a.rear_mm - gap.gap_mm) < _SAME_MM:
                return a, b
    return None


def _meet(a: Body, b: Body) -> bool:
    return min(a.box.y1_mm, b.box.y1_mm) > max(a.box.y0_mm, b.box.y0_mm) and min(a.box.z1_mm, b.box.z1_mm) > max(
        a.box.z0_mm, b.box.z0_mm
    )
