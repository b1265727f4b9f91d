"""Where the names of parts may stand so that none lies over another; in pixels of the view."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF

_GAP_PX = 9.0
_ROW_PX = 21.0
_ROWS = 8
_SHARES = (0.1, 0.3, 0.5, 0.7, 0.9)
_BESIDE = 6 * _ROWS
_INSIDE = _BESIDE + 2 * len(_SHARES)
_ROWS_INSIDE = 5
_PLACES = _INSIDE + 3 * _ROWS_INSIDE
_KEEP_OFF_PX = 4.0
_COST_OVER_WORDS = 60.0
_COST_OVER_DRAWING = 1.0
_COST_OUT_OF_SIGHT = 200.0
_COST_OF_ANOTHER_PLACE = 120.0

# left, top, right, bottom: plain numbers, because hundreds of places are tried while a part moves
_Span = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class WantedLabel:
    """A name to place: for what, how large, and what it belongs to."""

    key: str
    size: QSizeF
    around: QRectF


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """Where a name stands, where its leader line begins and where it touches the part; `choice` is kept for next time."""

    key: str
    rect: QRectF
    leader_from: QPointF
    leader_to: QPointF
    choice: int


def place_labels(
    wanted: Sequence[WantedLabel],
    within: QRectF,
    taken: Iterable[QRectF],
    drawing: Sequence[QRectF],
    last_choices: Mapping[str, int],
) -> tuple[PlacedLabel, ...]:
    """Return a place for every name, in the order given; a name keeps the kind of place it had unless that is much worse."""
    words = [_span(rect) for rect in taken]
    room = _span(within)
    kept_off = [_span(rect.adjusted(-_KEEP_OFF_PX, -_KEEP_OFF_PX, _KEEP_OFF_PX, _KEEP_OFF_PX)) for rect in drawing]
    placed: list[PlacedLabel] = []
    for label in wanted:
        around = _span(label.around)
        last = last_choices.get(label.key)
        choice, option = _cheapest(
            _Sought(label.size.width(), label.size.height(), around, last), (room, words, kept_off)
        )
        span = _pushed_inside(option, room)
        words.append(span)
        leader_from, leader_to = _leader(span, around)
        rect = QRectF(span[0], span[1], span[2] - span[0], span[3] - span[1])
        placed.append(PlacedLabel(label.key, rect, QPointF(*leader_from), QPointF(*leader_to), choice))
    return tuple(placed)


@dataclass(frozen=True, slots=True)
class _Sought:
    """A name that seeks its place: how large, at what, and the number of the place it had."""

    width_px: float
    height_px: float
    around_px: _Span
    last: int | None

    def option(self, number: int, room: _Span) -> _Span:
        """Return the place of that number."""
        x, y = _corner(number, self.width_px, self.height_px, self.around_px, room)
        return (x, y, x + self.width_px, y + self.height_px)


def _cheapest(sought: _Sought, surroundings: tuple[_Span, Sequence[_Span], Sequence[_Span]]) -> tuple[int, _Span]:
    room, words, kept_off = surroundings
    # While something moves most names stand where they stood; all other places are only looked at if that is taken.
    if sought.last is not None and sought.last < _PLACES:
        option = sought.option(sought.last, room)
        if _stands_free(option, room, words, kept_off):
            return sought.last, option
    options = [sought.option(number, room) for number in range(_PLACES)]
    lowest = []
    for number, option in enumerate(options):
        (x0, y0), (x1, y1) = _leader(option, sought.around_px)
        moved = _COST_OF_ANOTHER_PLACE if sought.last is not None and number != sought.last else 0.0
        lowest.append((abs(x1 - x0) + abs(y1 - y0) + moved, number))
    best, cost_of_best = 0, float("inf")
    # A place costs at least its leader's length, so the search ends when that alone is dearer than the best.
    for least, number in sorted(lowest):
        if least >= cost_of_best:
            break
        option = options[number]
        area = (option[2] - option[0]) * (option[3] - option[1])
        cost = least + _COST_OUT_OF_SIGHT * (area - _shared(option, room))
        if cost < cost_of_best:
            cost += _COST_OVER_WORDS * sum(_shared(option, other) for other in words)
        if cost < cost_of_best:
            cost += _COST_OVER_DRAWING * sum(_shared(option, other) for other in kept_off)
        if cost < cost_of_best:
            best, cost_of_best = number, cost
    return best, options[best]


def _stands_free(option: _Span, room: _Span, words: Sequence[_Span], kept_off: Sequence[_Span]) -> bool:
    area = (option[2] - option[0]) * (option[3] - option[1])
    if _shared(option, room) < area * 0.999:
        return False
    return not any(_shared(option, other) for other in words) and not any(_shared(option, o) for o in kept_off)


def _corner(number: int, w: float, h: float, around: _Span, room: _Span) -> tuple[float, float]:
    """Return the upper left corner of a place: rows over and under the part, then beside it, then inside at the top."""
    left, top, right, bottom = around
    lefts = (left, (left + right - w) / 2, right - w)
    if number < _BESIDE:
        row, place = divmod(number, 6)
        step = row * _ROW_PX
        return lefts[place % 3], top - _GAP_PX - h - step if place < 3 else bottom + _GAP_PX + step
    if number < _INSIDE:
        share, at_right = divmod(number - _BESIDE, 2)
        y = top + (bottom - top) * _SHARES[share] - h / 2
        return right + _GAP_PX if at_right else left - _GAP_PX - w, y
    # Where the part fills the view there is room inside only.
    row, place = divmod(number - _INSIDE, 3)
    return lefts[place], room[1] + 4.0 + row * _ROW_PX


def _span(rect: QRectF) -> _Span:
    return (rect.left(), rect.top(), rect.right(), rect.bottom())


def _shared(a: _Span, b: _Span) -> float:
    across = (min(b[2], a[2])) - (max(b[0], a[0]))
    if across <= 0.0:
        return 0.0
    up = (min(b[3], a[3])) - (max(b[1], a[1]))
    return across * up if up > 0.0 else 0.0


def _pushed_inside(span: _Span, room: _Span) -> _Span:
    w, h = span[2] - span[0], span[3] - span[1]
    left = min(max(span[0], room[0]), max(room[0], room[2] - w))
    top = min(max(span[1], room[1]), max(room[1], room[3] - h))
    return (left, top, left + w, top + h)


def _leader(span: _Span, around: _Span) -> tuple[tuple[float, float], tuple[float, float]]:
    x = min(max(span[0] + 9.0, around[0] + 6.0), max(around[0] + 6.0, around[2] - 6.0))
    x = min(x, span[2])
    start = max(x, span[0] + 9.0)
    if span[3] <= around[1]:
        return (start, span[3]), (x, around[1])
    if span[1] >= around[3]:
        return (start, span[1]), (x, around[3])
    middle = (span[1] + span[3]) / 2
    y = min(max(middle, around[1]), around[3])
    if span[2] <= around[0]:
        return (span[2], middle), (around[0], y)
    if span[0] >= around[2]:
        return (span[0], middle), (around[2], y)
    inside = ((span[0] + span[2]) / 2, middle)
    return inside, inside
