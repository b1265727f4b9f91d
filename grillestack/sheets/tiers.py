"""In which tier beside a view each linear dimension stands, so that none crosses another's line or text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.draw_list import LinearDimension, Point
from grillestack.sheets.lettering import text_width_mm

# In shares of the height of the text
FIRST_TIER_FRAC, TIER_FRAC = 2.6, 2.8
_TEXT_LIFT_FRAC, _LEVEL_GAP_FRAC = 0.9, 0.8
_ARROWS_FRAC, _TAIL_FRAC, _APART_FRAC = 2.6, 1.4, 0.3
# Lines nearer than this are one
_SHARED_MM = 0.3
_MOST_TIERS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class TierItem:
    """One linear dimension: its two feature points on paper, its true size and its text."""

    key: str
    first: Point
    second: Point
    measured_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiers:
    """Where tiers stand: across (`is_upright` false) or upright, outwards of an edge; `outward` is −1 to the left or down."""

    is_upright: bool
    edge_mm: float
    outward: int
    text_mm: float
    # Only the first tier, with texts read from below outwards of it; for sizes too small to hold their text.
    texts_are_level: bool = False


@dataclass(frozen=True, slots=True)
class _Laid:
    item: TierItem
    tier: int
    low_mm: float
    high_mm: float
    # From where to where line, arrow tails and text reach
    from_mm: float
    to_mm: float
    text_at_mm: float
    half_text_mm: float
    arrows_outside: bool


def placed_tiers(items: Sequence[TierItem], tiers: Tiers) -> tuple[tuple[LinearDimension, ...], tuple[TierItem, ...]]:
    """Return the dimensions with their places, and those for which there is none without crossing another."""
    laid: list[_Laid] = []
    left_out: list[TierItem] = []
    for item in sorted(items, key=lambda item: (_length(item, tiers), item.key)):
        found = next(
            (place for place in _ways(item, tiers) if _is_free(place, laid, _APART_FRAC * tiers.text_mm)), None
        )
        if found is None:
            left_out.append(item)
        else:
            laid.append(found)
    return tuple(_dimension(place, tiers) for place in laid), tuple(left_out)


def tiers_reach_mm(dimensions: Sequence[LinearDimension], tiers: Tiers) -> float:
    """Return how far the dimensions reach outwards of the edge."""
    if not dimensions:
        return 0.0
    outermost = max(tiers.outward * (_across(d.line_at, tiers) - tiers.edge_mm) for d in dimensions)
    if tiers.texts_are_level:
        longest = max(text_width_mm(d.text, tiers.text_mm) for d in dimensions)
        return outermost + longest + 2 * _LEVEL_GAP_FRAC * tiers.text_mm
    return outermost + 1.6 * tiers.text_mm


def _ways(item: TierItem, tiers: Tiers) -> list[_Laid]:
    """Return the ways to lay a dimension, best first: text between the arrows, beyond the far end, beyond the near end."""
    low, high = sorted((_along(item.first, tiers), _along(item.second, tiers)))
    text, height = text_width_mm(item.text, tiers.text_mm), tiers.text_mm
    tail, half, middle = _TAIL_FRAC * height, text / 2, (low + high) / 2
    ways: list[tuple[float, float, float, bool]] = []
    if tiers.texts_are_level:
        outside = high - low < _ARROWS_FRAC * height
        reach = tail if outside else 0.0
        half = 0.7 * height
        return [_Laid(item, 0, low, high, low - reach, high + reach, middle, half, outside)]
    if high - low >= text + _ARROWS_FRAC * height:
        ways.append((low, high, middle, False))
    elif high - low >= text + height:
        ways.append((low - tail, high + tail, middle, True))
    else:
        ways.append((low - tail, high + tail + text, high + tail + half, True))
        ways.append((low - tail - text, high + tail, low - tail - half, True))
    return [
        _Laid(item, tier, low, high, start, end, at, half, outside)
        for tier in range(_MOST_TIERS)
        for start, end, at, outside in ways
    ]


def _is_free(place: _Laid, laid: Sequence[_Laid], apart_mm: float) -> bool:
    for other in laid:
        if other.tier == place.tier:
            if place.from_mm < other.to_mm + apart_mm and other.from_mm < place.to_mm + apart_mm:
                return False
            continue
        inner, outer = (place, other) if place.tier < other.tier else (other, place)
        if any(_crosses(inner, end_mm, apart_mm) for end_mm in (outer.low_mm, outer.high_mm)):
            return False
    return True


def _crosses(inner: _Laid, end_mm: float, apart_mm: float) -> bool:
    """Return whether an extension line on its way outwards runs through a dimension; it may share that one's own."""
    if abs(end_mm - inner.text_at_mm) < inner.half_text_mm + apart_mm / 2:
        return True
    if min(abs(end_mm - inner.low_mm), abs(end_mm - inner.high_mm)) < _SHARED_MM:
        return False
    return inner.from_mm - apart_mm / 2 < end_mm < inner.to_mm + apart_mm / 2


def _dimension(place: _Laid, tiers: Tiers) -> LinearDimension:
    height = tiers.text_mm
    line = tiers.edge_mm + tiers.outward * (FIRST_TIER_FRAC + place.tier * TIER_FRAC) * height
    # Text stands above its line, or left of it where the line is upright.
    lift = -_TEXT_LIFT_FRAC * height if tiers.is_upright else _TEXT_LIFT_FRAC * height
    if tiers.texts_are_level:
        lift = tiers.outward * (_LEVEL_GAP_FRAC * height + text_width_mm(place.item.text, height) / 2)
    return LinearDimension(
        key=place.item.key,
        first=place.item.first,
        second=place.item.second,
        direction_deg=90.0 if tiers.is_upright else 0.0,
        line_at=_point(place.low_mm, line, tiers),
        text_at=_point(place.text_at_mm, line + lift, tiers),
        text=place.item.text,
        measured_mm=place.item.measured_mm,
        text_height_mm=height,
        arrows_outside=place.arrows_outside,
        text_is_level=tiers.texts_are_level,
    )


def _length(item: TierItem, tiers: Tiers) -> float:
    return abs(_along(item.second, tiers) - _along(item.first, tiers))


def _along(point: Point, tiers: Tiers) -> float:
    return point.y_mm if tiers.is_upright else point.x_mm


def _across(point: Point, tiers: Tiers) -> float:
    return point.x_mm if tiers.is_upright else point.y_mm


def _point(along_mm: float, across_mm: float, tiers: Tiers) -> Point:
    return Point(across_mm, along_mm) if tiers.is_upright else Point(along_mm, across_mm)
