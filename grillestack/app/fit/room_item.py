"""The room of a part on the sheet: the area in which one of its corners, or its middle, may stand."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.app.workers.fit_rows import FitRow, Outline

_WASH_FRAC: Final = 0.22
_DOT_PX: Final = 5.0
_Z: Final = 495.0


class Corner(enum.Enum):
    """Which point of the part the area is for; left and right are the vehicle's."""

    LOWER_LEFT = "lower left corner"
    LOWER_RIGHT = "lower right corner"
    UPPER_LEFT = "upper left corner"
    UPPER_RIGHT = "upper right corner"
    MIDDLE = "middle"


class RoomItem(QGraphicsItem):
    """Draws the area, and a dot where the corner stands; nothing without a row."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setZValue(_Z)
        self._path = QPainterPath()
        self._dot = QPointF()
        self._palette: Palette | None = None
        self.hide()

    @property
    def area(self) -> QPainterPath:
        """Return the area that is drawn."""
        return self._path

    @property
    def dot(self) -> QPointF:
        """Return where the corner stands."""
        return self._dot

    def show_row(self, row: FitRow | None, corner: Corner, palette: Palette) -> None:
        """Draw the room of that row from now on, or nothing."""
        self.prepareGeometryChange()
        self._palette = palette
        self._path = QPainterPath()
        if row is not None:
            dy, dz = offset_of(row.outline_mm, corner)
            self._path = path_of(row.room_mm, dy, dz)
            self._dot = QPointF(row.placement.y_mm + dy, row.placement.z_mm + dz)
        self.setVisible(not self._path.isEmpty())
        self.update()

    def boundingRect(self) -> QRectF:
        """Return what area and dot cover."""
        return self._path.boundingRect().adjusted(-20.0, -20.0, 20.0, 20.0)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the area with its edge, then the dot."""
        if self._palette is None or self._path.isEmpty():
            return
        accent = self._palette.accent
        painter.setPen(pen(Line.SELECTED_HIDDEN, accent))
        painter.setBrush(QBrush(faded(accent, _WASH_FRAC)))
        painter.drawPath(self._path)
        scale = painter.worldTransform().m11() or 1.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(accent))
        painter.drawEllipse(self._dot, _DOT_PX / abs(scale), _DOT_PX / abs(scale))


def offset_of(outline_mm: tuple[float, float, float, float], corner: Corner) -> tuple[float, float]:
    """Return where a corner of a box stands from the part's place; the vehicle's left is where y is low."""
    y0, z0, y1, z1 = outline_mm
    if corner is Corner.MIDDLE:
        return (y0 + y1) / 2, (z0 + z1) / 2
    low, left = corner in (Corner.LOWER_LEFT, Corner.LOWER_RIGHT), corner in (Corner.LOWER_LEFT, Corner.UPPER_LEFT)
    return (y0 if left else y1), (z0 if low else z1)


def path_of(room_mm: Sequence[Sequence[Outline]], dy_mm: float, dz_mm: float) -> QPainterPath:
    """Return the room, shifted from the part's place to its corner, as a path with its holes."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for rings in room_mm:
        for ring in rings:
            path.addPolygon(QPolygonF([QPointF(y + dy_mm, z + dz_mm) for y, z in (*ring, ring[0])]))
    return path
