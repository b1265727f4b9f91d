"""Every change of a project as a pure function: project in, new project out; what did not change is shared."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence

from msgspec.structs import replace

from grillestack.model.engine import DutyCase, EngineSheet, Environment
from grillestack.model.nose import Nose
from grillestack.model.parts import Core, Part, Placement, Shroud
from grillestack.model.photo import Photo
from grillestack.model.project import Project, stack
from grillestack.model.values import ModelError, UnknownIdError


def add_part(project: Project, part: Part, placement: Placement | None = None) -> tuple[Project, str]:
    """Return the project with a copy of the part under a new id, and that id."""
    kind = part.role.value if isinstance(part, Core) else "shroud" if isinstance(part, Shroud) else "fan"
    # An equal id in two layouts means the same part of the plan, so what is new takes none that another layout uses.
    taken = {p.id for parts in (project.parts, *(v.parts for v in project.variants)) for p in parts}
    number = project.next_number
    while f"{kind}-{number}" in taken:
        number += 1
    part_id = f"{kind}-{number}"
    added = replace(part, id=part_id, placement=placement or part.placement)
    return replace(project, parts=(*project.parts, added), next_number=number + 1), part_id


def replace_part(project: Project, part: Part) -> Project:
    """Return the project with the part of the same id exchanged for this one."""
    return _change_part(project, part.id, lambda _old: part)


def remove_parts(project: Project, part_ids: Sequence[str]) -> Project:
    """Return the project without those parts."""
    for part_id in part_ids:
        project.part(part_id)
    return replace(project, parts=tuple(p for p in project.parts if p.id not in part_ids))


def place_part(project: Project, part_id: str, placement: Placement) -> Project:
    """Return the project with that part put there."""
    return _change_part(project, part_id, lambda part: replace(part, placement=placement))


def move_parts(
    project: Project, part_ids: Sequence[str], *, dx_mm: float = 0.0, dy_mm: float = 0.0, dz_mm: float = 0.0
) -> Project:
    """Return the project with those parts shifted, each once."""
    for part_id in dict.fromkeys(part_ids):
        at = project.part(part_id).placement
        moved = replace(at, x_mm=at.x_mm + dx_mm, y_mm=at.y_mm + dy_mm, z_mm=at.z_mm + dz_mm)
        project = place_part(project, part_id, moved)
    return project


def turn_part(project: Project, part_id: str, quarter_turns: int = 1) -> Project:
    """Return the project with that part turned about x, clockwise as seen from ahead."""
    at = project.part(part_id).placement
    return place_part(project, part_id, replace(at, quarter_turns=(at.quarter_turns + quarter_turns) % 4))


def flip_part(project: Project, part_id: str) -> Project:
    """Return the project with that part turned half about the vehicle's vertical axis, front to back; its lean stays."""
    at = project.part(part_id).placement
    # The pose flips first and turns after, so a flip of the turned part turns the other way round.
    return place_part(project, part_id, replace(at, flipped=not at.flipped, quarter_turns=-at.quarter_turns % 4))


def restack(project: Project, order: Sequence[str]) -> Project:
    """Return the project with its parts in that order of depth, keeping the front place and the gaps between neighbours.

    The order must name every part once. Fans and shrouds take part like cores.
    """
    old = stack(project)
    if sorted(order) != sorted(part.id for part in old):
        raise ModelError("order", "The new pack order must name every part of the pack once.")
    if not old:
        return project
    gaps = [b.placement.x_mm - (a.placement.x_mm + a.depth_mm) for a, b in itertools.pairwise(old)]
    x_mm = old[0].placement.x_mm
    for place, part_id in enumerate(order):
        part = project.part(part_id)
        if part.placement.x_mm != x_mm:
            project = place_part(project, part_id, replace(part.placement, x_mm=x_mm))
        if place < len(gaps):
            x_mm += part.depth_mm + gaps[place]
    return project


def set_nose(project: Project, nose: Nose) -> Project:
    """Return the project with this nose."""
    return replace(project, nose=nose)


def set_photo(project: Project, photo: Photo | None) -> Project:
    """Return the project with this photo under its nose, or with none."""
    return replace(project, nose=replace(project.nose, photo=photo))


def set_engine(project: Project, engine: EngineSheet) -> Project:
    """Return the project with this engine sheet."""
    return replace(project, engine=engine)


def set_environment(project: Project, environment: Environment) -> Project:
    """Return the project with this environment."""
    return replace(project, environment=environment)


def replace_case(project: Project, case: DutyCase) -> Project:
    """Return the project with the duty case of the same id exchanged for this one."""
    if all(c.id != case.id for c in project.cases):
        raise UnknownIdError("duty case", case.id)
    return replace(project, cases=tuple(case if c.id == case.id else c for c in project.cases))


def add_case(project: Project, case: DutyCase) -> Project:
    """Return the project with one more duty case under a new id."""
    taken = {c.id for c in project.cases}
    number = project.next_number
    while f"case-{number}" in taken:
        number += 1
    added = replace(case, id=f"case-{number}")
    return replace(project, cases=(*project.cases, added), next_number=number + 1)


def remove_case(project: Project, case_id: str) -> Project:
    """Return the project without that duty case."""
    if all(c.id != case_id for c in project.cases):
        raise UnknownIdError("duty case", case_id)
    return replace(project, cases=tuple(c for c in project.cases if c.id != case_id))


def set_title(project: Project, title: str) -> Project:
    """Return the project under this title."""
    return replace(project, title=title)


def set_notes(project: Project, notes_text: str) -> Project:
    """Return the project with these notes."""
    return replace(project, notes_text=notes_text)


def _change_part(project: Project, part_id: str, change: Callable[[Part], Part]) -> Project:
    project.part(part_id)
    return replace(project, parts=tuple(change(p) if p.id == part_id else p for p in project.parts))
