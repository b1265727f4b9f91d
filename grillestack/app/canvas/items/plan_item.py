"""One part, and the nose, as seen from above: y across, x up the sheet, so that the front lies at the foot."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.kept_picture import KeptPicture, in_sight
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.canvas.items.side_item import paint_body
from grillestack.app.palette import Palette
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import PlacedBox, project_part
from grillestack.model.nose import Nose
from grillestack.model.parts import Fan, Part

_REACH_MM = 30.0
_FAR_MM = 5_000.0
_OVER_PLATE_MM = 60.0
_LEAST_DEPTH_MM = 1.0


class PlanPartItem(QGraphicsItem):
    """Draws one part's boxes in y and x."""

    def __init__(self, part: Part, palette: Palette, *, selected: bool) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._part = part
        self._palette = palette
        self._selected = selected

    def show_part(self, part: Part, palette: Palette, *, selected: bool) -> None:
        """Draw this from now on."""
        if part is self._part and palette is self._palette and selected == self._selected:
            return
        self.prepareGeometryChange()
        self._part, self._palette, self._selected = part, palette, selected
        self.update()

    def boundingRect(self) -> QRectF:
        """Return what all boxes cover, with room for line widths."""
        return plan_rect(self._part).adjusted(-_REACH_MM, -_REACH_MM, _REACH_MM, _REACH_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the part."""
        self._kept.paint(painter, self.boundingRect(), (self._part, self._palette, self._selected), self._draw)

    def _draw(self, painter: QPainter) -> None:
        """Draw the boxes: solids behind, the core or the part itself over them."""
        boxes = project_part(self._part).boxes
        for box in (*boxes[1:], boxes[0]):
            path = QPainterPath()
            path.addRect(_rect(box))
            paint_body(painter, path, box.kind, self._palette, selected=self._selected)
        if isinstance(self._part, Fan):
            y = (boxes[0].y0_mm + boxes[0].y1_mm) / 2
            painter.setPen(pen(Line.CENTRE, faded(self._palette.ink, 0.6)))
            painter.drawLine(QLineF(y, boxes[0].x0_mm - 12.0, y, boxes[0].x1_mm + 12.0))


class PlanNoseItem(QGraphicsItem):
    """Draws all of the nose in y and x: planes, openings on edge, support plate, obstructions."""

    def __init__(self, nose: Nose, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
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
        """Draw planes first, solids over them."""
        stations, palette = self._nose.stations, self._palette
        seen = in_sight(painter)  # a dashed line costs by its length
        painter.setPen(pen(Line.CENTRE, palette.faint_ink))
        painter.drawLine(QLineF(seen.left(), stations.grille_x_mm, seen.right(), stations.grille_x_mm))
        if stations.pulley_x_mm is not None:
            painter.drawLine(QLineF(seen.left(), stations.pulley_x_mm, seen.right(), stations.pulley_x_mm))
        painter.drawLine(QLineF(0.0, seen.top(), 0.0, seen.bottom()))
        for opening in self._nose.openings:
            box = bounds_of(traced(opening))
            painter.setPen(pen(Line.OPENING, palette.opening_ink))
            for y in (box.y0_mm, box.y1_mm):
                painter.drawLine(QLineF(y, opening.x_mm - 7.0, y, opening.x_mm + 7.0))
            painter.setPen(pen(Line.HIDDEN, faded(palette.opening_ink, 0.7)))
            painter.drawLine(QLineF(box.y0_mm, opening.x_mm, box.y1_mm, opening.x_mm))
        self._paint_support(painter)
        for obstruction in self._nose.obstructions:
            box = bounds_of(traced(obstruction))
            path = QPainterPath()
            depth = max(obstruction.x_rear_mm - obstruction.x_front_mm, _LEAST_DEPTH_MM)
            path.addRect(QRectF(box.y0_mm, obstruction.x_front_mm, box.y1_mm - box.y0_mm, depth))
            painter.fillPath(path, palette.paper)
            painter.fillPath(path, palette.obstruction_wash)
            ink = faded(palette.obstruction_ink, 0.55)
            painter.fillPath(path, hatch_brush(Hatch.OBSTRUCTION, ink, painter.worldTransform()))
            painter.strokePath(path, pen(Line.VISIBLE, palette.obstruction_ink))

    def _paint_support(self, painter: QPainter) -> None:
        window = self._nose.support_window
        if window is None:
            return
        box = bounds_of(traced(window))
        painter.setPen(pen(Line.VISIBLE, self._palette.faint_ink))
        for start, end in ((box.y0_mm - _OVER_PLATE_MM, box.y0_mm), (box.y1_mm, box.y1_mm + _OVER_PLATE_MM)):
            painter.drawLine(QLineF(start, window.x_mm, end, window.x_mm))


def plan_rect(part: Part) -> QRectF:
    """Return what a part covers in the view from above."""
    boxes = project_part(part).boxes
    y0, x0 = min(b.y0_mm for b in boxes), min(b.x0_mm for b in boxes)
    y1, x1 = max(b.y1_mm for b in boxes), max(b.x1_mm for b in boxes)
    return QRectF(y0, x0, y1 - y0, x1 - x0)


def _rect(box: PlacedBox) -> QRectF:
    return QRectF(box.y0_mm, box.x0_mm, box.y1_mm - box.y0_mm, box.x1_mm - box.x0_mm)
