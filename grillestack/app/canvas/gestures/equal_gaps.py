"""Where would the gaps beside a moving thing be equal: half-way between two neighbours, or as far as two of them are apart."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.app.canvas.gestures.extents import Extent, Neighbour, overlap
from grillestack.app.canvas.gestures.snap import Axis, SnapLine

_LEAST_GAP_MM = 0.5


def equal_gap_lines(
    moving: Extent, others: Sequence[Neighbour], axis: Axis, beside: tuple[Axis, ...]
) -> tuple[SnapLine, ...]:
    """Return the lines along the axis at which gaps would be equal, for what lies beside the moving thing.

    A neighbour counts where it shares room with the moving thing along all axes of `beside`; the first of these is the
    other axis of the sheet.
    """
    row = [other for other in others if all(overlap(other.extent_mm[a], moving[a]) for a in beside)]
    middle = sum(moving[axis]) / 2
    # What reaches past the middle of the moving thing stands before or behind it, not beside it.
    before = sorted((o for o in row if o.extent_mm[axis][1] <= middle), key=lambda o: -o.extent_mm[axis][1])
    after = sorted((o for o in row if o.extent_mm[axis][0] >= middle), key=lambda o: o.extent_mm[axis][0])
    lines = []
    if before and after:
        lines += _between(moving, before[0], after[0], axis, beside[0])
    if before:
        far = next((o for o in before if o.extent_mm[axis][1] <= before[0].extent_mm[axis][0]), None)
        lines += [] if far is None else _outside(moving, far, before[0], axis, beside[0])
    if after:
        far = next((o for o in after if o.extent_mm[axis][0] >= after[0].extent_mm[axis][1]), None)
        lines += [] if far is None else _outside(moving, far, after[0], axis, beside[0])
    return tuple(lines)


def _between(moving: Extent, low: Neighbour, high: Neighbour, axis: Axis, other: Axis) -> list[SnapLine]:
    start, end = low.extent_mm[axis][1], high.extent_mm[axis][0]
    size = moving[axis][1] - moving[axis][0]
    gap = (end - start - size) / 2
    if gap < _LEAST_GAP_MM:
        return []
    line = SnapLine(
        axis=axis,
        at_mm=(start + end) / 2,
        from_mm=moving[other][0],
        to_mm=moving[other][1],
        words=f"equal gaps to {low.words} and {high.words}",
        for_middle=True,
        gaps_mm=((start, start + gap), (end - gap, end)),
        beside_mm=sum(moving[other]) / 2,
    )
    return [line]


def _outside(moving: Extent, far: Neighbour, near: Neighbour, axis: Axis, other: Axis) -> list[SnapLine]:
    """Return the line beyond the nearer of two neighbours, as far from it as it is from the other."""
    above = far.extent_mm[axis][0] > near.extent_mm[axis][1]
    if above:
        gap = far.extent_mm[axis][0] - near.extent_mm[axis][1]
        at = near.extent_mm[axis][0] - gap
        gaps = ((at, near.extent_mm[axis][0]), (near.extent_mm[axis][1], far.extent_mm[axis][0]))
    else:
        gap = near.extent_mm[axis][0] - far.extent_mm[axis][1]
        at = near.extent_mm[axis][1] + gap
        gaps = ((near.extent_mm[axis][1], at), (far.extent_mm[axis][1], near.extent_mm[axis][0]))
    if gap < _LEAST_GAP_MM:
        return []
    line = SnapLine(
        axis=axis,
        at_mm=at,
        from_mm=moving[other][0],
        to_mm=moving[other][1],
        words=f"same gap as between {near.words} and {far.words}",
        side=1 if above else -1,
        gaps_mm=gaps,
        beside_mm=sum(moving[other]) / 2,
    )
    return [line]
