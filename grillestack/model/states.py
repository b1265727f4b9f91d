"""Locking and hiding parts, as pure functions of the project."""

from __future__ import annotations

from collections.abc import Callable, Collection

from msgspec.structs import replace

from grillestack.model.parts import Part
from grillestack.model.project import Project


def set_locked(project: Project, part_ids: Collection[str], *, locked: bool) -> Project:
    """Return the project with those parts locked, or free to move again."""
    return _changed(project, part_ids, lambda part: part if part.locked == locked else replace(part, locked=locked))


def set_hidden(project: Project, part_ids: Collection[str], *, hidden: bool) -> Project:
    """Return the project with those parts not drawn, or drawn again; for air, heat and paper nothing changes."""
    return _changed(project, part_ids, lambda part: part if part.hidden == hidden else replace(part, hidden=hidden))


def _changed(project: Project, part_ids: Collection[str], change: Callable[[Part], Part]) -> Project:
    for part_id in part_ids:
        project.part(part_id)
    parts = tuple(change(part) if part.id in part_ids else part for part in project.parts)
    if all(new is old for new, old in zip(parts, project.parts, strict=True)):
        return project
    return replace(project, parts=parts)
