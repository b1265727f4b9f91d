"""Which of many parts fit at all: the room of each of them at once, exact for rectangles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from grillestack.geometry.bodies import TOUCH_MM
from grillestack.geometry.outlines import Floats, Shape
from grillestack.geometry.piece_table import MATTERS, Bools, Ints, PieceTable
from grillestack.geometry.setting import END_MM, Setting, bounds_of, frame_of
from grillestack.geometry.taken_space import Matter
from grillestack.model.outline import SidePoint

# Low y, low z, high y, high z
Sides = tuple[float, float, float, float]
# What stands for an obstacle where a corner of the support window is in the way
WINDOW_CORNER = -1
_CORE, _MOUNT, _PORT = (MATTERS.index(matter) for matter in (Matter.CORE, Matter.MOUNT, Matter.PORT))


@dataclass(frozen=True, slots=True, eq=False)
class RoomTable:
    """For each part at its depth: whether it stands right in depth, its limits, and what is taken away from them.

    `taken` are rows (part, obstacle, low y, low z, high y, high z), only such as reach into limits that leave a place.
    """

    in_depth: Bools
    limits_mm: Floats
    taken_part: Ints
    taken_obstacle: Ints
    taken_piece: Ints
    taken_mm: Floats

    @property
    def has_limits(self) -> Bools:
        """Return which parts stand right in depth and within everything but obstacles."""
        m = self.limits_mm
        inside: Bools = self.in_depth & (m[:, 2] - m[:, 0] >= -TOUCH_MM) & (m[:, 3] - m[:, 1] >= -TOUCH_MM)
        return inside


def room_table(setting: Setting, table: PieceTable, x_mm: Floats) -> RoomTable:
    """Return the limits of each part at its depth, and the boxes of places that obstacles take away from them.

    The box of an obstacle that is no rectangle is the one round it: it takes away too much, never too little.
    """
    ahead, behind = _lean_shifts(setting, table)
    in_depth = np.isfinite(x_mm) & (x_mm + table.body_front_mm + ahead >= setting.grille_x_mm - TOUCH_MM)
    if setting.pulley_x_mm is not None:
        last = setting.pulley_x_mm - setting.clearances.pulley_mm + TOUCH_MM
        in_depth &= x_mm + table.body_rear_mm + behind <= last
    x_mm = np.where(np.isfinite(x_mm), x_mm, 0.0)
    limits, held = _limits(setting, table, x_mm)
    # What has no limits has no places to be taken away.
    stands = in_depth & (limits[:, 2] - limits[:, 0] >= -TOUCH_MM) & (limits[:, 3] - limits[:, 1] >= -TOUCH_MM)
    part, obstacle, piece, taken = _taken(setting, table, x_mm, stands)
    if setting.hole is not None and held:
        corners = _taken_by_corners(setting.hole, held)
        part, taken = np.concatenate((part, corners[0])), np.concatenate((taken, corners[1]))
        none = np.full(len(corners[0]), WINDOW_CORNER)
        obstacle, piece = np.concatenate((obstacle, none)), np.concatenate((piece, none))
    m = limits[part]
    reaches = (
        stands[part]
        & (np.minimum(taken[:, 2], m[:, 2] + TOUCH_MM) > np.maximum(taken[:, 0], m[:, 0] - TOUCH_MM))
        & (np.minimum(taken[:, 3], m[:, 3] + TOUCH_MM) > np.maximum(taken[:, 1], m[:, 1] - TOUCH_MM))
    )
    return RoomTable(in_depth, limits, part[reaches], obstacle[reaches], piece[reaches], taken[reaches])


def free_boxes(limits: Sides, taken: Sequence[Sides]) -> list[Sides]:
    """Return boxes that together are what is left of the limits, touching allowed; none if nothing is."""
    free = [(limits[0] - TOUCH_MM, limits[1] - TOUCH_MM, limits[2] + TOUCH_MM, limits[3] + TOUCH_MM)]
    for ty0, tz0, ty1, tz1 in taken:
        left: list[Sides] = []
        for box in free:
            y0, z0, y1, z1 = box
            if ty0 >= y1 or ty1 <= y0 or tz0 >= z1 or tz1 <= z0:
                left.append(box)
                continue
            low, high = max(tz0, z0), min(tz1, z1)
            if low > z0:
                left.append((y0, z0, y1, low))
            if high < z1:
                left.append((y0, high, y1, z1))
            if ty0 > y0:
                left.append((y0, low, ty0, high))
            if ty1 < y1:
                left.append((ty1, low, y1, high))
        free = left
        if not free:
            break
    return free


def _limits(setting: Setting, table: PieceTable, x_mm: Floats) -> tuple[Floats, list[tuple[Ints, Floats]]]:
    """Return each part's limits, and which boxes of which parts must lie within the support window's outline."""
    n = len(table)
    held: list[tuple[Ints, Floats]] = []
    limits = np.tile((-END_MM, -END_MM, END_MM, END_MM), (n, 1))

    def narrow(rows: Ints, inner: Floats, outer: Sides) -> None:
        low, high = np.array(outer[:2]) - inner[:, :2], np.array(outer[2:]) - inner[:, 2:]
        np.maximum.at(limits[:, :2], rows, low)
        np.minimum.at(limits[:, 2:], rows, high)

    every = np.arange(n)
    outline = table.outlines_mm
    if (box := setting.inside) is not None:
        narrow(every, outline, (box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm))
    if (box := setting.covered) is not None:
        narrow(every, outline[:, [2, 3, 0, 1]], (box.y1_mm, box.z1_mm, box.y0_mm, box.z0_mm))
    is_core = ~np.isnan(table.cores_mm[:, 0])
    if (box := setting.limits) is not None:
        bound = every if setting.hole is None else every[~is_core]
        narrow(bound, outline[bound], (box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm))
    if setting.hole is not None:
        b = bounds_of(setting.hole)
        hole = (b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)
        _, behind = _lean_shifts(setting, table)
        ahead = x_mm + table.body_rear_mm + behind <= setting.hole_x_mm + TOUCH_MM
        inner = np.where(ahead[:, None], table.cores_mm, outline + table.growth_mm)
        narrow(every[is_core], inner[is_core], hole)
        held.append((every[is_core], inner[is_core]))
        at = x_mm[table.owner]
        crosses = (at + table.front_mm < setting.hole_x_mm - TOUCH_MM) & (
            at + table.rear_mm > setting.hole_x_mm + TOUCH_MM
        )
        through = crosses & (table.matter != _MOUNT) & (~is_core[table.owner] | (table.matter == _PORT))
        narrow(table.owner[through], table.boxes_mm[through], hole)
        held.append((table.owner[through], table.boxes_mm[through]))
    if setting.bonnet_line:
        np.minimum.at(limits[:, 3], table.owner, _under_bonnet(setting, table, x_mm))
    return limits, held


def _taken_by_corners(hole: Shape, held: Sequence[tuple[Ints, Floats]]) -> tuple[Ints, Floats]:
    """Return what slanted or rounded corners of the support window take away, as boxes round the pieces they cut off."""
    rows: list[Ints] = [np.empty(0, dtype=np.int64)]
    boxes: list[Floats] = [np.empty((0, 4))]
    for piece in frame_of(hole):
        (y0, z0), (y1, z1) = piece.min(axis=0) + TOUCH_MM, piece.max(axis=0) - TOUCH_MM
        for owners, inner in held:
            rows.append(owners)
            boxes.append(np.column_stack((y0 - inner[:, 2], z0 - inner[:, 3], y1 - inner[:, 0], z1 - inner[:, 1])))
    return np.concatenate(rows), np.concatenate(boxes)


def _lean_shifts(setting: Setting, table: PieceTable) -> tuple[Floats, Floats]:
    """Return, for each part, how far its plane may run ahead of its place and behind it, as the setting says it."""
    o, c = table.outlines_mm, table.cores_mm
    beyond = np.nan_to_num((o[:, 3] - o[:, 1]) - (c[:, 3] - c[:, 1]))
    if setting.lean_frac == 0.0:
        return np.zeros_like(beyond), np.zeros_like(beyond)
    shifts = np.array([setting.lean_shifts_mm(float(one)) for one in beyond]).reshape(-1, 2)
    return shifts[:, 0], shifts[:, 1]


def _under_bonnet(setting: Setting, table: PieceTable, x_mm: Floats) -> Floats:
    ahead, behind = (shifts[table.owner] for shifts in _lean_shifts(setting, table))
    at = x_mm[table.owner]
    low = _lowest(setting.bonnet_line, at + table.front_mm + ahead, at + table.rear_mm + behind)
    keep = np.where(table.is_body, setting.clearances.bonnet_mm, 0.0)
    under: Floats = low - keep - table.boxes_mm[:, 3]
    return under


def _lowest(line: Sequence[SidePoint], x0_mm: Floats, x1_mm: Floats) -> Floats:
    """Return, for each stretch along x, the lowest point of the line over it; infinite where it does not run."""
    lowest = np.full(x0_mm.shape, np.inf)
    for a, b in zip(line, line[1:] or line, strict=False):
        left, right = (a, b) if a.x_mm <= b.x_mm else (b, a)
        low, high = np.maximum(x0_mm, left.x_mm), np.minimum(x1_mm, right.x_mm)
        run = right.x_mm - left.x_mm
        if run < TOUCH_MM:
            found = np.full(x0_mm.shape, min(left.z_mm, right.z_mm))
        else:
            rise = (right.z_mm - left.z_mm) / run
            found = left.z_mm + rise * (np.minimum(low, high) - left.x_mm)
            found = np.minimum(found, left.z_mm + rise * (high - left.x_mm))
        lowest = np.where(low <= high, np.minimum(lowest, found), lowest)
    return lowest


def _taken(setting: Setting, table: PieceTable, x_mm: Floats, stands: Bools) -> tuple[Ints, Ints, Ints, Floats]:
    looked = np.flatnonzero(stands[table.owner])
    at = x_mm[table.owner[looked]]
    front, rear = at + table.front_mm[looked], at + table.rear_mm[looked]
    matter = table.matter[looked]
    rows: list[Ints] = []
    marks: list[Ints] = []
    boxes: list[Floats] = [np.empty((0, 4))]
    for number, obstacle in enumerate(setting.obstacles):
        rooms = [setting.clearances.between(obstacle.matter, matter) for matter in MATTERS]
        room = np.array([np.nan if one is None else one for one in rooms])[matter]
        apart = np.maximum(obstacle.front_mm - rear, front - obstacle.rear_mm)
        near = np.flatnonzero(apart < room - TOUCH_MM)
        met = looked[near]
        keep, b, o = room[near] - TOUCH_MM, table.boxes_mm[met], obstacle.bounds
        boxes.append(
            np.column_stack(
                (
                    o.y0_mm - keep - b[:, 2],
                    o.z0_mm - keep - b[:, 3],
                    o.y1_mm + keep - b[:, 0],
                    o.z1_mm + keep - b[:, 1],
                )
            )
        )
        rows.append(met)
        marks.append(np.full(len(met), number))
    piece = np.concatenate(rows) if rows else np.empty(0, dtype=np.int64)
    mark = np.concatenate(marks) if marks else np.empty(0, dtype=np.int64)
    return table.owner[piece], mark, piece, np.concatenate(boxes)
