"""The pieces of many parts as rows of numbers, so that all of them can be turned and looked at in one go."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from grillestack.geometry.outlines import Floats
from grillestack.geometry.taken_space import BODIES, Matter, Pose, own_pieces
from grillestack.model.parts import Core, CoreRole, Part, TubeDirection

MATTERS = tuple(Matter)
_CODES = {matter: code for code, matter in enumerate(MATTERS)}
_BODY_CODES = [_CODES[matter] for matter in BODIES]

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class PieceTable:
    """Pieces of many parts, one row each, the parts one after the other; boxes are low y, low z, high y, high z.

    `starts` is where each part's rows begin; `is_odd` marks parts with a piece that is no rectangle.
    """

    boxes_mm: Floats
    front_mm: Floats
    rear_mm: Floats
    matter: Ints
    starts: Ints
    owner: Ints
    outlines_mm: Floats
    # Rows of nan for what is no core
    cores_mm: Floats
    growth_mm: Floats
    depth_mm: Floats
    body_front_mm: Floats
    body_rear_mm: Floats
    is_odd: Bools

    def __len__(self) -> int:
        """Return how many parts there are."""
        return len(self.starts)

    @property
    def is_body(self) -> Bools:
        """Return which rows are of the parts themselves, not bends or brackets."""
        return np.isin(self.matter, _BODY_CODES)


def table_of(parts: Sequence[Part], growth_mm: float) -> PieceTable:
    """Return the pieces of these parts in their own frames."""
    rows, codes, counts, odd, outlines, cores, growths = [], [], [], [], [], [], []
    for part in parts:
        pieces = own_pieces(part)
        counts.append(len(pieces))
        odd.append(any(piece.corners_mm for piece in pieces))
        for piece in pieces:
            b = piece.box
            rows.append((b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm, piece.front_mm, piece.rear_mm))
            codes.append(_CODES[piece.matter])
        first = pieces[0].box
        own = (first.y0_mm, first.z0_mm, first.y1_mm, first.z1_mm)
        if isinstance(part, Core):
            o = part.overall
            outlines.append((o.u_min_mm, o.v_min_mm, o.u_max_mm, o.v_max_mm))
            cores.append(own)
        else:
            outlines.append(own)
            cores.append((math.nan,) * 4)
        growths.append(_growth(part, growth_mm))
    table = np.array(rows, dtype=np.float64).reshape(-1, 6)
    starts = np.cumsum([0, *counts])[:-1].astype(np.int64)
    return _with_reach(
        PieceTable(
            boxes_mm=table[:, :4],
            front_mm=table[:, 4],
            rear_mm=table[:, 5],
            matter=np.array(codes, dtype=np.int64),
            starts=starts,
            owner=np.repeat(np.arange(len(counts)), counts),
            outlines_mm=np.array(outlines, dtype=np.float64).reshape(-1, 4),
            cores_mm=np.array(cores, dtype=np.float64).reshape(-1, 4),
            growth_mm=np.array(growths, dtype=np.float64).reshape(-1, 4),
            depth_mm=np.array([part.depth_mm for part in parts]),
            body_front_mm=np.zeros(len(counts)),
            body_rear_mm=np.zeros(len(counts)),
            is_odd=np.array(odd, dtype=np.bool_),
        )
    )


def posed_table(table: PieceTable, pose: Pose, tilt_deg: float = 0.0) -> PieceTable:
    """Return all parts as they stand in that pose."""
    cos = math.cos(math.radians(tilt_deg))
    front, rear = table.front_mm, table.rear_mm
    if pose.flipped:
        depth = table.depth_mm[table.owner]
        front, rear = depth - rear, depth - front
    return _with_reach(
        replace(
            table,
            boxes_mm=_turned(table.boxes_mm, pose, cos),
            front_mm=front / cos,
            rear_mm=rear / cos,
            outlines_mm=_turned(table.outlines_mm, pose, cos),
            cores_mm=_turned(table.cores_mm, pose, cos),
            growth_mm=_turned(table.growth_mm, pose, 1.0),
        )
    )


def _growth(part: Part, growth_mm: float) -> tuple[float, float, float, float]:
    if not isinstance(part, Core) or part.role is not CoreRole.CHARGE_AIR_COOLER:
        return (0.0, 0.0, 0.0, 0.0)
    across = part.tubes is TubeDirection.CROSS_FLOW
    return (-growth_mm, 0.0, growth_mm, 0.0) if across else (0.0, -growth_mm, 0.0, growth_mm)


def _turned(boxes: Floats, pose: Pose, cos: float) -> Floats:
    y0, z0, y1, z1 = boxes.T
    if pose.flipped:
        y0, y1 = -y1, -y0
    for _ in range(pose.quarter_turns):
        y0, z0, y1, z1 = -z1, y0, -z0, y1
    return np.column_stack((y0, z0 * cos, y1, z1 * cos))


def _with_reach(table: PieceTable) -> PieceTable:
    if not len(table):
        return table
    bodies = table.is_body
    return replace(
        table,
        body_front_mm=np.minimum.reduceat(np.where(bodies, table.front_mm, np.inf), table.starts),
        body_rear_mm=np.maximum.reduceat(np.where(bodies, table.rear_mm, -np.inf), table.starts),
    )


def some_of(table: PieceTable, places: Ints) -> PieceTable:
    """Return the rows of these parts only, in that order."""
    counts = np.diff(np.append(table.starts, len(table.matter)))[places]
    starts = np.cumsum(np.concatenate(([0], counts)))[:-1].astype(np.int64)
    owner = np.repeat(np.arange(len(places)), counts)
    rows = table.starts[places][owner] + np.arange(len(owner)) - starts[owner]
    return PieceTable(
        boxes_mm=table.boxes_mm[rows],
        front_mm=table.front_mm[rows],
        rear_mm=table.rear_mm[rows],
        matter=table.matter[rows],
        starts=starts,
        owner=owner,
        outlines_mm=table.outlines_mm[places],
        cores_mm=table.cores_mm[places],
        growth_mm=table.growth_mm[places],
        depth_mm=table.depth_mm[places],
        body_front_mm=table.body_front_mm[places],
        body_rear_mm=table.body_rear_mm[places],
        is_odd=table.is_odd[places],
    )
