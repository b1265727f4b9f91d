"""Which pieces of the outlines are seen, and which lie hidden behind something nearer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.view_faces import Face, Seen

# Nearer than this to an edge counts as on it: an outline is not hidden by a body that ends there.
_EDGE_MM = 0.01
_ARC_STEP_DEG = 3


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight piece of an outline."""

    start: Seen
    end: Seen
    is_hidden: bool


@dataclass(frozen=True, slots=True)
class RingArc:
    """A piece of a round outline, anticlockwise; a whole ring runs from 0° to 360°."""

    centre: Seen
    radius_mm: float
    start_deg: float
    end_deg: float
    is_hidden: bool


def edges_of(faces: Sequence[Face]) -> tuple[Edge, ...]:
    """Return the straight outlines of all faces that are not round, each piece once."""
    found: dict[tuple[float, ...], Edge] = {}
    for face in faces:
        if face.radius_mm is not None:
            continue
        nearer = [other for other in faces if other.depth_mm < face.depth_mm - _EDGE_MM]
        for a, b in zip(face.corners, (*face.corners[1:], face.corners[0]), strict=True):
            for piece in _pieces(a, b, nearer):
                found.setdefault(_place(piece), piece)
    return tuple(found.values())


def arcs_of(faces: Sequence[Face]) -> tuple[RingArc, ...]:
    """Return the round outlines of all faces, cut where they go behind something."""
    return tuple(
        arc
        for face in faces
        if face.radius_mm is not None and face.centre is not None
        for arc in _arcs(face.centre, face.radius_mm, [f for f in faces if f.depth_mm < face.depth_mm - _EDGE_MM])
    )


def is_covered(point: Seen, faces: Sequence[Face], depth_mm: float) -> bool:
    """Return whether something nearer than that depth lies over the point."""
    return any(_inside(point, face.corners) for face in faces if face.depth_mm < depth_mm - _EDGE_MM)


def _pieces(a: Seen, b: Seen, nearer: Sequence[Face]) -> list[Edge]:
    spans = sorted(span for face in nearer if (span := _span_inside(a, b, face.corners)) is not None)
    pieces: list[Edge] = []
    at, length = 0.0, math.hypot(b.u_mm - a.u_mm, b.v_mm - a.v_mm)
    if length < _EDGE_MM:
        return pieces
    least = _EDGE_MM / length
    for low, high in spans:
        if low > at + least:
            pieces.append(_piece(a, b, (at, low), is_hidden=False))
        if high > at + least:
            pieces.append(_piece(a, b, (max(at, low), high), is_hidden=True))
            at = high
    if at < 1.0 - least:
        pieces.append(_piece(a, b, (at, 1.0), is_hidden=False))
    return pieces


def _span_inside(a: Seen, b: Seen, corners: Sequence[Seen]) -> tuple[float, float] | None:
    """Return from where to where, as shares of the way from a to b, the line runs strictly inside convex corners."""
    low, high = 0.0, 1.0
    for p, q in zip(corners, (*corners[1:], corners[0]), strict=True):
        du, dv = q.u_mm - p.u_mm, q.v_mm - p.v_mm
        length = math.hypot(du, dv)
        if length == 0:
            continue
        from_a = (du * (a.v_mm - p.v_mm) - dv * (a.u_mm - p.u_mm)) / length - _EDGE_MM
        from_b = (du * (b.v_mm - p.v_mm) - dv * (b.u_mm - p.u_mm)) / length - _EDGE_MM
        if from_a <= 0 and from_b <= 0:
            return None
        if from_a < 0:
            low = max(low, from_a / (from_a - from_b))
        elif from_b < 0:
            high = min(high, from_a / (from_a - from_b))
    return (low, high) if high > low else None


def _piece(a: Seen, b: Seen, span: tuple[float, float], *, is_hidden: bool) -> Edge:
    first, last = (_between(a, b, share) for share in span)
    return Edge(first, last, is_hidden)


def _between(a: Seen, b: Seen, share: float) -> Seen:
    if share in (0.0, 1.0):
        return b if share else a
    return Seen(a.u_mm + share * (b.u_mm - a.u_mm), a.v_mm + share * (b.v_mm - a.v_mm))


def _place(edge: Edge) -> tuple[float, ...]:
    ends = sorted((round(p.u_mm, 3), round(p.v_mm, 3)) for p in (edge.start, edge.end))
    return (*ends[0], *ends[1], float(edge.is_hidden))


def _arcs(centre: Seen, radius_mm: float, nearer: Sequence[Face]) -> list[RingArc]:
    steps = range(0, 360, _ARC_STEP_DEG)
    hidden = [_on_ring_covered(centre, radius_mm, step + _ARC_STEP_DEG / 2, nearer) for step in steps]
    if len(set(hidden)) == 1:
        return [RingArc(centre, radius_mm, 0.0, 360.0, hidden[0])]
    first = next(k for k in range(len(hidden)) if hidden[k] != hidden[k - 1])
    arcs: list[RingArc] = []
    start = first
    for k in range(first + 1, first + len(hidden) + 1):
        if k == first + len(hidden) or hidden[k % len(hidden)] != hidden[start % len(hidden)]:
            low, high = float(start * _ARC_STEP_DEG), float(k * _ARC_STEP_DEG)
            arcs.append(RingArc(centre, radius_mm, low, high, hidden[start % len(hidden)]))
            start = k
    return arcs


def _on_ring_covered(centre: Seen, radius_mm: float, at_deg: float, nearer: Sequence[Face]) -> bool:
    turn = math.radians(at_deg)
    point = Seen(centre.u_mm + radius_mm * math.cos(turn), centre.v_mm + radius_mm * math.sin(turn))
    return any(_inside(point, face.corners) for face in nearer)


def _inside(point: Seen, corners: Sequence[Seen]) -> bool:
    for p, q in zip(corners, (*corners[1:], corners[0]), strict=True):
        du, dv = q.u_mm - p.u_mm, q.v_mm - p.v_mm
        if du * (point.v_mm - p.v_mm) - dv * (point.u_mm - p.u_mm) <= _EDGE_MM * math.hypot(du, dv):
            return False
    return True
