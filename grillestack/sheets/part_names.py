"""The item number and tag of each part, inside its outline where that is seen and free, or beside it with a line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.model.parts import Fan
from grillestack.model.project import Project, stack
from grillestack.sheets.draw_list import Leader, Mark
from grillestack.sheets.free_places import TagWish, crowd_of, placed_tag
from grillestack.sheets.hidden_lines import is_covered
from grillestack.sheets.lettering import shortened
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_hole
from grillestack.sheets.sheet_body import room_of
from grillestack.sheets.vehicle_lines import VehicleLine, bounds_of
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
    crowd = crowd_of(marks)
    for part in stack(project):
        tag = tags[part.id]
        name = f"{tag.item} {tag.tag}"
        if isinstance(part, Fan):
            name = f"{name} {said_hole(part.ring_diameter_mm, project.sheet.units)}"
        for view, (picture, on), needs_leader in (("front", front, False), ("side", side, True)):
            text = name if view == "front" else f"{tag.item}"
            thin = view == "side" and _width_mm(picture, part.id) / on.scale_factor < 3 * form.text_mm
            for point in _visible_points(picture, part.id, anywhere=view == "side"):
                wish = TagWish(
                    key=f"{view}:{part.id}:name",
                    text=text,
                    at=on.at(point),
                    radius_mm=0.0,
                    needs_leader=needs_leader,
                    least_frac=2.6 if thin else 0.0,
                    most_frac=6.8 if needs_leader else 0.24,
                )
                found = placed_tag(wish, crowd, room, form.text_mm)
                if found is not None:
                    placed.append(found)
                    crowd = crowd.joined_by([found])
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
    return (shown or ordered)[:12] if anywhere else shown


def _width_mm(picture: Picture, part_id: str) -> float:
    face = next(f for f in picture.faces if f.part_id == part_id)
    box = bounds_of(list(face.corners))
    return box.u1_mm - box.u0_mm


def vehicle_name_marks(
    project: Project, views: Sequence[tuple[str, Picture, OnPaper, Area]], marks: Sequence[Mark]
) -> tuple[Leader, ...]:
    """Return the names of what is drawn of the vehicle, each once, with a line to it; what finds no place stays without."""
    form = paper_form(project.sheet.paper)
    placed: list[Leader] = []
    named: set[str] = set()
    crowd = crowd_of(marks)
    for view, picture, on, room in views:
        for name in dict.fromkeys(line.name for line in picture.vehicle):
            lines = [line for line in picture.vehicle if line.name == name]
            elsewhere = {(o.start, o.end) for o in picture.vehicle if o.name in named}
            if name in named or all((line.start, line.end) in elsewhere for line in lines):
                continue
            text = shortened(name, form.text_mm, 16 * form.text_mm)
            tags = (
                TagWish(
                    key=f"{view}:vehicle:{name}",
                    text=text,
                    at=on.at(point),
                    radius_mm=0.0,
                    least_frac=1.7,
                    most_frac=6.8,
                )
                for point in _along(lines)
            )
            found = next((tag for wish in tags if (tag := placed_tag(wish, crowd, room, form.text_mm))), None)
            if found is not None:
                placed.append(found)
                crowd = crowd.joined_by([found])
                named.add(name)
    return tuple(placed)


def _along(lines: Sequence[VehicleLine]) -> Iterator[Seen]:
    """Return points along some lines, the steepest first, to be pointed at."""
    for line in sorted(lines, key=lambda one: -abs(one.end.v_mm - one.start.v_mm))[:4]:
        for share in (0.5, 0.2, 0.8):
            yield Seen(
                line.start.u_mm + share * (line.end.u_mm - line.start.u_mm),
                line.start.v_mm + share * (line.end.v_mm - line.start.v_mm),
            )
