"""What an outline becomes when it is mirrored about the centre of the nose: one whole, or a twin on the other side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.model.outline import Point

# Corners so near to the centre line are on it.
ON_CENTRE_MM = 0.5
_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class RoundedOutline:
    """Corners in order with one radius each."""

    corners: tuple[Point, ...]
    radii_mm: tuple[float, ...]


def twin_of(outline: Sequence[Point], radii_mm: Sequence[float]) -> RoundedOutline:
    """Return the outline as it stands on the other side of the centre."""
    return RoundedOutline(
        tuple(_other(corner) for corner in reversed(outline)),
        tuple(reversed(radii_mm or (0.0,) * len(outline))),
    )


def reaches_centre(outline: Sequence[Point]) -> bool:
    """Return whether the outline has something at, or on both sides of, the centre line."""
    ys = [corner.y_mm for corner in outline]
    return min(ys) <= ON_CENTRE_MM and max(ys) >= -ON_CENTRE_MM


def whole_of_half(path: Sequence[Point], radii_mm: Sequence[float] = ()) -> RoundedOutline:
    """Return the symmetrical outline whose one half is this open run of corners, beginning and ending near the centre.

    A first or last corner on the centre line stands in the whole once; nowhere else are corners taken away.
    """
    radii = tuple(radii_mm) or (0.0,) * len(path)
    corners = [Point(0.0, p.z_mm) if abs(p.y_mm) <= ON_CENTRE_MM else p for p in path]
    begins = 1 if corners and corners[0].y_mm == 0 else 0
    ends = len(corners) - 1 if len(corners) > 1 and corners[-1].y_mm == 0 else len(corners)
    other = [(_other(corner), radius) for corner, radius in zip(corners, radii, strict=True)][begins:ends]
    run = [*zip(corners, radii, strict=True), *reversed(other)]
    run = _without_needless(run)
    return RoundedOutline(tuple(corner for corner, _ in run), tuple(radius for _, radius in run))


def mirrored_whole(outline: Sequence[Point], radii_mm: Sequence[float]) -> RoundedOutline | None:
    """Return the symmetrical outline that the larger side of this one makes with its mirror image; nothing without a side.

    The outline is cut at the centre line; what stands on the side that reaches further out is kept and mirrored.
    """
    ys = [corner.y_mm for corner in outline]
    side = 1.0 if max(ys) >= -min(ys) else -1.0
    half = _cut(outline, tuple(radii_mm) or (0.0,) * len(outline), side)
    if len(half) < 3:
        return None
    start = _start_after_centre(half)
    if start is None:
        return None
    run = half[start:] + half[:start]
    return whole_of_half([corner for corner, _ in run], [radius for _, radius in run])


def _cut(outline: Sequence[Point], radii_mm: Sequence[float], side: float) -> list[tuple[Point, float]]:
    """Return the corners on one side, with those where the outline crosses the centre line."""
    near = [Point(0.0, p.z_mm) if abs(p.y_mm) <= ON_CENTRE_MM else p for p in outline]
    kept: list[tuple[Point, float]] = []
    for place, (corner, radius) in enumerate(zip(near, radii_mm, strict=True)):
        last = near[place - 1]
        if (last.y_mm * side < 0 < corner.y_mm * side) or (corner.y_mm * side < 0 < last.y_mm * side):
            share = last.y_mm / (last.y_mm - corner.y_mm)
            kept.append((Point(0.0, last.z_mm + share * (corner.z_mm - last.z_mm)), 0.0))
        if corner.y_mm * side >= 0:
            kept.append((corner, radius))
    return kept


def _start_after_centre(half: Sequence[tuple[Point, float]]) -> int | None:
    """Return the corner that ends the longest side along the centre line, from which the half runs out and back."""
    best, longest = None, _SAME_MM
    for place, (corner, _) in enumerate(half):
        last = half[place - 1][0]
        if corner.y_mm == 0 and last.y_mm == 0 and abs(corner.z_mm - last.z_mm) > longest:
            best, longest = place, abs(corner.z_mm - last.z_mm)
    return best


def _without_needless(run: list[tuple[Point, float]]) -> list[tuple[Point, float]]:
    """Return the corners without those on the centre line in which the outline does not turn."""
    kept = []
    for place, (corner, radius) in enumerate(run):
        last, after = run[place - 1][0], run[(place + 1) % len(run)][0]
        across = (corner.y_mm - last.y_mm) * (after.z_mm - corner.z_mm) - (corner.z_mm - last.z_mm) * (
            after.y_mm - corner.y_mm
        )
        reach = math.hypot(after.y_mm - last.y_mm, after.z_mm - last.z_mm)
        if corner.y_mm != 0 or abs(across) > _SAME_MM * max(reach, 1.0):
            kept.append((corner, radius))
    return kept if len(kept) >= 3 else run


def _other(corner: Point) -> Point:
    return Point(-corner.y_mm, corner.z_mm)
