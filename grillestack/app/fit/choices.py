"""Which slots a search can be about: the place of each part of that kind, and one more of it in each gap."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from grillestack.fit.slots import Kind, Slot, kind_of, slot_for, slot_in_place_of
from grillestack.model.project import Project
from grillestack.model.values import ModelError


def slots_of(project: Project, kind: Kind) -> tuple[Slot, ...]:
    """Return the slots for a part of that kind, the places of those that are there first."""
    return tuple(_each(project, kind))


def _each(project: Project, kind: Kind) -> Iterator[Slot]:
    present = [part for part in project.parts if kind_of(part) is kind]
    for part in present:
        yield slot_in_place_of(project, part.id)
    numbers = [None] if kind in (Kind.FAN, Kind.SHROUD) else list(range(1, len(project.parts) + 2))
    for number in numbers:
        try:
            slot = slot_for(project, kind, number, keep=True)
        except ModelError:
            return  # no such gap, or no radiator to stand behind
        yield replace(slot, words=f"one more, {slot.words}") if present else slot
