"""The vehicle's side of the picture: openings, support window, obstructions and the centre of the nose."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.kept_picture import KeptPicture, in_sight
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.corners import traced
from grillestack.model.nose import NoseThing, Obstruction, Opening
from grillestack.model.outline import Point

_FAR_MM = 5_000.0
_BAR_EVERY_MM = 24.0


@dataclass(frozen=True, slots=True)
class NoseDrawing:
    """All that the picture of one thing of the nose depends on."""

    thing: NoseThing
    selected: bool
    palette: Palette


def outline_path(outline: Sequence[Point]) -> QPainterPath:
    """Return the closed outline on the front view's sheet."""
    path = QPainterPath(QPointF(outline[0].y_mm, outline[0].z_mm))
    for corner in outline[1:]:
        path.lineTo(corner.y_mm, corner.z_mm)
    path.closeSubpath()
    return path


class NoseItem(QGraphicsItem):
    """Draws one opening, obstruction or the support window."""

    def __init__(self, drawing: NoseDrawing) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._drawing = drawing
        self._path = outline_path(traced(drawing.thing))

    def show_drawing(self, drawing: NoseDrawing) -> bool:
        """Draw this from now on; say whether anything differs from before."""
        old = self._drawing
        if drawing.thing is old.thing and drawing.selected == old.selected and drawing.palette is old.palette:
            return False
        self.prepareGeometryChange()
        self._drawing = drawing
        self._path = outline_path(traced(drawing.thing))
        self.update()
        return True

    def boundingRect(self) -> QRectF:
        """Return the outline with room for the line's width."""
        return self._path.boundingRect().adjusted(-20.0, -20.0, 20.0, 20.0)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the thing."""
        self._kept.paint(painter, self.boundingRect(), self._drawing, self._draw)

    def _draw(self, painter: QPainter) -> None:
        """Draw the outline after its kind."""
        thing, palette, selected = self._drawing.thing, self._drawing.palette, self._drawing.selected
        if isinstance(thing, Obstruction):
            painter.fillPath(self._path, palette.obstruction_wash)
            ink = palette.accent if selected else palette.obstruction_ink
            painter.fillPath(self._path, hatch_brush(Hatch.OBSTRUCTION, faded(ink, 0.55), painter.worldTransform()))
            painter.strokePath(self._path, pen(Line.SELECTED if selected else Line.VISIBLE, ink))
        elif isinstance(thing, Opening):
            self._paint_bars(painter, thing)
            ink = palette.accent if selected else palette.opening_ink
            painter.strokePath(self._path, pen(Line.OPENING, ink))
        else:
            ink = palette.accent if selected else palette.faint_ink
            painter.strokePath(self._path, pen(Line.CENTRE, ink))

    def _paint_bars(self, painter: QPainter, opening: Opening) -> None:
        """Hint at bars or mesh: level strokes at both sides only, so that the face behind stays readable."""
        if opening.free_area_frac is None or opening.free_area_frac >= 1.0:
            return
        bounds = self._path.boundingRect()
        stroke = min(bounds.width() * 0.04, 26.0)
        lines = []
        z = bounds.top() + _BAR_EVERY_MM / 2
        while z < bounds.bottom():
            lines.append(QLineF(bounds.left(), z, bounds.left() + stroke, z))
            lines.append(QLineF(bounds.right() - stroke, z, bounds.right(), z))
            z += _BAR_EVERY_MM
        painter.save()
        painter.setClipPath(self._path)
        painter.setPen(pen(Line.NARROW, faded(self._drawing.palette.opening_ink, 0.7)))
        painter.drawLines(lines)
        painter.restore()


class CentreLineItem(QGraphicsItem):
    """The centre of the nose, y = 0, as a chain line."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._palette = palette

    def set_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self._palette = palette
        self.update()

    def boundingRect(self) -> QRectF:
        """Return a strip along the line."""
        return QRectF(-5.0, -_FAR_MM, 10.0, 2 * _FAR_MM)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the line."""
        self._kept.paint(painter, self.boundingRect(), self._palette, self._draw)

    def _draw(self, painter: QPainter) -> None:
        # A dashed line costs by its length, so only what is in sight is drawn.
        seen = in_sight(painter)
        painter.setPen(pen(Line.CENTRE, faded(self._palette.faint_ink, 0.8)))
        painter.drawLine(QLineF(0.0, seen.bottom(), 0.0, seen.top()))
