"""Photos that nobody took: an invented nose drawn through the tests' own pinhole camera."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPainter, QPolygonF

from tests.geometry.photographs import Camera, camera

WIDE, HIGH = 1_600, 1_200
PLATE = ((260.0, 420.0), (-260.0, 420.0), (-260.0, 530.0), (260.0, 530.0))
OPENING = ((350.0, 600.0), (-350.0, 600.0), (-350.0, 900.0), (350.0, 900.0))
PANEL = ((900.0, 300.0), (-900.0, 300.0), (-900.0, 1_100.0), (900.0, 1_100.0))
WHITE, BLACK, RED, SKY = (QColor(c) for c in ("#ffffff", "#101010", "#c03030", "#90a8b0"))


def a_camera() -> Camera:
    """Return a camera held askew, two metres and more ahead of the nose."""
    return camera(yaw_deg=20, pitch_deg=-8, roll_deg=3, distance_mm=2_400, aims_at=(0, 650), focal_px=1_500)


def drawn_nose(taken: Camera) -> QImage:
    """Return what that camera sees of a red panel with a black opening and a white plate."""
    image = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    image.fill(SKY)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QColor(0, 0, 0, 0))
    for outline, colour in ((PANEL, RED), (OPENING, BLACK), (PLATE, WHITE)):
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(*taken.sees(*place)) for place in outline]))
    painter.end()
    return image
