"""One part as seen from ahead: outline, core, tanks, ports, mounts; what stands ahead makes its edges dashed."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.connections import paint_connections
from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.hidden_edges import Edge
from grillestack.app.canvas.items.kept_picture import KeptPicture
from grillestack.app.canvas.items.part_lines import part_lines
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.projection import Box, ProjectedPart, project_part
from grillestack.model.parts import Fan, Part

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
        return self.looks_like(other) and self.ahead == other.ahead

    def looks_like(self, other: PartDrawing) -> bool:
        """Return whether the picture would be the same if the same stood ahead."""
        return self.part is other.part and self.palette is other.palette and self.selected == other.selected


def rect_of(box: Box) -> QRectF:
    """Return the box as a rectangle of the front view's sheet."""
    return QRectF(box.y0_mm, box.z0_mm, box.y1_mm - box.y0_mm, box.z1_mm - box.z0_mm)


class PartItem(QGraphicsItem):
    """Draws one part in mm; knows nothing of gestures."""

    def __init__(self, drawing: PartDrawing) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._drawing = drawing
        self._projected = project_part(drawing.part)
        self._lines = part_lines(self._projected, drawing.ahead)

    @property
    def part(self) -> Part:
        """Return the part that is drawn."""
        return self._drawing.part

    def show_drawing(self, drawing: PartDrawing) -> bool:
        """Draw this from now on; say whether anything differs from before."""
        if drawing.same_as(self._drawing):
            return False
        projected = project_part(drawing.part)
        lines = part_lines(projected, drawing.ahead)
        alike = drawing.looks_like(self._drawing) and lines == self._lines
        self._drawing = drawing
        if alike:
            return False
        self.prepareGeometryChange()
        self._projected, self._lines = projected, lines
        self.update()
        return True

    def boundingRect(self) -> QRectF:
        """Return the outline with room for ports and line widths."""
        return rect_of(self._projected.outline_box).adjusted(-_REACH_MM, -_REACH_MM, _REACH_MM, _REACH_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the part."""
        drawing = self._drawing
        state = (drawing.part, self._lines, drawing.selected, drawing.palette)
        self._kept.paint(painter, self.boundingRect(), state, self._draw)

    def _draw(self, painter: QPainter) -> None:
        if isinstance(self._drawing.part, Fan):
            self._paint_fan(painter, self._drawing.part)
        else:
            self._paint_solids(painter)
            self._paint_outline(painter)
        paint_connections(painter, self._drawing.part, self._drawing.palette, selected=self._drawing.selected)

    def _paint_solids(self, painter: QPainter) -> None:
        lines, palette, selected = self._lines, self._drawing.palette, self._drawing.selected
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003  Qt's signature
        for solid in lines.solids:
            strength = 0.45 if solid.is_covered else 1.0
            rect = rect_of(solid.box)
            # A selected part is drawn last: its tanks must not paper over what stands ahead of it.
            painter.fillRect(rect, faded(palette.tank_wash, (0.3 if selected else 0.75) * strength))
            if solid.is_tank:
                ink = palette.accent if selected else palette.tank_ink
                painter.fillRect(rect, hatch_brush(Hatch.TANK, faded(ink, 0.8 * strength), painter.worldTransform()))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(pen(Line.NARROW, self._ink(0.8)))
        _draw_edges(painter, lines.solid_seen_mm)
        painter.setPen(pen(Line.HIDDEN, self._ink(0.4)))
        _draw_edges(painter, lines.solid_hidden_mm)

    def _paint_outline(self, painter: QPainter) -> None:
        lines, selected = self._lines, self._drawing.selected
        if self._projected.is_shroud:
            line = Line.SELECTED_HIDDEN if selected else Line.SHROUD
            painter.setPen(pen(line, self._ink(0.75)))
            _draw_edges(painter, lines.outline_seen_mm)
            return
        painter.setPen(pen(Line.NARROW, self._ink(0.9)))
        _draw_edges(painter, lines.core_seen_mm)
        painter.setPen(pen(Line.HIDDEN, self._ink(0.6)))
        _draw_edges(painter, lines.core_hidden_mm)
        painter.setPen(pen(Line.SELECTED_HIDDEN if selected else Line.HIDDEN, self._ink(0.8)))
        _draw_edges(painter, lines.outline_hidden_mm)
        painter.setPen(pen(Line.SELECTED if selected else Line.VISIBLE, self._ink(1.0)))
        _draw_edges(painter, lines.outline_seen_mm)

    def _paint_fan(self, painter: QPainter, fan: Fan) -> None:
        circle = self._projected.circle
        if circle is None:
            return
        hidden = self._lines.is_covered
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
