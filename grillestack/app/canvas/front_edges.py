"""What stands at the edges of the front view: rulers with the pointer's place, and their unit."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from grillestack.app.canvas.items.kept_picture import KeptPicture
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.ruler_ticks import RulerScale
from grillestack.app.canvas.items.rulers import (
    level_place,
    paint_level_mark,
    paint_level_ruler,
    paint_unit_corner,
    paint_upright_mark,
    paint_upright_ruler,
    upright_place,
)
from grillestack.app.canvas.items.sheet_words import sheet_font


class FrontEdges:
    """Paints them; the rulers stand still while a part moves, so their pictures are kept."""

    def __init__(self) -> None:
        self._level = KeptPicture()
        self._upright = KeptPicture()

    def paint(
        self,
        painter: QPainter,
        over: Over,
        strips: tuple[QRectF, QRectF],
        scales: tuple[RulerScale, RulerScale],
        pointer: QPointF | None,
    ) -> None:
        """Paint all edges; `strips` and `scales` are those of the level and of the upright ruler."""
        (level, upright), (along_y, along_z), palette = strips, scales, over.palette
        painter.setFont(sheet_font(over.font, 1.0))
        corner = QRectF(upright.left(), level.top(), upright.width(), level.height())

        def lay_level(onto: QPainter) -> None:
            paint_level_ruler(onto, level, along_y, palette)
            paint_unit_corner(onto, corner, over.units, palette, onto.font())

        state = (palette, painter.font(), along_y, level.getRect(), corner.getRect())
        self._level.paint(painter, level.united(corner), state, lay_level)
        state = (palette, painter.font(), along_z, upright.getRect(), QRectF().getRect())
        self._upright.paint(painter, upright, state, lambda onto: paint_upright_ruler(onto, upright, along_z, palette))
        paint_level_mark(painter, level, palette, level_place(level, pointer))
        paint_upright_mark(painter, upright, palette, upright_place(upright, pointer))
