"""Do names keep off each other."""

from __future__ import annotations

import itertools

import pytest
from PySide6.QtCore import QRectF, QSizeF

from grillestack.app.canvas.items.labels import WantedLabel, place_labels

SHEET = QRectF(0, 0, 500, 600)


def stacked(count: int) -> list[WantedLabel]:
    """Cores of nearly one size behind each other: the hardest case for names."""
    return [
        WantedLabel(f"part-{n}", QSizeF(150, 18), QRectF(100 - 4 * n, 200 - 3 * n, 300 + 8 * n, 180 + 6 * n))
        for n in range(count)
    ]


@pytest.mark.parametrize("count", [1, 4, 8, 12])
def test_names_of_a_stack_never_lie_over_each_other_nor_leave_the_sheet(count: int):
    labels = stacked(count)
    placed = place_labels(labels, SHEET, [], [label.around for label in labels], {})
    for a, b in itertools.combinations(placed, 2):
        assert not a.rect.intersects(b.rect), (a.key, b.key)
    assert all(SHEET.contains(label.rect) for label in placed)


def test_names_stand_outside_the_drawing_where_there_is_room():
    labels = stacked(4)
    drawing = [label.around for label in labels]
    for label in place_labels(labels, SHEET, [], drawing, {}):
        assert not any(label.rect.intersects(rect) for rect in drawing)


def test_names_keep_off_sizes_already_written():
    labels = stacked(1)
    free = place_labels(labels, SHEET, [], [labels[0].around], {})[0]
    other = place_labels(labels, SHEET, [free.rect], [labels[0].around], {})[0]
    assert not other.rect.intersects(free.rect)


def test_a_name_keeps_its_side_while_its_part_moves_a_little():
    label = stacked(1)[0]
    below = 3  # the first place under the part
    placed = place_labels([label], SHEET, [], [label.around], {label.key: below})[0]
    assert placed.choice == below
    assert placed.rect.top() >= label.around.bottom()


def test_the_leader_ends_on_the_parts_outline():
    for label in stacked(3):
        placed = place_labels([label], SHEET, [], [label.around], {})[0]
        end, around = placed.leader_to, label.around
        on_edge = end.y() in (around.top(), around.bottom()) or end.x() in (around.left(), around.right())
        assert on_edge


def test_a_part_that_fills_the_view_still_has_its_name_in_sight():
    label = WantedLabel("big", QSizeF(150, 18), QRectF(-900, -900, 3000, 3000))
    assert SHEET.contains(place_labels([label], SHEET, [], [label.around], {})[0].rect)
