"""Which pieces of a rectangle's edges are hidden by what stands ahead of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from grillestack.geometry.projection import Box

Edge = tuple[float, float, float, float]  # y and z of one end, y and z of the other
_SLACK_MM = 0.01


@dataclass(frozen=True, slots=True)
class SplitEdges:
    """The straight pieces of an outline that the eye sees and those it does not."""

    seen_mm: tuple[Edge, ...]
    hidden_mm: tuple[Edge, ...]


def split_edges(box: Box, ahead: Sequence[Box]) -> SplitEdges:
    """Return the four edges of the box cut where the boxes ahead of it begin and end to hide them."""
    seen: list[Edge] = []
    hidden: list[Edge] = []
    for z in (box.z0_mm, box.z1_mm):
        covers = ((a.y0_mm, a.y1_mm) for a in ahead if a.z0_mm + _SLACK_MM < z < a.z1_mm - _SLACK_MM)
        for start, end, is_hidden in _pieces(box.y0_mm, box.y1_mm, covers):
            (hidden if is_hidden else seen).append((start, z, end, z))
    for y in (box.y0_mm, box.y1_mm):
        covers = ((a.z0_mm, a.z1_mm) for a in ahead if a.y0_mm + _SLACK_MM < y < a.y1_mm - _SLACK_MM)
        for start, end, is_hidden in _pieces(box.z0_mm, box.z1_mm, covers):
            (hidden if is_hidden else seen).append((y, start, y, end))
    return SplitEdges(tuple(seen), tuple(hidden))


def is_covered(box: Box, ahead: Sequence[Box]) -> bool:
    """Return whether the middle of the box lies behind one of those ahead."""
    y, z = (box.y0_mm + box.y1_mm) / 2, (box.z0_mm + box.z1_mm) / 2
    return any(a.holds(y, z) for a in ahead)


def _pieces(start_mm: float, end_mm: float, covers: Iterable[tuple[float, float]]) -> list[tuple[float, float, bool]]:
    pieces: list[tuple[float, float, bool]] = []
    at = start_mm
    for low, high in sorted(covers):
        low, high = max(low, at), min(high, end_mm)
        if high - low <= _SLACK_MM:
            continue
        if low - at > _SLACK_MM:
            pieces.append((at, low, False))
        pieces.append((low, high, True))
        at = high
    if end_mm - at > _SLACK_MM:
        pieces.append((at, end_mm, False))
    return pieces
