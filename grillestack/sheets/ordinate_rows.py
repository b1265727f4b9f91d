"""Where the texts of a row of ordinates stand: as near to their features as room allows, none over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.draw_list import Axis, OrdinateDimension, Point
from grillestack.sheets.lettering import text_width_mm

# In shares of the height of the text
PITCH_FRAC = 1.55
_CLEAR_FRAC, _JOG_FRAC, _STEM_FRAC, _GAP_FRAC, _START_FRAC = 0.6, 2.4, 0.7, 0.4, 0.4
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


def spread(wanted_mm: Sequence[float], pitch_mm: float, low_mm: float, high_mm: float) -> tuple[float, ...] | None:
    """Return places a pitch apart, in order, as near to the wanted ones as can be (least squares); none if there is no room.

    Isotonic regression by pooling neighbours, on the places less their share of the pitch.
    """
    count = len(wanted_mm)
    if count and (count - 1) * pitch_mm > high_mm - low_mm + 1e-9:
        return None
    pools: list[tuple[float, int]] = []
    for place, at in enumerate(wanted_mm):
        pools.append((at - place * pitch_mm, 1))
        while len(pools) > 1 and pools[-2][0] >= pools[-1][0]:
            (mean_b, n_b), (mean_a, n_a) = pools.pop(), pools.pop()
            pools.append(((mean_a * n_a + mean_b * n_b) / (n_a + n_b), n_a + n_b))
    flat = [mean for mean, n in pools for _ in range(n)]
    most = high_mm - (count - 1) * pitch_mm
    return tuple(min(max(at, low_mm), most) + place * pitch_mm for place, at in enumerate(flat))


def row_reach_mm(texts: Sequence[str], text_mm: float) -> float:
    """Return how far a row with these texts reaches outwards."""
    longest = max((text_width_mm(text, text_mm) for text in texts), default=0.0)
    return (_CLEAR_FRAC + _JOG_FRAC + _STEM_FRAC + _GAP_FRAC) * text_mm + longest


def row_length_mm(count: int, text_mm: float) -> float:
    """Return how much length a row of so many texts takes."""
    return max(count - 1, 0) * PITCH_FRAC * text_mm


def placed_row(items: Sequence[RowItem], row: Row) -> tuple[OrdinateDimension, ...] | None:
    """Return the ordinates with their lines and texts placed, or nothing if there is no room for them."""
    ordered = sorted(items, key=lambda item: _along(item.feature, row.axis))
    at = spread([_along(i.feature, row.axis) for i in ordered], PITCH_FRAC * row.text_mm, row.low_mm, row.high_mm)
    if at is None:
        return None
    return tuple(_placed(item, place, row) for item, place in zip(ordered, at, strict=True))


def _placed(item: RowItem, at_mm: float, row: Row) -> OrdinateDimension:
    height, out = row.text_mm, row.outward
    along, start = _along(item.feature, row.axis), _across(item.feature, row.axis) + out * _START_FRAC * height
    bend = row.edge_mm + out * _CLEAR_FRAC * height
    stem = bend + out * _JOG_FRAC * height
    end = stem + out * _STEM_FRAC * height
    middle = end + out * (_GAP_FRAC * height + text_width_mm(item.text, height) / 2)
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
