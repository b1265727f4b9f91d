"""Which parts fit into a slot, and every way round and depth in which they do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.fit.depths import depths_mm
from grillestack.fit.slots import Slot
from grillestack.fit.ways import Way, poses_of, stays_ventable
from grillestack.geometry.bodies import TOUCH_MM
from grillestack.geometry.outlines import Floats
from grillestack.geometry.piece_table import Bools, posed_table, some_of, table_of
from grillestack.geometry.posed_body import Body, body_of
from grillestack.geometry.room import Room, room_of
from grillestack.geometry.room_table import RoomTable, Sides, free_boxes, room_table
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Pose, own_pieces
from grillestack.model.parts import Part
from grillestack.model.project import Project

# So many of the ways that only obstacles forbid are looked at for what would let a part in, and so many of those in which it
# is too large.
_HINDERED_WAYS: Final = 32
_LARGE_WAYS: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """One part with the ways in which it fits, or, if there is none, those in which it nearly does."""

    part: Part
    fits: tuple[Way, ...]
    nearly: tuple[Way, ...]


def look(project: Project, slot: Slot, setting: Setting, parts: Sequence[Part]) -> tuple[Looked, ...]:
    """Return, for each part in their order, the ways in which it fits into the slot: for each way round the best depth.

    All parts are looked at together, one way round and one depth after the other; exact for rectangles at once. Only where
    an outline that is none stands in the way, the exact region of that one part decides.
    """
    if not parts:
        return ()
    table = table_of(parts, setting.clearances.growth_mm)
    fits: list[list[Way]] = [[] for _ in parts]
    near: list[list[tuple[float, int, int, Way]]] = [[] for _ in parts]
    for turn, pose in enumerate(poses_of(slot.kind)):
        posed = posed_table(table, pose, slot.tilt_deg)
        allowed = np.array([stays_ventable(part, pose) for part in parts])
        core_rear = posed.rear_mm[posed.starts]
        depths = depths_mm(project, slot, setting, (posed.body_front_mm, posed.body_rear_mm, core_rear))
        open_to = allowed.copy()
        for rank, row in enumerate(depths):
            places = np.flatnonzero(open_to & np.isfinite(row))
            if not len(places):
                continue
            rooms = room_table(setting, some_of(posed, places), row[places])
            found = _fitting(setting, [parts[place] for place in places.tolist()], rooms, pose, row[places])
            for place, fit, lack in zip(places.tolist(), found, _lacks_mm(rooms).tolist(), strict=True):
                way = Way(pose, float(row[place]), rank)
                if fit:
                    fits[place].append(way)
                else:
                    near[place].append((lack, rank, turn, way))
            open_to[places[found]] = False
    return tuple(
        Looked(
            part=part,
            fits=tuple(sorted(fits[place], key=lambda way: way.rank)),
            nearly=() if fits[place] else _nearest(near[place]),
        )
        for place, part in enumerate(parts)
    )


def room_for(setting: Setting, part: Part, way: Way) -> Room:
    """Return the exact set of places at which the part fits that way."""
    return room_of(setting, body_for(setting, part, way.pose), way.x_mm)


def body_for(setting: Setting, part: Part, pose: Pose) -> Body:
    """Return the part in that pose, as it leans and grows there."""
    return body_of(part, pose, setting.tilt_deg, setting.clearances.growth_mm)


def _fitting(setting: Setting, parts: Sequence[Part], rooms: RoomTable, pose: Pose, x_mm: Floats) -> Bools:
    """Return which parts have any place at all at their depths."""
    # The last one stands for the corners of the support window.
    odd_thing = np.array([*(obstacle.shape.box is None for obstacle in setting.obstacles), True], dtype=np.bool_)
    odd_part = np.array([is_odd(part) for part in parts], dtype=np.bool_)
    is_odd_thing = odd_thing[rooms.taken_obstacle]
    found, is_open = _decided(rooms, is_odd_thing | odd_part[rooms.taken_part])
    rows = np.flatnonzero(is_open[rooms.taken_part])
    rows = rows[np.argsort(rooms.taken_part[rows], kind="stable")]
    edges = np.searchsorted(rooms.taken_part[rows], np.arange(len(parts) + 1)).tolist()
    taken: list[Sides] = list(map(tuple, rooms.taken_mm[rows].tolist()))
    is_odd_row = is_odd_thing[rows]
    limits = rooms.limits_mm.tolist()
    for place in np.flatnonzero(is_open).tolist():
        own = slice(edges[place], edges[place + 1])
        mine = taken[own]
        if free_boxes(limits[place], mine):
            found[place] = True
            continue
        # A box round an outline takes too much: where that may be what decides, the exact region does.
        odd = is_odd_row[own]
        if odd_part[place]:
            found[place] = not room_for(setting, parts[place], Way(pose, float(x_mm[place]), 0)).is_empty
        elif odd.any():
            upright = [one for one, is_round in zip(mine, odd.tolist(), strict=True) if not is_round]
            if free_boxes(limits[place], upright):
                found[place] = not room_for(setting, parts[place], Way(pose, float(x_mm[place]), 0)).is_empty
    return found


def _decided(rooms: RoomTable, is_odd_row: Bools) -> tuple[Bools, Bools]:
    """Return which parts fit because nothing hinders them, and which are open still.

    Closed are those that one rectangle alone keeps out of their limits: no other thing needs a look then.
    """
    has_limits = rooms.has_limits
    m, taken = rooms.limits_mm[rooms.taken_part], rooms.taken_mm
    alone = (
        ~is_odd_row
        & (taken[:, :2] <= m[:, :2] - TOUCH_MM).all(axis=1)
        & (taken[:, 2:] >= m[:, 2:] + TOUCH_MM).all(axis=1)
    )
    count = len(has_limits)
    is_free = has_limits & (np.bincount(rooms.taken_part, minlength=count) == 0)
    is_shut = np.bincount(rooms.taken_part[alone], minlength=count) > 0
    return is_free, has_limits & ~is_free & ~is_shut


def _lacks_mm(rooms: RoomTable) -> Floats:
    """Return how much larger than its limits each part is: 0 where only obstacles stand in its way, infinite out of depth."""
    m = rooms.limits_mm
    lack = np.maximum(np.maximum(m[:, 0] - m[:, 2], m[:, 1] - m[:, 3]), 0.0)
    lacks: Floats = np.where(rooms.in_depth, lack, np.inf)
    return lacks


def _nearest(near: Sequence[tuple[float, int, int, Way]]) -> tuple[Way, ...]:
    """Return the ways worth a closer look, out of those with how much larger than its limits the part is."""
    ordered = sorted(near, key=lambda entry: entry[:3])
    hindered = [way for lack, _, _, way in ordered if lack == 0.0]
    return tuple(hindered[:_HINDERED_WAYS] or [way for *_, way in ordered[:_LARGE_WAYS]])


def is_odd(part: Part) -> bool:
    """Return whether any piece of the part is no rectangle."""
    return any(piece.corners_mm for piece in own_pieces(part))
