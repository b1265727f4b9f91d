"""Where in its room, and which way round, does a part serve the pack best."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment
from grillestack.fit.cost import cost_of
from grillestack.fit.pipes import port_match
from grillestack.fit.places import Spotted, placement_of, spots_in
from grillestack.fit.ranking import Key, place_key
from grillestack.fit.result import Cost, Fit
from grillestack.fit.slots import Slot
from grillestack.fit.trial import with_part
from grillestack.fit.ways import Way
from grillestack.geometry.projection import project_part
from grillestack.geometry.setting import Setting
from grillestack.model.parts import Part
from grillestack.model.project import Project

# So many ways round are tried, and, once the first way has shown where it is good, so many places for each other.
_MOST_WAYS: Final = 4
_MOST_SPOTS: Final = 8
_FURTHER_SPOTS: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What does not change from part to part: the pack with its slot empty, and where each trial's solution starts."""

    empty: Assessment
    start: Assessment


def best_place(project: Project, setting: Setting, slot: Slot, fit: Fit, known: Known) -> Fit:
    """Return the part in the best of the places tried, with its cost.

    The first way round is tried at every place, the others at the two nearest to where it was best. Trials start from the
    same assessment each, so that none depends on the one before; the place chosen is settled cold.
    """
    trials = _Trials(project, setting, slot, fit, known)
    first, *others = fit.ways[:_MOST_WAYS]
    best = trials.best(spots_in(project, slot, setting, fit.part, first, _MOST_SPOTS), first)
    at = best.placement
    found = [best]
    for way in others:
        spots = spots_in(project, slot, setting, fit.part, way, _MOST_SPOTS)
        near = sorted(spots, key=lambda entry: ((entry[0][0] - at.y_mm) ** 2 + (entry[0][1] - at.z_mm) ** 2, entry[0]))
        found.append(trials.best(near[:_FURTHER_SPOTS], way))
    chosen = min(found, key=trials.key)
    settled, _ = with_part(project, slot, fit.part, chosen.placement)
    return dataclasses.replace(chosen, cost=cost_of(known.empty, assess(settled)))


class _Trials:
    """The trials of one part; those that the air cannot tell from each other are assessed once."""

    def __init__(self, project: Project, setting: Setting, slot: Slot, fit: Fit, known: Known) -> None:
        self._project, self._setting, self._slot, self._fit, self._known = project, setting, slot, fit, known
        self._costs: dict[object, Cost] = {}

    def best(self, spots: Iterable[Spotted], way: Way) -> Fit:
        """Return the part in the best of these places."""
        tried = []
        for spot, travel in spots:
            placement = placement_of(self._setting, way, spot)
            placed = replace(self._fit.part, placement=placement)
            ports = port_match(placed, self._project.engine)
            tried.append(
                dataclasses.replace(self._fit, placement=placement, travel=travel, ports=ports, cost=self._cost(placed))
            )
        return min(tried, key=self.key)

    def key(self, fit: Fit) -> Key:
        """Return what sorts trials."""
        assert fit.cost is not None
        return place_key(fit.cost, fit.ports, fit.travel)

    def _cost(self, placed: Part) -> Cost:
        seen = dataclasses.replace(project_part(placed), boxes=(), bodies=())
        if seen not in self._costs:
            trial, _ = with_part(self._project, self._slot, placed, placed.placement)
            self._costs[seen] = cost_of(self._known.empty, assess(trial, self._known.start))
        return self._costs[seen]
