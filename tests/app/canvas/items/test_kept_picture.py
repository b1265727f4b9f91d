"""A picture laid down again is the one that was drawn, but for the last step of a colour where two see-through ones lie."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from grillestack.app.canvas.items.kept_picture import KeptPicture, in_sight

COVERS = QRectF(-10.0, -10.0, 60.0, 40.0)


class Drawn:
    """Draws a line and a box, and counts how often it was asked to."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self, painter: QPainter) -> None:
        self.times += 1
        painter.fillRect(QRectF(0.3, 0.7, 20.0, 9.0), QColor(200, 60, 20, 120))
        pen = QPen(QColor("black"), 1.7)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawLine(0, 0, 40, 21)


def painted(
    kept: KeptPicture, drawn: Drawn, *, state: object = "same", shift: float = 0.0, scale: float = 1.5
) -> QImage:
    image = QImage(120, 90, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(30.0 + shift, 20.0)
    painter.scale(scale, scale)
    kept.paint(painter, COVERS, state, drawn)
    assert painter.worldTransform().m11() == scale
    painter.end()
    return image


def most_apart(one: QImage, other: QImage) -> int:
    """The largest difference of any channel of any pixel, in steps of 255."""
    return max(abs(a - b) for a, b in zip(bytes(one.constBits()), bytes(other.constBits()), strict=True))


@pytest.mark.usefixtures("qapp")
def test_what_stands_still_is_drawn_twice_and_then_only_laid_down():
    kept, drawn = KeptPicture(), Drawn()
    images = [painted(kept, drawn) for _ in range(4)]
    assert drawn.times == 2
    assert kept.is_kept
    assert images[1] == images[2] == images[3]
    assert most_apart(images[0], images[3]) <= 2


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("change", [{"state": "another"}, {"shift": 1.0}, {"scale": 2.0}])
def test_a_change_of_thing_place_or_scale_is_drawn_anew(change):
    kept, drawn = KeptPicture(), Drawn()
    for _ in range(3):
        painted(kept, drawn)
    after = painted(kept, drawn, **change)
    assert drawn.times == 3
    assert not kept.is_kept
    assert after == painted(KeptPicture(), Drawn(), **change)


@pytest.mark.usefixtures("qapp")
def test_what_lies_out_of_sight_costs_no_picture():
    kept, drawn = KeptPicture(), Drawn()
    for _ in range(3):
        painted(kept, drawn, shift=900.0)
    assert not kept.is_kept


@pytest.mark.usefixtures("qapp")
def test_what_is_in_sight_is_the_device_seen_from_the_sheet():
    image = QImage(120, 90, QImage.Format.Format_ARGB32_Premultiplied)
    painter = QPainter(image)
    painter.translate(20.0, 10.0)
    painter.scale(2.0, -2.0)
    assert in_sight(painter) == QRectF(-10.0, -40.0, 60.0, 45.0)
    painter.end()
