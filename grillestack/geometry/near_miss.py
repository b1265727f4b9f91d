"""How near is a part to fitting: what would free a place for it if it were not there, and how far that must give way."""

from __future__ import annotations

import bisect
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from grillestack.geometry.outlines import Floats
from grillestack.geometry.piece_table import PieceTable
from grillestack.geometry.room_table import RoomTable, Sides, free_boxes, room_table
from grillestack.geometry.setting import Setting


@dataclass(frozen=True, slots=True)
class Hindrance:
    """Places that one obstacle takes from one piece of the part; numbers as in the setting and in the part's pieces."""

    piece: int
    obstacle: int
    taken_mm: Sides


@dataclass(frozen=True, slots=True)
class Case:
    """One part, one way round, at one depth: the box of places that everything but obstacles leaves, and what they take."""

    in_depth: bool
    limits_mm: Sides
    hindrances: tuple[Hindrance, ...]


def cases_of(setting: Setting, table: PieceTable, x_mm: Floats) -> list[Case]:
    """Return what hinders each of these parts at its depth; an obstacle that is no rectangle counts as the box round it."""
    rooms = room_table(setting, table, x_mm)
    found: list[list[Hindrance]] = [[] for _ in range(len(table))]
    for part, obstacle, piece, taken in _rows(rooms):
        found[part].append(Hindrance(piece - int(table.starts[part]), obstacle, taken))
    return [
        Case(in_depth, (y0, z0, y1, z1), tuple(hindrances))
        for in_depth, (y0, z0, y1, z1), hindrances in zip(
            rooms.in_depth.tolist(), rooms.limits_mm.tolist(), found, strict=True
        )
    ]


def free_without(case: Case, gone: Iterable[Hindrance]) -> list[Sides]:
    """Return boxes of places that would be free if these hindrances were not there."""
    left = set(gone)
    return free_boxes(case.limits_mm, [one.taken_mm for one in case.hindrances if one not in left])


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


def least_move_mm(case: Case, moved: Sequence[tuple[Hindrance, float]], gone: Iterable[Hindrance] = ()) -> float | None:
    """Return how far along the vehicle things must move until a place is free, or nothing if none ever is.

    Parameters
    ----------
    moved
        Hindrances of what moves, each with the move that would end it [mm].
    gone
        Hindrances that are ended in another way.
    """
    needs = sorted({need for _, need in moved})
    others = set(gone)

    def is_enough(move_mm: float) -> bool:
        return bool(free_without(case, others | {one for one, need in moved if need <= move_mm}))

    if not needs or not is_enough(needs[-1]):
        return None
    place = bisect.bisect_left(needs, True, key=is_enough)  # noqa: FBT003  what is sought: the first need that is enough
    return needs[place]


def _rows(rooms: RoomTable) -> Iterable[tuple[int, int, int, Sides]]:
    sides: list[Sides] = [(y0, z0, y1, z1) for y0, z0, y1, z1 in rooms.taken_mm.tolist()]
    return zip(rooms.taken_part.tolist(), rooms.taken_obstacle.tolist(), rooms.taken_piece.tolist(), sides, strict=True)
