"""Where the names of parts may stand so that none lies over another; in pixels of the view."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF

_GAP_PX = 9.0
_ROW_PX = 3.0
_ROWS = 5
_COST_OVER_WORDS = 60.0
_COST_OVER_DRAWING = 0.35
_COST_OUT_OF_SIGHT = 200.0
_COST_OF_ANOTHER_PLACE = 120.0


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
    words = list(taken)
    placed: list[PlacedLabel] = []
    for label in wanted:
        options = _options(label, within)
        costs = [_cost(option, label, within, words, drawing) for option in options]
        for number in range(len(costs)):
            if number != last_choices.get(label.key, number):
                costs[number] += _COST_OF_ANOTHER_PLACE
        choice = min(range(len(options)), key=costs.__getitem__)
        rect = _pushed_inside(options[choice], within)
        words.append(rect)
        leader_from, leader_to = _leader(rect, label.around)
        placed.append(PlacedLabel(label.key, rect, leader_from, leader_to, choice))
    return tuple(placed)


def _options(label: WantedLabel, within: QRectF) -> list[QRectF]:
    w, h, r = label.size.width(), label.size.height(), label.around
    lefts = (r.left(), r.center().x() - w / 2, r.right() - w)
    found = []
    for row in range(_ROWS):
        above = r.top() - _GAP_PX - h - row * (h + _ROW_PX)
        below = r.bottom() + _GAP_PX + row * (h + _ROW_PX)
        found += [QRectF(left, above, w, h) for left in lefts]
        found += [QRectF(left, below, w, h) for left in lefts]
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        top = r.top() + r.height() * share - h / 2
        found.append(QRectF(r.left() - _GAP_PX - w, top, w, h))
        found.append(QRectF(r.right() + _GAP_PX, top, w, h))
    # Where the part fills the view there is room inside only.
    found += [QRectF(left, within.top() + 4.0, w, h) for left in lefts]
    return found


def _cost(
    option: QRectF, label: WantedLabel, within: QRectF, words: Sequence[QRectF], drawing: Sequence[QRectF]
) -> float:
    cost = 0.0
    outside = option.width() * option.height() - _shared(option, within)
    cost += _COST_OUT_OF_SIGHT * outside
    cost += _COST_OVER_WORDS * sum(_shared(option, other) for other in words)
    cost += _COST_OVER_DRAWING * sum(_shared(option, other) for other in drawing)
    leader_from, leader_to = _leader(option, label.around)
    return cost + (leader_from - leader_to).manhattanLength()


def _shared(a: QRectF, b: QRectF) -> float:
    across = min(a.right(), b.right()) - max(a.left(), b.left())
    up = min(a.bottom(), b.bottom()) - max(a.top(), b.top())
    return across * up if across > 0 and up > 0 else 0.0


def _pushed_inside(rect: QRectF, within: QRectF) -> QRectF:
    left = min(max(rect.left(), within.left()), max(within.left(), within.right() - rect.width()))
    top = min(max(rect.top(), within.top()), max(within.top(), within.bottom() - rect.height()))
    return QRectF(left, top, rect.width(), rect.height())


def _leader(rect: QRectF, around: QRectF) -> tuple[QPointF, QPointF]:
    x = min(max(rect.left() + 9.0, around.left() + 6.0), max(around.left() + 6.0, around.right() - 6.0))
    x = min(x, rect.right())
    if rect.bottom() <= around.top():
        return QPointF(max(x, rect.left() + 9.0), rect.bottom()), QPointF(x, around.top())
    if rect.top() >= around.bottom():
        return QPointF(max(x, rect.left() + 9.0), rect.top()), QPointF(x, around.bottom())
    y = min(max(rect.center().y(), around.top()), around.bottom())
    if rect.right() <= around.left():
        return QPointF(rect.right(), rect.center().y()), QPointF(around.left(), y)
    if rect.left() >= around.right():
        return QPointF(rect.left(), rect.center().y()), QPointF(around.right(), y)
    return rect.center(), rect.center()
