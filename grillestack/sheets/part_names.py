"""The item number and tag of each part, inside its outline where that is seen and free, or beside it with a line."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.model.parts import Fan
from grillestack.model.project import Project, stack
from grillestack.sheets.draw_list import Leader, Mark
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.hidden_lines import is_covered
from grillestack.sheets.paper import paper_form
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_hole
from grillestack.sheets.sheet_body import room_of
from grillestack.sheets.vehicle_lines import bounds_of
from grillestack.sheets.view_faces import Seen
from grillestack.sheets.view_marks import OnPaper, Picture

_TRIES = 9


def part_name_marks(
    project: Project, front: tuple[Picture, OnPaper], side: tuple[Picture, OnPaper], marks: Sequence[Mark]
) -> tuple[Leader, ...]:
    """Return the tags: in the front view of what is seen there, fans with the size of their ring; in the side view of all."""
    form, room = paper_form(project.sheet.paper), room_of(project.sheet.paper)
    tags = part_tags(project)
    placed: list[Leader] = []
    for part in stack(project):
        tag = tags[part.id]
        name = f"{tag.item} {tag.tag}"
        if isinstance(part, Fan):
            name = f"{name} {said_hole(part.ring_diameter_mm, project.sheet.units)}"
        for view, (picture, on), needs_leader in (("front", front, False), ("side", side, True)):
            text = name if view == "front" else f"{tag.item}"
            for point in _visible_points(picture, part.id, anywhere=view == "side"):
                wish = TagWish(
                    key=f"{view}:{part.id}:name",
                    text=text,
                    at=on.at(point),
                    radius_mm=0.0,
                    needs_leader=needs_leader,
                )
                found = placed_tags([wish], [*marks, *placed], room, form.text_mm)
                if found:
                    placed += found
                    break
    return tuple(placed)


def _visible_points(picture: Picture, part_id: str, *, anywhere: bool) -> list[Seen]:
    """Return points of a part that nothing nearer covers, the middle first."""
    face = next(f for f in picture.faces if f.part_id == part_id)
    box = bounds_of(list(face.corners))
    points = []
    for row in range(1, _TRIES + 1):
        for column in range(1, _TRIES + 1):
            u = box.u0_mm + (box.u1_mm - box.u0_mm) * column / (_TRIES + 1)
            v = box.v0_mm + (box.v1_mm - box.v0_mm) * row / (_TRIES + 1)
            points.append((abs(column - 5) + abs(row - 5), Seen(u, v)))
    ordered = [point for _, point in sorted(points, key=lambda p: p[0])]
    shown = [point for point in ordered if not is_covered(point, picture.faces, face.depth_mm)]
    return (shown or ordered)[:12] if anywhere else shown[:12]
