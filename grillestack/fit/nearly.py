"""What stops a part that does not fit, by how much, and the least change that would let it in."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.fit.change_words import Words
from grillestack.fit.fits import Looked, body_for
from grillestack.fit.hindered import Effort, Group, groups_of, names_in_the_way, stop_of
from grillestack.fit.pack_room import PackRoom
from grillestack.fit.result import Change, Near, Stop
from grillestack.fit.too_large import Excess, depth_excess, excesses
from grillestack.fit.ways import Way
from grillestack.geometry.near_miss import Case, cases_of, covering, free_without, least_move_mm, least_way_mm
from grillestack.geometry.piece_table import posed_table, some_of, table_of
from grillestack.geometry.posed_body import Body
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Pose
from grillestack.model.parts import Part

# Where a part would fit after all, by catalogue number: what would have to be done.
Elsewhere = Mapping[str, tuple[Change, ...]]
_SEVERAL_MM: Final = 1e6
# For two changes at once so many of its ways are looked at.
_PAIRED_WAYS: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answer:
    """What stops one way and what would let it in; less effort is better, then fewer changes, then less metal."""

    effort: Effort
    lack_mm: float
    stops: tuple[Stop, ...]
    changes: tuple[tuple[Effort, Change], ...]


@dataclass(frozen=True, slots=True)
class _Way:
    """One way that obstacles forbid: the part in it, what takes its places, and what could be changed about that."""

    body: Body
    case: Case
    groups: tuple[Group, ...]
    covering: frozenset[int]


@dataclass(frozen=True, slots=True)
class _Option:
    """Groups of hindrances that leave a place free if all of them end, and what that takes."""

    way: _Way
    groups: tuple[Group, ...]
    lacks_mm: tuple[float, ...]
    effort: Effort


def near_misses(
    setting: Setting, pack: PackRoom, looked: Sequence[Looked], words: Words, elsewhere: Elsewhere
) -> tuple[Near, ...]:
    """Return, for each part that does not fit, what stops it and what would let it in; the nearest first.

    Of the ways in which a part nearly fits, the one counts that asks for least: turn a port, shorten a bracket, move other
    parts of the pack, and only then something of the vehicle.
    """
    failing = [one for one in looked if not one.fits]
    cases: list[list[tuple[Way, Case]]] = [[] for _ in failing]
    for place, way, case in _cases(setting, failing):
        cases[place].append((way, case))
    found = [
        _near(one.part, _answer(setting, pack, one.part, mine, words), elsewhere.get(one.part.id, ()))
        for one, mine in zip(failing, cases, strict=True)
    ]
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


def _near(part: Part, answer: _Answer | None, elsewhere: Sequence[Change]) -> Near:
    if answer is None:
        stop = Stop(words="there is no depth for it in this slot", thing_id="", amount_mm=None)
        return Near(part=part, stops=(stop,), changes=tuple(elsewhere), lack_mm=_SEVERAL_MM)
    # To change places in the order takes more than to move a part, and less than to cut one.
    changes = sorted([*answer.changes, *((Effort.SWAP, change) for change in elsewhere)], key=lambda entry: entry[0])
    return Near(part=part, stops=answer.stops, changes=tuple(change for _, change in changes), lack_mm=answer.lack_mm)


def _answer(
    setting: Setting, pack: PackRoom, part: Part, cases: Sequence[tuple[Way, Case]], words: Words
) -> _Answer | None:
    hindered: dict[object, _Way] = {}
    others: list[_Answer] = []
    for way, case in cases:
        y0, z0, y1, z1 = case.limits_mm
        if case.in_depth and y1 >= y0 and z1 >= z0:
            # Turned over, a part that is alike on both sides is hindered alike.
            alike = (case.limits_mm, frozenset(taken for *_, taken in case.hindrances_mm))
            if alike not in hindered:
                body = body_for(setting, part, way.pose)
                hindered[alike] = _Way(body, case, groups_of(setting, pack, body, way.x_mm, case), covering(case))
        elif not hindered:
            body = body_for(setting, part, way.pose)
            if case.in_depth:
                others.append(_for_sizes(excesses(setting, body, way.x_mm, case.limits_mm), words))
            else:
                others.append(_for_excess(depth_excess(setting, body, way.x_mm), pack, words))
    if hindered:
        return _for_hindrances(setting, pack, tuple(hindered.values()), words)
    return min(others, key=lambda one: (one.effort, len(one.stops), one.lack_mm), default=None)


def _for_hindrances(setting: Setting, pack: PackRoom, ways: Sequence[_Way], words: Words) -> _Answer:
    options = [
        o
        for way in ways
        for group in way.groups
        if way.covering <= group.members and (o := _option(pack, way, (group,)))
    ]
    if not options or min(option.effort for option in options) > Effort.SWAP:
        # Two changes within the pack are easier than one of the vehicle.
        for way in ways[:_PAIRED_WAYS]:
            options += [o for two in itertools.combinations(way.groups, 2) if (o := _option(pack, way, two))]
    if not options:
        way = ways[0]
        stops = tuple(
            stop_of(setting, pack, way.body, way.case, group, None, words) for group in names_in_the_way(way.groups)
        )
        return _Answer(effort=Effort.NONE, lack_mm=_SEVERAL_MM, stops=stops, changes=())
    best = min(options, key=_ease)
    stops = tuple(
        stop_of(setting, pack, best.way.body, best.way.case, group, lack, words)
        for group, lack in zip(best.groups, best.lacks_mm, strict=True)
    )
    further = [o for o in options if o is not best and o.way is best.way and len(o.groups) == 1]
    changes = tuple((o.effort, _change(o, pack, words)) for o in (best, *sorted(further, key=_ease)))
    return _Answer(effort=best.effort, lack_mm=sum(best.lacks_mm), stops=stops, changes=changes)


def _ease(option: _Option) -> tuple[int, int, float]:
    return option.effort, len(option.groups), sum(option.lacks_mm)


def _option(pack: PackRoom, way: _Way, together: tuple[Group, ...]) -> _Option | None:
    """Return what it takes to be rid of these groups at once, if that frees a place."""
    case = way.case
    gone = frozenset().union(*(group.members for group in together))
    free = free_without(case, gone) if way.covering <= gone else []
    if not free:
        return None
    lacks = []
    for group in together:
        if group.needs_mm:
            lacks.append(least_move_mm(case, group.needs_mm, gone - group.members) or 0.0)
        else:
            lacks.append(least_way_mm(free, [case.hindrances_mm[one][2] for one in group.members]))
    effort = max(group.effort_for(lack, pack) for group, lack in zip(together, lacks, strict=True))
    return _Option(way, together, tuple(lacks), effort)


def _change(option: _Option, pack: PackRoom, words: Words) -> Change:
    changes = [group.change(lack, pack, words) for group, lack in zip(option.groups, option.lacks_mm, strict=True)]
    if len(changes) == 1:
        return changes[0]
    caution = next((one.caution for one in changes if one.caution), "")
    return Change(words=_joined([one.words for one in changes]), caution=caution, amount_mm=None)


def _joined(words: Sequence[str]) -> str:
    first, *rest = words
    return "; ".join([first, *(f"{one[:1].lower()}{one[1:]}" for one in rest)])


def _for_excess(excess: Excess | None, pack: PackRoom, words: Words) -> _Answer:
    if excess is None:
        return _Answer(effort=Effort.NONE, lack_mm=_SEVERAL_MM, stops=(), changes=())
    stop = Stop(words=words.too_large(excess.what, excess.by_mm, excess.within), thing_id="", amount_mm=excess.by_mm)
    has_room = pack.can_move_back(excess.by_mm) if excess.at_the_front else pack.can_move_forward(excess.by_mm)
    change = pack.move_back(excess.by_mm, words) if excess.at_the_front else pack.move_forward(excess.by_mm, words)
    changes = ((Effort.MOVE, change),) if has_room else ()
    return _Answer(effort=Effort.MOVE if changes else Effort.NONE, lack_mm=excess.by_mm, stops=(stop,), changes=changes)


def _for_sizes(found: Sequence[Excess], words: Words) -> _Answer:
    stops = tuple(
        Stop(words=words.too_large(one.what, one.by_mm, one.within), thing_id="", amount_mm=one.by_mm) for one in found
    )
    needed = tuple((one.what, one.by_mm) for one in found if one.is_structure)
    changes = ((Effort.VEHICLE, words.widen("the support window", needed)),) if needed else ()
    lack = max((one.by_mm for one in found), default=_SEVERAL_MM)
    return _Answer(effort=Effort.VEHICLE, lack_mm=lack, stops=stops, changes=changes)
