"""Where would one core do better: how far the deciding duty case would stand from its design day at each place it can reach."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from grillestack.advice.room import has_room, window_bounds, window_margins
from grillestack.advice.side_effects import costs_another_case_its_day, side_effects
from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment, Verdict
from grillestack.geometry.corners import traced
from grillestack.geometry.depth import DepthReport
from grillestack.geometry.projection import Box, project_part
from grillestack.model import edits
from grillestack.model.parts import Core
from grillestack.model.project import Project, radiator
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem

# So many places along the longer way at first; then the best one's surroundings with half the step, and half again.
_COARSE_STEPS: Final = 10
_LEAST_STEP_MM: Final = 12.0
_FINER: Final = 2
# Of the whole work about this share is the coarse grid.
_COARSE_FRAC: Final = 0.8
LEAST_WORTH_K: Final = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place the core can stand at: how far it is moved there, and what the deciding margin gains.

    `change_k` is `None` where the pack has no hottest day there; `spoils` where something else goes over its limit or another
    duty case loses its day.
    """

    dy_mm: float
    dz_mm: float
    change_k: float | None
    spoils: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BetterPlaces:
    """What moving one core over its reach does, on an even grid of this step, with `finer_spots` around the best place.

    Places where it would overlap something, come nearer to it than practice allows or leave the hole of the core support are
    left out. `best` is the place that gains most without spoiling anything, if it is worth it; `reason` says why there is no map.
    """

    part_id: str
    step_mm: float
    spots: tuple[Spot, ...]
    finer_spots: tuple[Spot, ...]
    best: Spot | None
    reason: str = ""


def better_places(
    project: Project, part_id: str, go_on: Callable[[float], bool] = lambda _share: True
) -> BetterPlaces | None:
    """Return the map of that core, or nothing if `go_on` said no.

    Parameters
    ----------
    go_on
        Told the share done; answers whether to go on.
    """
    base = assess(project)
    part = next((part for part in project.parts if part.id == part_id), None)
    if not isinstance(part, Core):
        return _no_map(part_id, "Only a core changes the air by its place.")
    if base.verdict is Verdict.UNKNOWN or base.deciding_case is None or base.deciding_case.margin_k is None:
        return _no_map(part_id, "There is no hottest day to compare with, so no place is better.")
    reach = reach_of(project, part)
    longer_mm = max(reach.y1_mm - reach.y0_mm, reach.z1_mm - reach.z0_mm)
    step_mm = max(_LEAST_STEP_MM, longer_mm / _COARSE_STEPS)
    trials = _Trials(project, base, part_id)
    ys, zs = _along(reach.y0_mm, reach.y1_mm, step_mm), _along(reach.z0_mm, reach.z1_mm, step_mm)
    places = list(_to_and_fro(ys, zs))
    for number, place in enumerate(places):
        if not go_on(_COARSE_FRAC * number / len(places)):
            return None
        trials.look_at(place)
    coarse = tuple(trials.spots.values())
    finer_mm = step_mm
    for number in range(_FINER):
        if not go_on(_COARSE_FRAC + (1.0 - _COARSE_FRAC) * number / _FINER):
            return None
        finer_mm /= 2
        for place in _around(trials.best_place(), finer_mm, reach):
            trials.look_at(place)
    best = trials.settled_best()
    return BetterPlaces(
        part_id=part_id,
        step_mm=step_mm,
        spots=coarse,
        finer_spots=tuple(trials.spots.values())[len(coarse) :],
        best=best,
    )


def reach_of(project: Project, core: Core) -> Box:
    """Return how far the core may be moved along y and z: within the hole of the core support, else before radiator and openings.

    Its own place always lies within.
    """
    window = project.nose.support_window
    if window is not None:
        room = window_margins(window, core)
        hole = window_bounds(window)
        if hole.area_mm2 > 0.0:
            return _from_margins(room.left_mm, room.right_mm, room.down_mm, room.up_mm)
    mine = project_part(core).outline_box
    boxes = [mine]
    main = radiator(project)
    if main is not None:
        boxes.append(project_part(main).outline_box)
    points = [point for opening in project.nose.openings for point in traced(opening)]
    ys = [edge for box in boxes for edge in (box.y0_mm, box.y1_mm)] + [point.y_mm for point in points]
    zs = [edge for box in boxes for edge in (box.z0_mm, box.z1_mm)] + [point.z_mm for point in points]
    return _from_margins(mine.y0_mm - min(ys), max(ys) - mine.y1_mm, mine.z0_mm - min(zs), max(zs) - mine.z1_mm)


def _from_margins(left_mm: float, right_mm: float, down_mm: float, up_mm: float) -> Box:
    return Box(-max(left_mm, 0.0), -max(down_mm, 0.0), max(right_mm, 0.0), max(up_mm, 0.0))


class _Trials:
    """The places looked at so far; short-lived, one per map. Each starts where the one before it ended."""

    def __init__(self, project: Project, base: Assessment, part_id: str) -> None:
        self._project, self._base, self._part_id = project, base, part_id
        self._last = base
        self._seen: set[tuple[float, float]] = set()
        self.spots: dict[tuple[float, float], Spot] = {}

    def look_at(self, place: tuple[float, float]) -> None:
        """Assess the pack with the core there, if there is room."""
        if place in self._seen:
            return
        self._seen.add(place)
        moved = _moved(self._project, self._base.depth, self._part_id, place)
        if moved is not None:
            self._last = assess(moved, self._last)
            self.spots[place] = self._spot(place, self._last)

    def best_place(self) -> tuple[float, float]:
        """Return the place that gains most so far without spoiling anything; its own one if nothing is known."""
        known = [
            (spot.change_k, place)
            for place, spot in self.spots.items()
            if spot.change_k is not None and not spot.spoils
        ]
        return max(known)[1] if known else (0.0, 0.0)

    def settled_best(self) -> Spot | None:
        """Return the best place, its gain that of the settled assessment, if it is worth it."""
        moved = _moved(self._project, self._base.depth, self._part_id, self.best_place())
        if moved is None:
            return None
        spot = self._spot(self.best_place(), assess(moved))
        return None if spot.spoils or spot.change_k is None or spot.change_k < LEAST_WORTH_K else spot

    def _spot(self, place: tuple[float, float], after: Assessment) -> Spot:
        before, now = self._base.deciding_case, after.deciding_case
        margin_k = None if now is None or after.verdict is Verdict.UNKNOWN else now.margin_k
        was_k = None if before is None else before.margin_k
        change_k = None if margin_k is None or was_k is None else margin_k - was_k
        spoils = any(effect.spoils for effect in side_effects(self._base, after, UnitSystem.METRIC))
        if before is not None:
            spoils = spoils or costs_another_case_its_day(self._base, after, before.case_id)
        return Spot(dy_mm=place[0], dz_mm=place[1], change_k=change_k, spoils=spoils)


def _moved(project: Project, depth: DepthReport, part_id: str, place: tuple[float, float]) -> Project | None:
    try:
        moved = edits.move_parts(project, [part_id], dy_mm=place[0], dz_mm=place[1])
    except ModelError:
        return None  # out of what a document may hold
    return moved if has_room(project, depth, moved) else None


def _to_and_fro(ys: Sequence[float], zs: Sequence[float]) -> Iterator[tuple[float, float]]:
    """Yield the places of a grid row by row, so that each lies beside the one before."""
    for row, z in enumerate(zs):
        yield from ((y, z) for y in (ys if row % 2 == 0 else reversed(ys)))


def _along(low_mm: float, high_mm: float, step_mm: float) -> list[float]:
    """Return whole steps either way from the core's own place, as far as it reaches."""
    return [number * step_mm for number in range(math.ceil(low_mm / step_mm), math.floor(high_mm / step_mm) + 1)]


def _around(place: tuple[float, float], step_mm: float, reach: Box) -> Iterator[tuple[float, float]]:
    """Yield the places beside one, held within reach: so the ends that no whole step meets are looked at too."""
    for dy, dz in itertools.product((-step_mm, 0.0, step_mm), repeat=2):
        y = min(max(place[0] + dy, reach.y0_mm), reach.y1_mm)
        z = min(max(place[1] + dz, reach.z0_mm), reach.z1_mm)
        yield (y, z)


def _no_map(part_id: str, reason: str) -> BetterPlaces:
    return BetterPlaces(part_id=part_id, step_mm=0.0, spots=(), finer_spots=(), best=None, reason=reason)
