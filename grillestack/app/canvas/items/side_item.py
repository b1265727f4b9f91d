"""One part as seen from the vehicle's left side: its boxes with tanks hatched, front at the left."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.kept_picture import KeptPicture
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.projection import BodyKind, PlacedBox, project_part
from grillestack.model.parts import Fan, Part

_REACH_MM = 30.0


class SidePartItem(QGraphicsItem):
    """Draws one part's boxes in x and z."""

    def __init__(self, part: Part, palette: Palette, *, selected: bool) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._part = part
        self._palette = palette
        self._selected = selected

    def show_part(self, part: Part, palette: Palette, *, selected: bool) -> bool:
        """Draw this from now on; say whether anything differs from before."""
        if part is self._part and palette is self._palette and selected == self._selected:
            return False
        self.prepareGeometryChange()
        self._part, self._palette, self._selected = part, palette, selected
        self.update()
        return True

    def boundingRect(self) -> QRectF:
        """Return what all boxes cover, with room for line widths."""
        return side_rect(self._part).adjusted(-_REACH_MM, -_REACH_MM, _REACH_MM, _REACH_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the part."""
        state = (self._part, self._palette, self._selected)
        self._kept.paint(painter, self.boundingRect(), state, self._draw)

    def _draw(self, painter: QPainter) -> None:
        """Draw the boxes: solids behind, the core or the part itself over them."""
        seen = project_part(self._part)
        for box in seen.boxes[1:]:
            self._paint_box(painter, box)
        self._paint_box(painter, seen.boxes[0])
        if isinstance(self._part, Fan):
            self._paint_axis(painter, seen.boxes[0])

    def _paint_box(self, painter: QPainter, box: PlacedBox) -> None:
        path = QPainterPath()
        path.addPolygon(QPolygonF([QPointF(x, z) for x, z in box.side_corners_mm]))
        path.closeSubpath()
        paint_body(painter, path, box.kind, self._palette, selected=self._selected)

    def _paint_axis(self, painter: QPainter, box: PlacedBox) -> None:
        z = (box.z0_mm + box.z1_mm) / 2
        painter.setPen(pen(Line.CENTRE, faded(self._ink(), 0.6)))
        painter.drawLine(QLineF(box.x0_mm - 12.0, z, box.x1_mm + 12.0, z))

    def _ink(self) -> QColor:
        return self._palette.accent if self._selected else self._palette.ink


def paint_body(painter: QPainter, path: QPainterPath, kind: BodyKind, palette: Palette, *, selected: bool) -> None:
    """Draw one box of a part as it is seen from the side or from above."""
    ink = palette.accent if selected else palette.ink
    if kind is BodyKind.TANK:
        painter.fillPath(path, faded(palette.tank_wash, 0.9))
        painter.fillPath(path, hatch_brush(Hatch.TANK, faded(palette.tank_ink, 0.7), painter.worldTransform()))
        painter.strokePath(path, pen(Line.NARROW, ink))
    elif kind is BodyKind.SHROUD:
        painter.strokePath(path, pen(Line.SELECTED_HIDDEN if selected else Line.SHROUD, ink))
    elif kind is BodyKind.CORE:
        painter.fillPath(path, palette.accent_wash if selected else palette.paper)
        if not selected:
            painter.fillPath(path, faded(palette.ink, 0.09))
        painter.strokePath(path, pen(Line.SELECTED if selected else Line.VISIBLE, ink))
    else:
        painter.strokePath(path, pen(Line.SELECTED if selected else Line.NARROW, ink))


def side_rect(part: Part) -> QRectF:
    """Return what a part covers in the side view."""
    boxes = project_part(part).boxes
    x0, z0 = min(b.x0_mm for b in boxes), min(b.z0_mm for b in boxes)
    x1, z1 = max(b.x1_mm for b in boxes), max(b.z1_mm for b in boxes)
    return QRectF(x0, z0, x1 - x0, z1 - z0)
