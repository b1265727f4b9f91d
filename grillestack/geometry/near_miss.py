"""How near is a part to fitting: what would free a place for it if it were not there, and how far that must give way."""

from __future__ import annotations

import bisect
from collections.abc import Collection, Container, Iterable, Mapping, Sequence
from dataclasses import dataclass

from grillestack.geometry.bodies import TOUCH_MM
from grillestack.geometry.outlines import Floats
from grillestack.geometry.piece_table import PieceTable
from grillestack.geometry.room_table import WINDOW_CORNER, RoomTable, Sides, free_boxes, room_table
from grillestack.geometry.setting import Setting

# Places that one obstacle takes from one piece of the part: the numbers of the piece and of the obstacle, and the box
Hindrance = tuple[int, int, Sides]


@dataclass(frozen=True, slots=True)
class Case:
    """One part, one way round, at one depth: the box of places that everything but obstacles leaves, and what they take."""

    in_depth: bool
    limits_mm: Sides
    hindrances_mm: tuple[Hindrance, ...]


def cases_of(setting: Setting, table: PieceTable, x_mm: Floats) -> list[Case]:
    """Return what hinders each of these parts at its depth; an obstacle that is no rectangle counts as the box round it."""
    rooms = room_table(setting, table, x_mm)
    found: list[list[Hindrance]] = [[] for _ in range(len(table))]
    starts = table.starts.tolist()
    for part, obstacle, piece, taken in _rows(rooms):
        found[part].append((piece - starts[part] if piece >= 0 else WINDOW_CORNER, obstacle, taken))
    return [
        Case(in_depth, (y0, z0, y1, z1), tuple(hindrances))
        for in_depth, (y0, z0, y1, z1), hindrances in zip(
            rooms.in_depth.tolist(), rooms.limits_mm.tolist(), found, strict=True
        )
    ]


def covering(case: Case) -> frozenset[int]:
    """Return the hindrances that alone leave no place: without an end to all of them nothing is free."""
    y0, z0, y1, z1 = case.limits_mm
    return frozenset(
        place
        for place, (_, _, taken) in enumerate(case.hindrances_mm)
        if taken[0] < y0 - TOUCH_MM
        and taken[1] < z0 - TOUCH_MM
        and taken[2] > y1 + TOUCH_MM
        and taken[3] > z1 + TOUCH_MM
    )


def free_without(case: Case, gone: Container[int]) -> list[Sides]:
    """Return boxes of places that would be free if the hindrances with these numbers were not there."""
    return free_boxes(case.limits_mm, [one[2] for place, one in enumerate(case.hindrances_mm) if place not in gone])


def least_way_mm(free: Sequence[Sides], gone: Sequence[Sides]) -> float:
    """Return by how much the taken boxes must give way, all on the same side, until one of the free places is out of them.

    Exact for one box; for several at most this much is needed, because those that miss the place anyway count as well.
    """
    least = float("inf")
    for y0, z0, y1, z1 in free:
        mine = [t for t in gone if t[0] < y1 and t[2] > y0 and t[1] < z1 and t[3] > z0]
        if not mine:
            return 0.0
        least = min(
            least,
            max(t[2] for t in mine) - y1,
            y0 - min(t[0] for t in mine),
            max(t[3] for t in mine) - z1,
            z0 - min(t[1] for t in mine),
        )
    return max(0.0, least)


def least_move_mm(case: Case, needs_mm: Mapping[int, float], gone: Collection[int] = ()) -> float | None:
    """Return how far along the vehicle things must move until a place is free, or nothing if none ever is.

    Parameters
    ----------
    needs_mm
        For each hindrance of what moves, by its number, the move that would end it [mm].
    gone
        Hindrances that are ended in another way.
    """
    needs = sorted(set(needs_mm.values()))

    def is_enough(move_mm: float) -> bool:
        return bool(free_without(case, {*gone, *(one for one, need in needs_mm.items() if need <= move_mm)}))

    if not needs or not is_enough(needs[-1]):
        return None
    place = bisect.bisect_left(needs, True, key=is_enough)  # noqa: FBT003  what is sought: the first need that is enough
    return needs[place]


def _rows(rooms: RoomTable) -> Iterable[tuple[int, int, int, Sides]]:
    sides: list[Sides] = [(y0, z0, y1, z1) for y0, z0, y1, z1 in rooms.taken_mm.tolist()]
    return zip(rooms.taken_part.tolist(), rooms.taken_obstacle.tolist(), rooms.taken_piece.tolist(), sides, strict=True)
