"""One layout seen from ahead, small and only to be looked at: what differs from the other one in the accent colour."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QResizeEvent, QTransform, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView

from grillestack.app.canvas.face_show import PaintedFace
from grillestack.app.canvas.front_sheet import FrontSheet, drawn_bounds
from grillestack.app.canvas.items.face_item import Patch
from grillestack.app.canvas.sheet_names import in_words
from grillestack.app.palette import Palette
from grillestack.model.project import Project

_SHEET_MM = 40_000.0
_MARGIN_PX = 10.0
_LEAST_PX = QSize(160, 130)


class LayoutDrawing(QGraphicsView):
    """Draws a project's nose and pack with the canvas's own items, to the scale that shows all of the given bounds."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self._palette = palette
        self._bounds = QRectF(-400.0, 400.0, 800.0, 500.0)
        self._scene = QGraphicsScene(self)  # a view does not own its scene: this reference keeps it
        self._scene.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self._scene.setSceneRect(-_SHEET_MM / 2, -_SHEET_MM / 2, _SHEET_MM, _SHEET_MM)
        self._sheet = FrontSheet(self._scene, palette)
        self.setScene(self._scene)
        self.setInteractive(False)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.BoundingRectViewportUpdate)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setMinimumSize(_LEAST_PX)

    def show_layout(
        self, project: Project, face: tuple[Patch, ...], marked: Sequence[str], bounds: QRectF, palette: Palette
    ) -> None:
        """Draw this layout with those parts marked."""
        self._palette = palette
        self._bounds = bounds
        self._sheet.show_project(project, marked, palette)
        self._sheet.show_face(PaintedFace(patches=face), palette)
        self.setAccessibleName(f"{project.variant_name}, seen from ahead")
        self.setAccessibleDescription(in_words(project))
        self._fit()
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show all of the bounds in the new size."""
        super().resizeEvent(event)
        self._fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Stand still: there is nothing beyond what is shown."""
        event.ignore()

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Lay the paper."""
        painter.fillRect(rect, self._palette.paper)

    def _fit(self) -> None:
        view = self.viewport().size()
        across = max(1.0, view.width() - 2 * _MARGIN_PX) / max(1.0, self._bounds.width())
        upright = max(1.0, view.height() - 2 * _MARGIN_PX) / max(1.0, self._bounds.height())
        scale = min(across, upright)
        # Seen from ahead, the vehicle's right is at the viewer's left, and up is up.
        self.setTransform(QTransform.fromScale(-scale, -scale))
        self.centerOn(self._bounds.center())


def common_bounds(one: Project, other: Project) -> QRectF:
    """Return what shows both layouts to one scale and in one place."""
    found = [bounds for bounds in (drawn_bounds(one), drawn_bounds(other)) if bounds is not None]
    if not found:
        return QRectF(-400.0, 400.0, 800.0, 500.0)
    return found[0].united(found[-1])
