"""The area on the sheet: shifted from the part's place to its corner, holes kept, left and right the vehicle's."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage, QPainter

from grillestack.app.fit.room_item import Corner, RoomItem, offset_of, path_of
from grillestack.app.palette import light
from tests.app.fit.made import HOLE, SQUARE, row

BOX = (-300.0, -100.0, 320.0, 110.0)


@pytest.mark.parametrize(
    ("corner", "offset"),
    [
        (Corner.LOWER_LEFT, (-300.0, -100.0)),
        (Corner.LOWER_RIGHT, (320.0, -100.0)),
        (Corner.UPPER_LEFT, (-300.0, 110.0)),
        (Corner.UPPER_RIGHT, (320.0, 110.0)),
        (Corner.MIDDLE, (10.0, 5.0)),
    ],
)
def test_where_a_corner_stands_from_the_parts_place(corner, offset):
    assert offset_of(BOX, corner) == offset


def test_the_area_is_the_room_moved_to_the_corner_with_its_hole():
    path = path_of(((SQUARE, HOLE),), -300.0, -100.0)
    assert path.contains(QPointF(-10 - 300, 510 - 100))
    assert not path.contains(QPointF(5 - 300, 585 - 100))
    assert not path.contains(QPointF(45 - 300, 510 - 100))


def test_a_row_without_room_shows_nothing_and_one_with_it_paints(qapp):
    item = RoomItem()
    item.show_row(row("a"), Corner.MIDDLE, light())
    assert not item.isVisible()
    item.show_row(row("a", assessed=True), Corner.MIDDLE, light())
    assert item.isVisible()
    assert item.dot == QPointF(10.0, 620.0)
    picture = QImage(200, 300, QImage.Format.Format_RGB32)
    picture.fill(light().paper)
    painter = QPainter(picture)
    painter.translate(50.0, -450.0)
    item.paint(painter, None)
    painter.end()
    assert picture.pixelColor(40, 60) != light().paper
    assert picture.pixelColor(55, 135) == light().paper  # the hole
    item.show_row(None, Corner.MIDDLE, light())
    assert not item.isVisible()
