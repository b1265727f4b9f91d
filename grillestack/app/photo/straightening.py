"""The photo laid flat on the nose: its pixels drawn once into a picture in millimetres, which is then only blitted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QImage, QPainter, QPixmap, QPolygonF, QTransform

from grillestack.model.photo import FourCorners, TwoPoints

if TYPE_CHECKING:  # numpy comes with it
    from grillestack.geometry.homography import Matrix

MOST_PIXELS = 3_000_000
PREVIEW_PIXELS = 400_000
# Where the photo shows the plane five times as far away as the marked thing, a pixel is worth 25 of its pixels.
_LEAST_WEIGHT = 0.2
_REACH_MM = 1_600.0  # a nose is seldom wider than twice this
_SMALLEST_MM_PER_PX = 0.05


class StraighteningError(ValueError):
    """Marks that straighten nothing; the message is a sentence for the person at the marks."""


@dataclass(frozen=True, slots=True)
class Straightened:
    """A picture of the plane of the nose: where its upper left corner is (greatest y, greatest z), and its scale."""

    pixmap: QPixmap
    left_y_mm: float
    top_z_mm: float
    mm_per_px: float

    @property
    def rect_mm(self) -> QRectF:
        """Return what it covers on the front view's sheet, y and z."""
        wide, high = self.pixmap.width() * self.mm_per_px, self.pixmap.height() * self.mm_per_px
        return QRectF(self.left_y_mm - wide, self.top_z_mm - high, wide, high)


def map_of(tied: FourCorners | TwoPoints) -> Matrix:
    """Return the map from the photo in pixels to y and z in mm.

    Raises
    ------
    StraighteningError
        If the marks make none.
    """
    from grillestack.geometry.homography import QuadrilateralError
    from grillestack.geometry.photo_plane import map_to_nose

    try:
        return map_to_nose(tied)
    except QuadrilateralError as error:
        raise StraighteningError(str(error)) from error


def qt_transform(matrix: Matrix) -> QTransform:
    """Return the map as Qt writes it: transposed, as Qt multiplies rows."""
    (a, b, c), (d, e, f), (g, h, i) = ([float(number) for number in row] for row in matrix)
    return QTransform(a, d, g, b, e, h, c, f, i)


def straightened(
    pixels: QImage, full_size: QSize, tied: FourCorners | TwoPoints, most_pixels: int = MOST_PIXELS
) -> Straightened:
    """Return the photo as seen square from ahead, true to scale in the plane of the marked thing.

    `pixels` may be smaller than the photo, of whose full size the marks speak. What lies beyond the horizon or far off
    the marked thing is left out.

    Raises
    ------
    StraighteningError
        If the marks make no map.
    """
    matrix = map_of(tied)
    to_mm = qt_transform(matrix)
    inside = _near_side(QRectF(0.0, 0.0, full_size.width(), full_size.height()), matrix)
    middle = to_mm.map(_middle(tied))
    reach = QRectF(middle.x() - _REACH_MM, middle.y() - _REACH_MM, 2 * _REACH_MM, 2 * _REACH_MM)
    shown = to_mm.map(inside).intersected(QPolygonF(reach))
    bounds = shown.boundingRect()
    fine = max(_SMALLEST_MM_PER_PX, _mm_per_px_at(to_mm, _middle(tied)))
    mm_per_px = max(fine, math.sqrt(bounds.width() * bounds.height() / most_pixels))
    size = QSize(max(1, math.ceil(bounds.width() / mm_per_px)), max(1, math.ceil(bounds.height() / mm_per_px)))
    left_y, top_z = bounds.right(), bounds.bottom()  # greatest y and z
    to_target = QTransform(-1.0 / mm_per_px, 0.0, 0.0, -1.0 / mm_per_px, left_y / mm_per_px, top_z / mm_per_px)
    source = QTransform.fromScale(full_size.width() / pixels.width(), full_size.height() / pixels.height())
    drawn = QImage(size, QImage.Format.Format_ARGB32_Premultiplied)
    drawn.fill(0)
    brush = QBrush(pixels)
    brush.setTransform(source * to_mm * to_target)
    painter = QPainter(drawn)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(brush)
    painter.drawPolygon(to_target.map(shown))
    painter.end()
    return Straightened(QPixmap.fromImage(drawn), left_y, top_z, mm_per_px)


def _middle(tied: FourCorners | TwoPoints) -> QPointF:
    marks = tied.corners if isinstance(tied, FourCorners) else (tied.first, tied.second)
    return QPointF(sum(m.x_px for m in marks) / len(marks), sum(m.y_px for m in marks) / len(marks))


def _mm_per_px_at(to_mm: QTransform, at: QPointF) -> float:
    here = to_mm.map(at)
    steps = (to_mm.map(at + QPointF(1.0, 0.0)) - here, to_mm.map(at + QPointF(0.0, 1.0)) - here)
    return min(math.hypot(step.x(), step.y()) for step in steps)


def _near_side(photo: QRectF, matrix: Matrix) -> QPolygonF:
    """Return the part of the photo that shows the plane well before its horizon."""
    corners = [photo.topLeft(), photo.topRight(), photo.bottomRight(), photo.bottomLeft()]
    left = [float(matrix[2] @ (c.x(), c.y(), 1.0)) - _LEAST_WEIGHT for c in corners]
    kept: list[QPointF] = []
    for k, corner in enumerate(corners):
        if left[k - 1] * left[k] < 0.0:
            share = left[k - 1] / (left[k - 1] - left[k])
            kept.append(corners[k - 1] + (corner - corners[k - 1]) * share)
        if left[k] >= 0.0:
            kept.append(corner)
    return QPolygonF(kept)
