"""What stops a part that does not fit, by how much, and the least change that would let it in."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.fit.change_words import Words
from grillestack.fit.fits import Looked, body_for
from grillestack.fit.hindered import MOVE, NONE, SWAP, VEHICLE, Group, groups_of, stop_of
from grillestack.fit.pack_room import PackRoom
from grillestack.fit.result import Change, Near, Stop
from grillestack.fit.too_large import Excess, depth_excess, excesses
from grillestack.fit.ways import Way
from grillestack.geometry.near_miss import Case, cases_of, free_without, least_move_mm, least_way_mm
from grillestack.geometry.piece_table import posed_table, some_of, table_of
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Pose
from grillestack.model.parts import Part

# Where a part would fit after all, by catalogue number: what would have to be done.
Elsewhere = Mapping[str, tuple[Change, ...]]
_SEVERAL: Final = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answer:
    """What stops one way and what would let it in; less effort is better, then less metal."""

    effort: int
    lack_mm: float
    stops: tuple[Stop, ...]
    changes: tuple[tuple[int, Change], ...]


@dataclass(frozen=True, slots=True)
class _Option:
    """Groups of hindrances that leave a place free if all of them end, and what that takes."""

    effort: int
    lacks_mm: tuple[float, ...]
    groups: tuple[Group, ...]
    change: Change

    @property
    def lack_mm(self) -> float:
        return sum(self.lacks_mm)


def near_misses(
    setting: Setting, pack: PackRoom, looked: Sequence[Looked], words: Words, elsewhere: Elsewhere
) -> tuple[Near, ...]:
    """Return, for each part that does not fit, what stops it and what would let it in; the nearest first.

    Of the ways in which a part nearly fits, the one counts that asks for least: turn a port, shorten a bracket, move other
    parts of the pack, and only then something of the vehicle.
    """
    failing = [one for one in looked if not one.fits]
    answers: dict[int, list[_Answer]] = {place: [] for place in range(len(failing))}
    seen: set[tuple[object, ...]] = set()
    for place, way, case in _cases(setting, failing):
        # Turned over, a part that is alike on both sides is hindered alike.
        alike = (place, case.in_depth, case.limits_mm, frozenset(one.taken_mm for one in case.hindrances))
        if alike in seen:
            continue
        seen.add(alike)
        answers[place].append(_answer(setting, pack, failing[place].part, way, case, words))
    found = [_near(one.part, answers[place], elsewhere.get(one.part.id, ())) for place, one in enumerate(failing)]
    return tuple(sorted(found, key=lambda near: (near.lack_mm, near.part.id)))


def _cases(setting: Setting, failing: Sequence[Looked]) -> list[tuple[int, Way, Case]]:
    if not failing:
        return []
    table = table_of([one.part for one in failing], setting.clearances.growth_mm)
    by_pose: dict[Pose, list[tuple[int, Way]]] = {}
    for place, one in enumerate(failing):
        for way in one.nearly:
            by_pose.setdefault(way.pose, []).append((place, way))
    found: list[tuple[int, Way, Case]] = []
    for pose, entries in by_pose.items():
        places = np.array([place for place, _ in entries])
        posed = some_of(posed_table(table, pose, setting.tilt_deg), places)
        cases = cases_of(setting, posed, np.array([way.x_mm for _, way in entries]))
        found += [(place, way, case) for (place, way), case in zip(entries, cases, strict=True)]
    return found


def _near(part: Part, answers: Sequence[_Answer], elsewhere: Sequence[Change]) -> Near:
    if not answers:
        stop = Stop(words="there is no depth for it in this slot", thing_id="", amount_mm=0.0)
        return Near(part=part, stops=(stop,), changes=tuple(elsewhere), lack_mm=_SEVERAL)
    best = min(answers, key=lambda one: (one.effort, len(one.stops), one.lack_mm))
    # To change places in the order takes more than to move a part, and less than to cut one.
    changes = sorted([*best.changes, *((SWAP, change) for change in elsewhere)], key=lambda entry: entry[0])
    return Near(part=part, stops=best.stops, changes=tuple(change for _, change in changes), lack_mm=best.lack_mm)


def _answer(setting: Setting, pack: PackRoom, part: Part, way: Way, case: Case, words: Words) -> _Answer:
    if not case.in_depth:
        return _for_excess(depth_excess(setting, body_for(setting, part, way.pose), way.x_mm), pack, words)
    y0, z0, y1, z1 = case.limits_mm
    if y1 < y0 or z1 < z0:
        return _for_sizes(excesses(setting, body_for(setting, part, way.pose), way.x_mm, case.limits_mm), words)
    body = body_for(setting, part, way.pose)
    groups = groups_of(setting, pack, body, way.x_mm, case, words)
    options: list[_Option] = []
    for size in (1, 2):
        # Two changes within the pack are easier than one of the vehicle.
        if not options or min(option.effort for option in options) > SWAP:
            options += [o for together in itertools.combinations(groups, size) if (o := _option(case, together))]
    if options:
        best, *others = sorted(options, key=_ease)
        stops = tuple(
            stop_of(setting, pack, body, group, lack, words)
            for group, lack in zip(best.groups, best.lacks_mm, strict=True)
        )
        further = [(option.effort, option.change) for option in others if len(option.groups) == 1]
        changes = ((best.effort, best.change), *further)
        return _Answer(effort=best.effort, lack_mm=best.lack_mm, stops=stops, changes=changes)
    stops = tuple(stop_of(setting, pack, body, group, None, words) for group in groups)
    return _Answer(effort=NONE, lack_mm=_SEVERAL, stops=stops, changes=())


def _ease(option: _Option) -> tuple[int, int, float]:
    return option.effort, len(option.groups), option.lack_mm


def _option(case: Case, together: Sequence[Group]) -> _Option | None:
    """Return what it takes to be rid of these groups at once, if that frees a place."""
    free = free_without(case, [one for group in together for one in group.hindrances])
    if not free:
        return None
    lacks = []
    for group in together:
        others = [one for other in together if other is not group for one in other.hindrances]
        if group.along_mm:
            moved = list(zip(group.hindrances, group.along_mm, strict=True))
            lacks.append(least_move_mm(case, moved, others) or 0.0)
        else:
            lacks.append(least_way_mm(free, [one.taken_mm for one in group.hindrances]))
    found = [group.change(lack) for group, lack in zip(together, lacks, strict=True)]
    change = found[0][1]
    if len(found) > 1:
        caution = next((one.caution for _, one in found if one.caution), "")
        change = Change(words=_joined([one.words for _, one in found]), caution=caution, amount_mm=None)
    return _Option(max(effort for effort, _ in found), tuple(lacks), tuple(together), change)


def _joined(words: Sequence[str]) -> str:
    first, *rest = words
    return "; ".join([first, *(f"{one[:1].lower()}{one[1:]}" for one in rest)])


def _for_excess(excess: Excess | None, pack: PackRoom, words: Words) -> _Answer:
    if excess is None:
        return _Answer(effort=NONE, lack_mm=_SEVERAL, stops=(), changes=())
    stop = Stop(words=words.too_large(excess.what, excess.by_mm, excess.within), thing_id="", amount_mm=excess.by_mm)
    change = pack.to_make_depth(excess.by_mm, words, at_the_front=excess.at_the_front)
    changes = () if change is None else ((MOVE, change),)
    return _Answer(effort=MOVE if changes else NONE, lack_mm=excess.by_mm, stops=(stop,), changes=changes)


def _for_sizes(found: Sequence[Excess], words: Words) -> _Answer:
    stops = tuple(
        Stop(words=words.too_large(one.what, one.by_mm, one.within), thing_id="", amount_mm=one.by_mm) for one in found
    )
    changes = tuple((VEHICLE, words.widen("the support window", one.by_mm)) for one in found if one.is_structure)[:1]
    lack = max((one.by_mm for one in found), default=_SEVERAL)
    return _Answer(effort=VEHICLE, lack_mm=lack, stops=stops, changes=changes)
