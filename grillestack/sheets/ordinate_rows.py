"""Where the texts of a row of ordinates stand: as near to their features as room allows, none over another."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.dimension_marks import LINE_PITCH_FRAC
from grillestack.sheets.draw_list import Axis, OrdinateDimension, Point
from grillestack.sheets.lettering import lines_of, text_width_mm

# In shares of the height of the text
PITCH_FRAC = 1.55
_CLEAR_FRAC, _JOG_FRAC, _STEM_FRAC, _GAP_FRAC, _START_FRAC = 0.6, 2.0, 0.7, 0.4, 0.4
_STRAIGHT_MM = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class RowItem:
    """One ordinate on paper: its feature, its text."""

    key: str
    datum: Point
    feature: Point
    value_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Where a row stands: its ordinates measure along `axis`, lines leave the view at `edge_mm` and run outwards.

    `outward` is −1 where outwards is to the left or down, otherwise 1; texts stay between `low_mm` and `high_mm`.
    """

    axis: Axis
    edge_mm: float
    outward: int
    low_mm: float
    high_mm: float
    text_mm: float


def spread(
    wanted_mm: Sequence[float], sizes_mm: Sequence[float], low_mm: float, high_mm: float
) -> tuple[float, ...] | None:
    """Return the middles of things of these sizes, in order and free of each other, as near to the wanted ones as can be.

    Least squares: isotonic regression by pooling neighbours, on the places less the room that those before take. Nothing
    if there is no room for all between the ends.
    """
    starts = [0.0]
    for before, after in itertools.pairwise(sizes_mm):
        starts.append(starts[-1] + (before + after) / 2)
    if not wanted_mm:
        return ()
    first, last = low_mm + sizes_mm[0] / 2, high_mm - sizes_mm[-1] / 2 - starts[-1]
    if last < first - 1e-9:
        return None
    pools: list[tuple[float, int]] = []
    for at, start in zip(wanted_mm, starts, strict=True):
        pools.append((at - start, 1))
        while len(pools) > 1 and pools[-2][0] >= pools[-1][0]:
            (mean_b, n_b), (mean_a, n_a) = pools.pop(), pools.pop()
            pools.append(((mean_a * n_a + mean_b * n_b) / (n_a + n_b), n_a + n_b))
    flat = [mean for mean, n in pools for _ in range(n)]
    return tuple(min(max(at, first), last) + start for at, start in zip(flat, starts, strict=True))


def broken(text: str, text_mm: float, longest_frac: float) -> str:
    """Return the text in lines of at most so many heights."""
    return "\n".join(lines_of(text, text_mm, longest_frac * text_mm))


def row_reach_mm(texts: Sequence[str], text_mm: float) -> float:
    """Return how far a row with these texts reaches outwards."""
    longest = max((_width(text, text_mm) for text in texts), default=0.0)
    return (_CLEAR_FRAC + _JOG_FRAC + _STEM_FRAC + _GAP_FRAC) * text_mm + longest


def row_length_mm(texts: Sequence[str], text_mm: float) -> float:
    """Return how much length a row with these texts takes."""
    return sum(_size(text, text_mm) for text in texts)


def placed_row(items: Sequence[RowItem], row: Row) -> tuple[OrdinateDimension, ...] | None:
    """Return the ordinates with their lines and texts placed, or nothing if there is no room for them."""
    ordered = sorted(items, key=lambda item: _along(item.feature, row.axis))
    wanted = [_along(item.feature, row.axis) for item in ordered]
    at = spread(wanted, [_size(item.text, row.text_mm) for item in ordered], row.low_mm, row.high_mm)
    if at is None:
        return None
    return tuple(_placed(item, place, row) for item, place in zip(ordered, at, strict=True))


def _size(text: str, text_mm: float) -> float:
    return (PITCH_FRAC + text.count("\n") * LINE_PITCH_FRAC) * text_mm


def _width(text: str, text_mm: float) -> float:
    return max(text_width_mm(line, text_mm) for line in text.split("\n"))


def _placed(item: RowItem, at_mm: float, row: Row) -> OrdinateDimension:
    height, out = row.text_mm, row.outward
    along, start = _along(item.feature, row.axis), _across(item.feature, row.axis) + out * _START_FRAC * height
    bend = row.edge_mm + out * _CLEAR_FRAC * height
    stem = bend + out * _JOG_FRAC * height
    end = stem + out * _STEM_FRAC * height
    middle = end + out * (_GAP_FRAC * height + _width(item.text, height) / 2)
    leader = [(along, start), (along, bend), (at_mm, stem), (at_mm, end)]
    if abs(at_mm - along) < _STRAIGHT_MM:
        leader = [(at_mm, start), (at_mm, end)]
    return OrdinateDimension(
        key=item.key,
        axis=row.axis,
        datum=item.datum,
        feature=item.feature,
        leader=tuple(_point(a, b, row.axis) for a, b in leader),
        text_at=_point(at_mm, middle, row.axis),
        text=item.text,
        measured_mm=item.value_mm,
        text_height_mm=height,
    )


def _along(point: Point, axis: Axis) -> float:
    return point.x_mm if axis is Axis.ACROSS else point.y_mm


def _across(point: Point, axis: Axis) -> float:
    return point.y_mm if axis is Axis.ACROSS else point.x_mm


def _point(along_mm: float, across_mm: float, axis: Axis) -> Point:
    return Point(along_mm, across_mm) if axis is Axis.ACROSS else Point(across_mm, along_mm)
