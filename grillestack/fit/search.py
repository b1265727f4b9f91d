"""The search: what fits and what nearly does at once, then the short list assessed, the most promising first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.fit.best_place import Known, best_place
from grillestack.fit.candidates import candidates
from grillestack.fit.change_words import Words
from grillestack.fit.elsewhere import swaps
from grillestack.fit.fits import Looked, look
from grillestack.fit.merit import SHORT_LIST, merit_of, short_list
from grillestack.fit.nearly import near_misses
from grillestack.fit.pack_room import pack_room
from grillestack.fit.pipes import port_match
from grillestack.fit.places import first_spot, placement_of
from grillestack.fit.ranking import ranked
from grillestack.fit.remarks import remarks
from grillestack.fit.result import FirstLook, Fit
from grillestack.fit.slots import Slot
from grillestack.fit.surroundings import surroundings
from grillestack.fit.trial import without_part
from grillestack.geometry.setting import Setting
from grillestack.model.parts import Part
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

GoOn = Callable[[float], bool]


def first_look(
    project: Project, catalogue: Iterable[Part], slot: Slot, units: UnitSystem = UnitSystem.METRIC
) -> FirstLook:
    """Return what fits into a slot and what nearly does, nothing assessed yet; the same for any order of the catalogue."""
    words = Words(units)
    setting = surroundings(project, slot)
    tried = candidates(project, catalogue, slot.kind)
    looked = look(project, slot, setting, tried.parts)
    fits = [_plain_fit(project, slot, setting, one) for one in looked if one.fits]
    order = short_list([(fit.merit_factor, fit.part.id) for fit in fits], len(fits))
    near = near_misses(setting, pack_room(project, slot, setting), looked, words, swaps(project, slot, looked, words))
    return FirstLook(
        slot=slot,
        fits=tuple(fits[place] for place in order),
        short_count=min(SHORT_LIST, len(fits)),
        near=near,
        refused=tuple(tried.refused),
        remarks=remarks(project, slot, setting, tried.parts, units),
    )


def assessed(project: Project, found: FirstLook, go_on: GoOn = lambda _share: True) -> Iterator[Fit]:
    """Yield the short list, each part in its best place with its cost; it ends early if `go_on` says no.

    Parameters
    ----------
    go_on
        Told the share done; answers whether to go on.
    """
    slot = found.slot
    setting = surroundings(project, slot)
    empty = assess(without_part(project, slot))
    start = assess(project) if slot.taken_out is not None else empty
    for number, fit in enumerate(found.fits[: found.short_count]):
        if not go_on(number / found.short_count):
            return
        yield best_place(project, setting, found.slot, fit, Known(empty=empty, start=start))
    go_on(1.0)


def in_order(found: FirstLook, assessed_fits: Iterable[Fit]) -> tuple[Fit, ...]:
    """Return all that fits, best first: the assessed ones, then those that fit but were not assessed."""
    known = {fit.part.id: fit for fit in assessed_fits}
    return ranked(known.get(fit.part.id, fit) for fit in found.fits)


def _plain_fit(project: Project, slot: Slot, setting: Setting, looked: Looked) -> Fit:
    """Return a part that fits in the first of its ways, where the taken-out part stood or as near to it as there is room."""
    way = looked.fits[0]
    spot, travel = first_spot(project, slot, setting, looked.part, way)
    placement = placement_of(setting, way, spot)
    placed = replace(looked.part, placement=placement)
    return Fit(
        part=looked.part,
        ways=looked.fits,
        placement=placement,
        travel=travel,
        ports=port_match(placed, project.engine),
        merit_factor=merit_of(project, slot.kind, placed),
    )
