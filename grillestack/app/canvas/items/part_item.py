"""One part as seen from ahead: outline, core, tanks, ports, mounts; what stands ahead makes its edges dashed."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.connections import paint_connections
from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.hidden_edges import Edge, is_covered, split_edges
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.projection import Box, ProjectedPart, project_part
from grillestack.model.parts import Fan, Part, SolidKind

_REACH_MM = 60.0
_BLADES = 5


@dataclass(frozen=True, slots=True)
class PartDrawing:
    """All that one part's picture depends on."""

    part: Part
    ahead: tuple[Box, ...]
    selected: bool
    palette: Palette

    def same_as(self, other: PartDrawing) -> bool:
        """Return whether the picture would be the same; parts are compared by identity."""
        return (
            self.part is other.part
            and self.palette is other.palette
            and self.selected == other.selected
            and self.ahead == other.ahead
        )


def rect_of(box: Box) -> QRectF:
    """Return the box as a rectangle of the front view's sheet."""
    return QRectF(box.y0_mm, box.z0_mm, box.y1_mm - box.y0_mm, box.z1_mm - box.z0_mm)


class PartItem(QGraphicsItem):
    """Draws one part in mm; knows nothing of gestures."""

    def __init__(self, drawing: PartDrawing) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._drawing = drawing
        self._projected = project_part(drawing.part)

    @property
    def part(self) -> Part:
        """Return the part that is drawn."""
        return self._drawing.part

    def show_drawing(self, drawing: PartDrawing) -> bool:
        """Draw this from now on; say whether anything differs from before."""
        if drawing.same_as(self._drawing):
            return False
        self.prepareGeometryChange()
        self._drawing = drawing
        self._projected = project_part(drawing.part)
        self.update()
        return True

    def boundingRect(self) -> QRectF:
        """Return the outline with room for ports and line widths."""
        return rect_of(self._projected.outline_box).adjusted(-_REACH_MM, -_REACH_MM, _REACH_MM, _REACH_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the part."""
        if isinstance(self._drawing.part, Fan):
            self._paint_fan(painter, self._drawing.part)
        else:
            self._paint_solids(painter)
            self._paint_outline(painter)
        paint_connections(painter, self._drawing.part, self._drawing.palette, selected=self._drawing.selected)

    def _paint_solids(self, painter: QPainter) -> None:
        palette, ahead = self._drawing.palette, self._drawing.ahead
        for box, kind in zip(self._projected.solid_boxes, self._projected.solid_kinds, strict=True):
            strength = 0.45 if is_covered(box, ahead) else 1.0
            rect = rect_of(box)
            # A selected part is drawn last: its tanks must not paper over what stands ahead of it.
            painter.fillRect(rect, faded(palette.tank_wash, (0.3 if self._drawing.selected else 0.75) * strength))
            if kind is SolidKind.TANK:
                ink = palette.accent if self._drawing.selected else palette.tank_ink
                painter.fillRect(rect, hatch_brush(Hatch.TANK, faded(ink, 0.8 * strength), painter.worldTransform()))
            edges = split_edges(box, ahead)
            painter.setPen(pen(Line.NARROW, self._ink(0.8)))
            _draw_edges(painter, edges.seen_mm)
            painter.setPen(pen(Line.HIDDEN, self._ink(0.4)))
            _draw_edges(painter, edges.hidden_mm)

    def _paint_outline(self, painter: QPainter) -> None:
        drawing, projected = self._drawing, self._projected
        edges = split_edges(projected.outline_box, drawing.ahead)
        if projected.is_shroud:
            line = Line.SELECTED_HIDDEN if drawing.selected else Line.SHROUD
            painter.setPen(pen(line, self._ink(0.75)))
            _draw_edges(painter, (*edges.seen_mm, *edges.hidden_mm))
            return
        if projected.core_box is not None and projected.core_box != projected.outline_box:
            core = split_edges(projected.core_box, drawing.ahead)
            painter.setPen(pen(Line.NARROW, self._ink(0.9)))
            _draw_edges(painter, core.seen_mm)
            painter.setPen(pen(Line.HIDDEN, self._ink(0.6)))
            _draw_edges(painter, core.hidden_mm)
        painter.setPen(pen(Line.SELECTED_HIDDEN if drawing.selected else Line.HIDDEN, self._ink(0.8)))
        _draw_edges(painter, edges.hidden_mm)
        painter.setPen(pen(Line.SELECTED if drawing.selected else Line.VISIBLE, self._ink(1.0)))
        _draw_edges(painter, edges.seen_mm)

    def _paint_fan(self, painter: QPainter, fan: Fan) -> None:
        circle = self._projected.circle
        if circle is None:
            return
        hidden = is_covered(self._projected.outline_box, self._drawing.ahead)
        centre, radius = QPointF(circle.y_mm, circle.z_mm), circle.radius_mm
        strength = 0.7 if hidden else 1.0
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen(Line.NARROW, self._ink(0.4 * strength)))
        painter.drawPath(_blades(centre, max(fan.motor_diameter_mm / 2, radius * 0.15), radius * 0.94))
        if self._drawing.selected:
            painter.setPen(pen(Line.SELECTED_HIDDEN if hidden else Line.SELECTED, self._ink(1.0)))
        else:
            painter.setPen(pen(Line.HIDDEN if hidden else Line.VISIBLE, self._ink(strength)))
        painter.drawEllipse(centre, radius, radius)
        if fan.motor_diameter_mm > 0:
            painter.setPen(pen(Line.HIDDEN if hidden else Line.NARROW, self._ink(strength)))
            painter.drawEllipse(centre, fan.motor_diameter_mm / 2, fan.motor_diameter_mm / 2)
        painter.setPen(pen(Line.CENTRE, self._ink(0.5 * strength)))
        arm = radius * 1.06
        painter.drawLine(QLineF(centre.x() - arm, centre.y(), centre.x() + arm, centre.y()))
        painter.drawLine(QLineF(centre.x(), centre.y() - arm, centre.x(), centre.y() + arm))

    def _ink(self, share_frac: float) -> QColor:
        palette = self._drawing.palette
        return faded(palette.accent if self._drawing.selected else palette.ink, share_frac)


class WashItem(QGraphicsItem):
    """A faint body for every core, so that what reaches beside the radiator is seen as solid."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._palette = palette
        self._cores: tuple[ProjectedPart, ...] = ()

    def show_cores(self, cores: tuple[ProjectedPart, ...], palette: Palette) -> None:
        """Wash these cores from now on."""
        if cores != self._cores or palette is not self._palette:
            self.prepareGeometryChange()
            self._cores, self._palette = cores, palette
            self.update()

    def boundingRect(self) -> QRectF:
        """Return what all cores cover together."""
        covered = QRectF()
        for core in self._cores:
            covered = covered.united(rect_of(core.outline_box))
        return covered

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the washes, the same however many cores lie over each other."""
        path = QPainterPath()
        path.setFillRule(Qt.FillRule.WindingFill)
        for core in self._cores:
            path.addRect(rect_of(core.core_box or core.outline_box))
        painter.fillPath(path, faded(self._palette.ink, 0.05))


def _draw_edges(painter: QPainter, edges: tuple[Edge, ...]) -> None:
    if edges:
        painter.drawLines([QLineF(*edge) for edge in edges])


def _blades(centre: QPointF, inner_mm: float, outer_mm: float) -> QPainterPath:
    one = QPainterPath(QPointF(inner_mm, 0.0))
    one.quadTo(QPointF(outer_mm * 0.7, outer_mm * 0.06), QPointF(outer_mm * 0.93, outer_mm * 0.36))
    path = QPainterPath()
    for blade in range(_BLADES):
        turn = QTransform().translate(centre.x(), centre.y()).rotate(90.0 + blade * 360.0 / _BLADES)
        path.addPath(turn.map(one))
    return path
