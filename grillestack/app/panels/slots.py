"""Which places of the document the rows of a card show and change."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.form import Slot
from grillestack.model.edits import place_part, replace_case, replace_part, set_engine, set_environment, set_nose
from grillestack.model.engine import DutyCase
from grillestack.model.nose import Obstruction, Opening, SupportWindow
from grillestack.model.project import Project
from grillestack.model.values import UnknownIdError


def part_slot(part_id: str, field: str) -> Slot:
    """Return the place of one field of a part."""
    return Slot(
        lambda project: getattr(project.part(part_id), field),
        lambda project, value: replace_part(project, replace(project.part(part_id), **{field: value})),
    )


def placement_slot(part_id: str, field: str) -> Slot:
    """Return the place of one field of where a part is put."""
    return Slot(
        lambda project: getattr(project.part(part_id).placement, field),
        lambda project, value: place_part(project, part_id, replace(project.part(part_id).placement, **{field: value})),
    )


def item_slot(part_id: str, list_field: str, index: int, field: str) -> Slot:
    """Return the place of one field of one port, mount or solid of a part."""

    def write(project: Project, value: Any) -> Project:
        part = project.part(part_id)
        items = list(getattr(part, list_field))
        items[index] = replace(items[index], **{field: value})
        return replace_part(project, replace(part, **{list_field: tuple(items)}))

    return Slot(lambda project: getattr(getattr(project.part(part_id), list_field)[index], field), write)


def engine_slot(field: str) -> Slot:
    """Return the place of one line of the engine sheet."""
    return Slot(
        lambda project: getattr(project.engine, field),
        lambda project, value: set_engine(project, replace(project.engine, **{field: value})),
    )


def environment_slot(field: str) -> Slot:
    """Return the place of one field of the surroundings."""
    return Slot(
        lambda project: getattr(project.environment, field),
        lambda project, value: set_environment(project, replace(project.environment, **{field: value})),
    )


def case_slot(case_id: str, field: str) -> Slot:
    """Return the place of one field of a duty case."""
    return Slot(
        lambda project: getattr(_case(project, case_id), field),
        lambda project, value: replace_case(project, replace(_case(project, case_id), **{field: value})),
    )


def project_slot(field: str) -> Slot:
    """Return the place of a field of the project itself."""
    return Slot(lambda project: getattr(project, field), lambda project, value: replace(project, **{field: value}))


def nose_slot(field: str) -> Slot:
    """Return the place of a field of the nose."""
    return Slot(
        lambda project: getattr(project.nose, field),
        lambda project, value: set_nose(project, replace(project.nose, **{field: value})),
    )


def stations_slot(field: str) -> Slot:
    """Return the place of one depth station."""
    return Slot(
        lambda project: getattr(project.nose.stations, field),
        lambda project, value: set_nose(
            project, replace(project.nose, stations=replace(project.nose.stations, **{field: value}))
        ),
    )


def opening(project: Project, opening_id: str) -> Opening:
    """Return the opening with that id."""
    for found in project.nose.openings:
        if found.id == opening_id:
            return found
    raise UnknownIdError("opening", opening_id)


def obstruction(project: Project, obstruction_id: str) -> Obstruction:
    """Return the obstruction with that id."""
    for found in project.nose.obstructions:
        if found.id == obstruction_id:
            return found
    raise UnknownIdError("obstruction", obstruction_id)


def put_opening(project: Project, changed: Opening) -> Project:
    """Return the project with the opening of the same id exchanged for this one."""
    found = tuple(changed if o.id == changed.id else o for o in project.nose.openings)
    return set_nose(project, replace(project.nose, openings=found))


def put_obstruction(project: Project, changed: Obstruction) -> Project:
    """Return the project with the obstruction of the same id exchanged for this one."""
    found = tuple(changed if o.id == changed.id else o for o in project.nose.obstructions)
    return set_nose(project, replace(project.nose, obstructions=found))


def put_window(project: Project, changed: SupportWindow | None) -> Project:
    """Return the project with this support window, or none."""
    return set_nose(project, replace(project.nose, support_window=changed))


def _case(project: Project, case_id: str) -> DutyCase:
    for case in project.cases:
        if case.id == case_id:
            return case
    raise UnknownIdError("duty case", case_id)
