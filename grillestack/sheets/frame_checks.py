"""What is unsure or in the way of a frame, in sentences: arms in parts, rails in the air, mounts at ports, fans that hang free."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from grillestack.geometry.fan_places import fans_in_shrouds
from grillestack.geometry.projection import placed_boxes, project_part
from grillestack.model.parts import FanDrive
from grillestack.model.project import Project, cores, fans, shrouds
from grillestack.sheets.brackets import Kind, Placed
from grillestack.sheets.part_tags import part_tags

# What a tube is larger than its bore where nobody measured it
TUBE_WALLS_MM = 6.0


def frame_warnings(project: Project, held: Sequence[Placed], rails: Sequence[Placed]) -> Iterator[str]:
    """Return what is to be checked: of arms and cross rails, of what they hold, of the side rails."""
    yield from _clashes(project, held)
    yield from _mounts_at_ports(project)
    yield from _bare_fans(project)
    yield from _in_the_air(project, held)
    yield from _in_the_way(project, rails)


def _clashes(project: Project, placed: Sequence[Placed]) -> Iterator[str]:
    """Return a sentence for each arm or cross rail that stands where a part is."""
    tags = part_tags(project)
    for one in placed:
        s = one.space
        for part in project.parts:
            if any(
                min(s.across1_mm, -b.y0_mm) - max(s.across0_mm, -b.y1_mm) > 1.0
                and min(s.x1_mm, b.x1_mm) - max(s.x0_mm, b.x0_mm) > 1.0
                and min(s.z1_mm, b.z1_mm) - max(s.z0_mm, b.z0_mm) > 1.0
                for b in placed_boxes(part)
            ):
                yield f"{one.name} stands where {tags[part.id].tag} is: change it by hand, or move the part."


def _bare_fans(project: Project) -> Iterator[str]:
    """Return a sentence for each electric fan that no shroud holds."""
    every, tags = fans(project), part_tags(project)
    places = fans_in_shrouds([project_part(f) for f in every], [project_part(s) for s in shrouds(project)])
    for fan, place in zip(every, places, strict=True):
        if place < 0 and fan.drive is FanDrive.ELECTRIC:
            yield (
                f"{tags[fan.id].tag} stands in no shroud and no bracket is drawn for it: carry it on the rails, never on a core."
            )


def _in_the_air(project: Project, placed: Sequence[Placed]) -> Iterator[str]:
    """Return a sentence for each rail across that stands ahead of the face of a core."""
    tags = part_tags(project)
    for one in placed:
        s = one.space
        if one.kind is not Kind.CROSS_RAIL:
            continue
        for core in cores(project):
            box = placed_boxes(core)[0]
            across = min(s.across1_mm, -box.y0_mm) - max(s.across0_mm, -box.y1_mm)
            up = min(s.z1_mm, box.z1_mm) - max(s.z0_mm, box.z0_mm)
            if s.x1_mm <= box.x0_mm and across > 0 and up > 0:
                yield (
                    f"{one.name} stands in the air ahead of {tags[core.id].tag}, {across * up / 100:.0f} cm² of its face: the "
                    "verdict does not count that."
                )


def _mounts_at_ports(project: Project) -> Iterator[str]:
    """Return a sentence for each mount that stands where a port of its part leaves."""
    tags = part_tags(project)
    for core in cores(project):
        for port in core.ports:
            reach = (port.outside_mm or port.bore_mm + TUBE_WALLS_MM) / 2
            for mount in core.mounts:
                apart = math.dist((mount.u_mm, mount.v_mm, mount.w_mm), (port.u_mm, port.v_mm, port.w_mm))
                if apart < reach + mount.hole_mm / 2:
                    yield (
                        f"{tags[core.id].tag}: a mount stands where its {port.purpose.value} leaves: verify on part where it "
                        "really is, and move its bracket there."
                    )


def _in_the_way(project: Project, rails: Sequence[Placed]) -> Iterator[str]:
    for rail in rails:
        s = rail.space
        for thing in project.nose.obstructions:
            ys, zs = [-p.y_mm for p in thing.outline], [p.z_mm for p in thing.outline]
            if (
                min(s.across1_mm, max(ys)) > max(s.across0_mm, min(ys))
                and min(s.z1_mm, max(zs)) > max(s.z0_mm, min(zs))
                and min(s.x1_mm, thing.x_rear_mm) > max(s.x0_mm, thing.x_front_mm)
            ):
                yield f"A side rail stands where “{thing.name}” may be: check on the vehicle and shorten it to suit."
