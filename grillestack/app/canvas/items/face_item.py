"""The radiator's face, painted by what its air has met on the way: one item for all patches."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.palette import Palette

Ring = tuple[tuple[float, float], ...]


class Met(enum.Enum):
    """What the air of a patch has met before it reaches the face."""

    FRESH = "fresh air"
    BEHIND_ONE = "behind one core"
    BEHIND_MORE = "behind two cores or more"
    OFF_OPENING = "off the opening"
    BLOCKED = "blocked"


@dataclass(frozen=True, slots=True)
class Patch:
    """A piece of the face with one answer; its closed ring of corners (y, z in mm) never has a hole."""

    met: Met
    ring_mm: Ring


class FaceItem(QGraphicsItem):
    """Draws all patches of one face."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._palette = palette
        self._patches: tuple[Patch, ...] = ()
        self._paths: dict[Met, QPainterPath] = {}

    def show_patches(self, patches: tuple[Patch, ...], palette: Palette) -> None:
        """Paint these patches from now on."""
        if patches == self._patches and palette is self._palette:
            return
        self.prepareGeometryChange()
        self._patches, self._palette = patches, palette
        self._paths = {}
        for patch in patches:
            path = self._paths.setdefault(patch.met, QPainterPath())
            path.addPolygon(QPolygonF([QPointF(y, z) for y, z in patch.ring_mm]))
            path.closeSubpath()
        self.update()

    def boundingRect(self) -> QRectF:
        """Return what all patches cover together."""
        covered = QRectF()
        for path in self._paths.values():
            covered = covered.united(path.boundingRect())
        return covered

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Fill the patches, one path for all that have met the same."""
        # Neighbouring patches would show a seam where both are smoothed towards the paper.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003  Qt's signature
        for met, path in self._paths.items():
            paint_met(painter, path, met, self._palette)


def paint_met(painter: QPainter, path: QPainterPath, met: Met, palette: Palette) -> None:
    """Fill a path with the colour and hatch that stand for what the air has met; on the face and in the legend."""
    fill = {
        Met.FRESH: palette.fresh,
        Met.BEHIND_ONE: palette.behind_one,
        Met.BEHIND_MORE: palette.behind_two,
        Met.OFF_OPENING: palette.off_opening,
        Met.BLOCKED: palette.blocked_wash,
    }[met]
    painter.fillPath(path, fill)
    if met is Met.BLOCKED:
        painter.fillPath(path, hatch_brush(Hatch.BLOCKED, palette.blocked_ink, painter.worldTransform()))
    elif met is Met.OFF_OPENING:
        painter.fillPath(path, hatch_brush(Hatch.OFF_OPENING, palette.off_opening_ink, painter.worldTransform()))


def swatch(rect: QRectF) -> QPainterPath:
    """Return the path of a legend's sample."""
    path = QPainterPath(QPointF(rect.topLeft()))
    path.addRect(rect)
    return path
