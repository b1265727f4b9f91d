"""The vehicle's side of the side view: openings on edge, support plate, obstructions, pulley plane and bonnet line."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.kept_picture import KeptPicture, in_sight
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.corners import traced
from grillestack.model.nose import Nose

_FAR_MM = 5_000.0
_OVER_PLATE_MM = 40.0


class SideNoseItem(QGraphicsItem):
    """Draws all of the nose in x and z."""

    def __init__(self, nose: Nose, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._nose = nose
        self._palette = palette

    def show_nose(self, nose: Nose, palette: Palette) -> None:
        """Draw this nose from now on."""
        if nose is not self._nose or palette is not self._palette:
            self._nose, self._palette = nose, palette
            self.update()

    def boundingRect(self) -> QRectF:
        """Return everything: the planes have no end."""
        return QRectF(-_FAR_MM, -_FAR_MM, 2 * _FAR_MM, 2 * _FAR_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the nose."""
        self._kept.paint(painter, self.boundingRect(), (self._nose, self._palette), self._draw)

    def _draw(self, painter: QPainter) -> None:
        """Draw planes first, solids over them."""
        stations, palette = self._nose.stations, self._palette
        painter.setPen(pen(Line.CENTRE, palette.faint_ink))
        # A dashed line costs by its length, so only what is in sight is drawn.
        seen = in_sight(painter)
        painter.drawLine(QLineF(stations.grille_x_mm, seen.top(), stations.grille_x_mm, seen.bottom()))
        if stations.pulley_x_mm is not None:
            painter.drawLine(QLineF(stations.pulley_x_mm, seen.top(), stations.pulley_x_mm, seen.bottom()))
        for opening in self._nose.openings:
            box = bounds_of(traced(opening))
            painter.setPen(pen(Line.OPENING, palette.opening_ink))
            # The opening is what is missing of the grille plane: its ends are marked, as seen on edge.
            for z in (box.z0_mm, box.z1_mm):
                painter.drawLine(QLineF(opening.x_mm - 7.0, z, opening.x_mm + 7.0, z))
            painter.setPen(pen(Line.HIDDEN, faded(palette.opening_ink, 0.7)))
            painter.drawLine(QLineF(opening.x_mm, box.z0_mm, opening.x_mm, box.z1_mm))
        self._paint_support(painter)
        for obstruction in self._nose.obstructions:
            box = bounds_of(traced(obstruction))
            path = QPainterPath()
            depth = max(obstruction.x_rear_mm - obstruction.x_front_mm, 1.0)
            path.addRect(QRectF(obstruction.x_front_mm, box.z0_mm, depth, box.z1_mm - box.z0_mm))
            painter.fillPath(path, palette.paper)
            painter.fillPath(path, palette.obstruction_wash)
            ink = faded(palette.obstruction_ink, 0.55)
            painter.fillPath(path, hatch_brush(Hatch.OBSTRUCTION, ink, painter.worldTransform()))
            painter.strokePath(path, pen(Line.VISIBLE, palette.obstruction_ink))
        if len(stations.bonnet_line) > 1:
            line = QPainterPath(QPointF(stations.bonnet_line[0].x_mm, stations.bonnet_line[0].z_mm))
            for corner in stations.bonnet_line[1:]:
                line.lineTo(corner.x_mm, corner.z_mm)
            painter.strokePath(line, pen(Line.OPENING, palette.ink))

    def _paint_support(self, painter: QPainter) -> None:
        window = self._nose.support_window
        if window is None:
            return
        box = bounds_of(traced(window))
        painter.setPen(pen(Line.VISIBLE, self._palette.faint_ink))
        for start, end in ((box.z0_mm - _OVER_PLATE_MM, box.z0_mm), (box.z1_mm, box.z1_mm + _OVER_PLATE_MM)):
            painter.drawLine(QLineF(window.x_mm, start, window.x_mm, end))
