"""When may a picture be laid down again instead of being drawn anew: once it has stood still for a frame."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtGui import QPainter, QPixmap, QTransform

# Larger than any screen shows of one thing; beyond it memory matters more than time.
_MOST_PIXELS = 8_000_000


class KeptPicture:
    """What one item draws, kept in the pixels of the view.

    What moves is drawn straight away, since a picture of it would be thrown away at once; what is drawn alike a second time
    is kept from then on. Scale and place count as much as the thing itself, so nothing is ever scaled or shifted.
    """

    def __init__(self) -> None:
        self._state: object = None
        self._seen_from: tuple[float, ...] = ()
        self._pixmap: QPixmap | None = None
        self._corner = QPoint()

    @property
    def is_kept(self) -> bool:
        """Return whether the last painting laid a kept picture down."""
        return self._pixmap is not None

    def paint(self, painter: QPainter, covers: QRectF, state: object, draw: Callable[[QPainter], None]) -> None:
        """Draw, or lay down what was drawn.

        Parameters
        ----------
        covers
            All that `draw` may touch, in the painter's coordinates.
        state
            All that the picture depends on besides scale and place; compared by identity first, then by value.
        """
        world, device = painter.worldTransform(), painter.device()
        ratio = device.devicePixelRatioF()
        seen_from = (world.m11(), world.m12(), world.m21(), world.m22(), world.dx(), world.dy(), ratio)
        if seen_from != self._seen_from or not (state is self._state or state == self._state):
            self._seen_from, self._state, self._pixmap = seen_from, state, None
            draw(painter)
            return
        if self._pixmap is None:
            view = QRectF(0.0, 0.0, device.width(), device.height())
            self._pixmap = self._drawn(world, world.mapRect(covers).intersected(view), ratio, draw, painter)
            if self._pixmap is None:
                draw(painter)
                return
        painter.save()
        painter.resetTransform()
        painter.drawPixmap(self._corner, self._pixmap)
        painter.restore()

    def _drawn(
        self, world: QTransform, rect: QRectF, ratio: float, draw: Callable[[QPainter], None], like: QPainter
    ) -> QPixmap | None:
        pixels = rect.toAlignedRect()
        if pixels.width() * pixels.height() * ratio * ratio > _MOST_PIXELS:
            return None
        kept = QPixmap(pixels.size() * ratio)
        if kept.isNull():
            return None
        kept.setDevicePixelRatio(ratio)
        kept.fill(Qt.GlobalColor.transparent)
        self._corner = pixels.topLeft()
        painter = QPainter(kept)
        painter.setRenderHints(like.renderHints())
        painter.setFont(like.font())
        painter.setWorldTransform(world * QTransform.fromTranslate(-pixels.left(), -pixels.top()))
        draw(painter)
        painter.end()
        return kept


def in_sight(painter: QPainter) -> QRectF:
    """Return what of the sheet lies within the device that is painted on."""
    device = painter.device()
    return painter.worldTransform().inverted()[0].mapRect(QRectF(0.0, 0.0, device.width(), device.height()))
