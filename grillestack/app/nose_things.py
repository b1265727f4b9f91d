"""Openings, obstructions and the support window by one name each: found, exchanged, added."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.edits import set_nose
from grillestack.model.nose import NoseThing, Obstruction, Opening, SupportWindow
from grillestack.model.project import Project
from grillestack.model.values import ModelError, UnknownIdError

_MOST_NUMBERS = 1_000_000


def find_thing(project: Project, name: str) -> NoseThing | None:
    """Return what has this id in the nose, or nothing."""
    if name == SUPPORT_WINDOW_ID:
        return project.nose.support_window
    things: tuple[Opening | Obstruction, ...] = (*project.nose.openings, *project.nose.obstructions)
    return next((thing for thing in things if thing.id == name), None)


def thing_name(thing: NoseThing) -> str:
    """Return what the thing is called."""
    return "support window" if isinstance(thing, SupportWindow) else thing.name


def thing_id(thing: NoseThing) -> str:
    """Return the id under which the thing is selected."""
    return SUPPORT_WINDOW_ID if isinstance(thing, SupportWindow) else thing.id


def put_thing(project: Project, thing: NoseThing) -> Project:
    """Return the project with the thing of the same id exchanged for this one."""
    nose = project.nose
    if isinstance(thing, SupportWindow):
        return set_nose(project, replace(nose, support_window=thing))
    if find_thing(project, thing.id) is None:
        raise UnknownIdError("thing of the nose", thing.id)
    if isinstance(thing, Opening):
        return set_nose(project, replace(nose, openings=_exchanged(nose.openings, thing)))
    return set_nose(project, replace(nose, obstructions=_exchanged(nose.obstructions, thing)))


def add_thing(project: Project, thing: Opening | Obstruction) -> tuple[Project, str]:
    """Return the project with this opening or obstruction under a new id, and that id."""
    identifier, number = free_id(project, "opening" if isinstance(thing, Opening) else "obstruction")
    added = replace(thing, id=identifier)
    nose = project.nose
    if isinstance(added, Opening):
        nose = replace(nose, openings=(*nose.openings, added))
    else:
        nose = replace(nose, obstructions=(*nose.obstructions, added))
    return set_nose(replace(project, next_number=number), nose), identifier


def free_id(project: Project, kind: str) -> tuple[str, int]:
    """Return an id of this kind that nothing in the nose has, and the number after it."""
    nose = project.nose
    taken = {o.id for o in nose.openings} | {o.id for o in nose.obstructions} | {m.id for m in nose.mounts}
    number = project.next_number
    while f"{kind}-{number}" in taken:
        number += 1
    if number >= _MOST_NUMBERS:
        raise ModelError("next_number", "This project has used up its numbers: begin a new one.")
    return f"{kind}-{number}", number + 1


def _exchanged(things: tuple[Opening, ...] | tuple[Obstruction, ...], thing: Opening | Obstruction) -> tuple:  # type: ignore[type-arg]  # of the kind that came in
    return tuple(thing if other.id == thing.id else other for other in things)
