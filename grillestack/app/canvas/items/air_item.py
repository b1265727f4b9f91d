"""The air over a core's face, cell by cell of the solver: one filled path for each step of the colour map."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.palette import Palette

_STEPS = 64
Ring = tuple[tuple[float, float], ...]


class Measured(enum.Enum):
    """What the colours stand for."""

    TEMPERATURE = "temperature"
    SPEED = "speed"


@dataclass(frozen=True, slots=True)
class AirCell:
    """One cell of a face: its rings (y, z in mm) and where its value stands on the scale, from 0 to 1.

    No place means that no air enters; `runs_forward` that it comes back from behind.
    """

    rings_mm: tuple[Ring, ...]
    place_frac: float | None
    runs_forward: bool = False


def colour_of(measured: Measured, place_frac: float, palette: Palette) -> QColor:
    """Return the colour of a place on the scale; on the face and in the legend."""
    if measured is Measured.TEMPERATURE:
        return palette.temperature(place_frac)
    return palette.speed(place_frac)


class AirItem(QGraphicsItem):
    """Draws all cells of one face; cells without air are hatched as blocked, those where it comes back are dotted."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._palette = palette
        self._measured = Measured.TEMPERATURE
        self._paths: dict[int, QPainterPath] = {}
        self._without_air = QPainterPath()
        self._forward = QPainterPath()

    def show_cells(self, measured: Measured, cells: Sequence[AirCell], palette: Palette) -> None:
        """Paint these cells from now on."""
        self.prepareGeometryChange()
        self._palette, self._measured = palette, measured
        self._paths, self._without_air, self._forward = {}, QPainterPath(), QPainterPath()
        for cell in cells:
            if cell.place_frac is None:
                _add(self._without_air, cell.rings_mm)
                continue
            step = round(min(1.0, max(0.0, cell.place_frac)) * _STEPS)
            _add(self._paths.setdefault(step, QPainterPath()), cell.rings_mm)
            if cell.runs_forward:
                _add(self._forward, cell.rings_mm)
        self.update()

    def boundingRect(self) -> QRectF:
        """Return what all cells cover together."""
        covered = self._without_air.boundingRect()
        for path in self._paths.values():
            covered = covered.united(path.boundingRect())
        return covered

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Fill the cells."""
        # Neighbouring cells would show a seam where both are smoothed towards the paper.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003  Qt's signature
        for step, path in self._paths.items():
            painter.fillPath(path, colour_of(self._measured, step / _STEPS, self._palette))
        paint_without_air(painter, self._without_air, self._palette)
        paint_forward(painter, self._forward, self._palette)


def paint_without_air(painter: QPainter, path: QPainterPath, palette: Palette) -> None:
    """Hatch a path as what no air enters."""
    if not path.isEmpty():
        painter.fillPath(path, palette.blocked_wash)
        painter.fillPath(path, hatch_brush(Hatch.BLOCKED, palette.blocked_ink, painter.worldTransform()))


def paint_forward(painter: QPainter, path: QPainterPath, palette: Palette) -> None:
    """Dot a path as what air comes back through from behind; its colour is under the dots already."""
    if not path.isEmpty():
        painter.fillPath(path, hatch_brush(Hatch.OFF_OPENING, palette.ink, painter.worldTransform()))


def _add(path: QPainterPath, rings: Sequence[Ring]) -> None:
    for ring in rings:
        path.addPolygon(QPolygonF([QPointF(y, z) for y, z in ring]))
        path.closeSubpath()
