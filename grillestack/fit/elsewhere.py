"""Which parts that do not fit would fit if they changed places in the order with a neighbour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.advice.room import has_room
from grillestack.fit.change_words import Words
from grillestack.fit.fits import Looked, look
from grillestack.fit.result import Change
from grillestack.fit.slots import Slot, slot_in_place_of
from grillestack.fit.surroundings import surroundings
from grillestack.geometry.depth import depth_report
from grillestack.model import edits
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores, stack


def swaps(project: Project, slot: Slot, looked: Sequence[Looked], words: Words) -> dict[str, tuple[Change, ...]]:
    """Return, by catalogue number, the changes of order that let a part in which does not fit as the pack stands.

    Only where a part is taken out: it and a neighbouring core, but never the radiator, change places, and the rest of the
    pack must have room then.
    """
    failing = [one.part for one in looked if not one.fits]
    found: dict[str, tuple[Change, ...]] = {}
    if not failing or slot.taken_out is None:
        return found
    for name, swapped in _swapped(project, slot.taken_out):
        its = slot_in_place_of(swapped, slot.taken_out)
        for one in look(swapped, its, surroundings(swapped, its), failing):
            if one.fits:
                found[one.part.id] = (*found.get(one.part.id, ()), words.swap(name))
    return found


def _swapped(project: Project, part_id: str) -> Iterator[tuple[str, Project]]:
    row = cores(project)
    places = [core.id for core in row]
    if part_id not in places:
        return
    here = places.index(part_id)
    order = [part.id for part in stack(project)]
    for there in (here - 1, here + 1):
        if not 0 <= there < len(row) or row[there].role is CoreRole.RADIATOR or row[here].role is CoreRole.RADIATOR:
            continue
        other = places[there]
        changed = list(order)
        i, j = changed.index(part_id), changed.index(other)
        changed[i], changed[j] = other, part_id
        swapped = edits.restack(project, changed)
        rest, rest_then = (edits.remove_parts(one, [part_id]) for one in (project, swapped))
        if has_room(rest, depth_report(rest), rest_then):
            yield f"“{row[there].name}”", swapped
