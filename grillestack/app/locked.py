"""What of a selection a hand may move: a locked part stays and the session tells of it, a hidden one is out of reach."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.app.session import Session
from grillestack.model.project import Project


def free_to_move(session: Session, ids: Sequence[str]) -> tuple[str, ...]:
    """Return those that may be moved; the locked ones among them are told of."""
    stay = locked_among(session.project, ids)
    if stay:
        session.stayed.emit(stay)
    return tuple(name for name in ids if name not in stay)


def locked_among(project: Project, ids: Sequence[str]) -> tuple[str, ...]:
    """Return the locked parts among those ids."""
    return tuple(part.id for part in project.parts if part.locked and part.id in ids)


def seen_among(project: Project, ids: Sequence[str]) -> tuple[str, ...]:
    """Return those of the ids that are drawn: all but the hidden parts."""
    hidden = {part.id for part in project.parts if part.hidden}
    return tuple(name for name in ids if name not in hidden)


def locked_words(project: Project, ids: Sequence[str]) -> str:
    """Return the sentence that tells which locked parts stayed where they were."""
    names = [f"“{part.name}”" for part in project.parts if part.id in ids]
    if len(names) == 1:
        return f"{names[0]} is locked and stays where it is: unlock it to move it."
    return f"{len(names)} locked parts stay where they are: unlock them to move them."
