"""The rows of what holds things: pins, ears and holes of a part, and the points of the nose that a bracket may use."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from grillestack.app.nose_things import free_id
from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.slots import item_slot
from grillestack.app.session import Session
from grillestack.model.edits import replace_part, set_nose
from grillestack.model.nose import NoseMount
from grillestack.model.parts import Core, Mount, Part, Shroud
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_FIRST_HOLE_MM = 8.5  # for an M8 screw; common practice, from memory
_OF_PART = (
    ("Right of centre", "u_mm"),
    ("Above centre", "v_mm"),
    ("Behind the front", "w_mm"),
    ("Hole or pin", "hole_mm"),
)
_OF_NOSE = (("Rearward", "x_mm"), ("To the right", "y_mm"), ("Height", "z_mm"), ("Hole or stud", "hole_mm"))


def mounts_form(session: Session, part: Part) -> Form:
    """Return the rows of all mounts of a part: to change on one made to own sizes, to read on a bought one."""
    form = Form(session)
    if not part.mounts:
        form.note("No mounts given: pins, ears, bolt holes.")
    for index, mount in enumerate(part.mounts):
        if part.own_sizes:
            _part_rows(form, session, part.id, index)
        else:
            form.reading(mount.kind_text or f"Mount {index + 1}", _reader(session, part.id, index))
    if part.mounts:
        form.note("Counted from the centre of the front face, before any turn or flip.")
    if part.own_sizes:
        form.act("Add a mount", lambda: _add(session, part.id))
    return form


def bracket_points_form(session: Session) -> Form:
    """Return the rows of the nose's own holes, studs and nuts."""
    form = Form(session)
    mounts = session.shown.nose.mounts
    form.note(
        "Holes, studs and nuts of the vehicle that a bracket may use."
        + ("" if mounts else " None is given: add those you measured.")
    )
    for mount in mounts:
        _nose_rows(form, session, mount)
    form.act("Add a bracket point", lambda: _add_to_nose(session))
    return form


def _part_rows(form: Form, session: Session, part_id: str, index: int) -> None:
    form.note(f"Mount {index + 1}")
    form.text("Kind", item_slot(part_id, "mounts", index, "kind_text"))
    for label, field in _OF_PART:
        form.quantity(label, Dimension.LENGTH, item_slot(part_id, "mounts", index, field))
    form.act(f"Remove mount {index + 1}", lambda: _remove(session, part_id, index))


def _nose_rows(form: Form, session: Session, mount: NoseMount) -> None:
    form.text("Name", _nose_slot(mount.id, "name"))
    for label, field in _OF_NOSE:
        form.quantity(label, Dimension.LENGTH, _nose_slot(mount.id, field))
    form.switch("In the crash structure", _nose_slot(mount.id, "is_structure"))
    form.act(f"Remove {mount.name}", lambda: _remove_from_nose(session, mount.id))


def _nose_slot(mount_id: str, field: str) -> Slot:
    def write(project: Project, value: Any) -> Project:
        mounts = tuple(replace(m, **{field: value}) if m.id == mount_id else m for m in project.nose.mounts)
        return set_nose(project, replace(project.nose, mounts=mounts))

    return Slot(lambda project: next(getattr(m, field) for m in project.nose.mounts if m.id == mount_id), write)


def _add_to_nose(session: Session) -> None:
    project = session.project
    identifier, number = free_id(project, "bracket-point")
    at = project.nose.mounts[-1] if project.nose.mounts else None
    mount = NoseMount(
        id=identifier,
        name=f"Bracket point {len(project.nose.mounts) + 1}",
        x_mm=at.x_mm if at else project.nose.stations.grille_x_mm,
        y_mm=at.y_mm if at else 0.0,
        z_mm=at.z_mm if at else _middle_height_mm(project),
        hole_mm=at.hole_mm if at else _FIRST_HOLE_MM,
    )
    nose = replace(project.nose, mounts=(*project.nose.mounts, mount))
    session.apply("add bracket point", set_nose(replace(project, next_number=number), nose))


def _middle_height_mm(project: Project) -> float:
    heights = [p.z_mm for opening in project.nose.openings for p in opening.outline]
    return (min(heights) + max(heights)) / 2 if heights else 0.0


def _remove_from_nose(session: Session, mount_id: str) -> None:
    nose = session.project.nose
    kept = tuple(m for m in nose.mounts if m.id != mount_id)
    session.apply("remove bracket point", set_nose(session.project, replace(nose, mounts=kept)))


def _reader(session: Session, part_id: str, index: int) -> Callable[[Project], str]:
    def read(project: Project) -> str:
        mount = project.part(part_id).mounts[index]
        hole, right, up, behind = (
            show_quantity(v, Dimension.LENGTH, session.units)
            for v in (mount.hole_mm, mount.u_mm, mount.v_mm, mount.w_mm)
        )
        return f"{hole}; {right} right, {up} up, {behind} behind the front"

    return read


def _add(session: Session, part_id: str) -> None:
    part = session.project.part(part_id)
    right_mm, up_mm = _corner_mm(part)
    mount = Mount(u_mm=right_mm, v_mm=up_mm, w_mm=part.depth_mm / 2, hole_mm=_FIRST_HOLE_MM)
    session.apply("add mount", replace_part(session.project, replace(part, mounts=(*part.mounts, mount))))


def _corner_mm(part: Part) -> tuple[float, float]:
    if isinstance(part, Core):
        return part.overall.u_max_mm, part.overall.v_max_mm
    if isinstance(part, Shroud):
        return part.width_mm / 2, part.height_mm / 2
    return part.ring_diameter_mm / 2, 0.0


def _remove(session: Session, part_id: str, index: int) -> None:
    part = session.project.part(part_id)
    mounts = part.mounts[:index] + part.mounts[index + 1 :]
    session.apply("remove mount", replace_part(session.project, replace(part, mounts=mounts)))
