"""A view without bars or frame over a sheet large enough for any nose; how it is repainted is settled here."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView

_SHEET_MM = 40_000.0


def lay_bare_sheet(view: QGraphicsView) -> QGraphicsScene:
    """Return the empty scene that the view shows from now on; the view does not own it."""
    scene = QGraphicsScene(view)
    scene.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
    scene.setSceneRect(-_SHEET_MM / 2, -_SHEET_MM / 2, _SHEET_MM, _SHEET_MM)
    view.setScene(scene)
    view.setRenderHint(QPainter.RenderHint.Antialiasing)
    # Each step says itself what is to be painted: left to the items, a view is painted twice for one move of the hand.
    view.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.NoViewportUpdate)
    view.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
    view.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setFrameShape(QFrame.Shape.NoFrame)
    view.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    view.setMouseTracking(True)
    view.viewport().setMouseTracking(True)
    view.viewport().grabGesture(Qt.GestureType.PinchGesture)
    return scene
