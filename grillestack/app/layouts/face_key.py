"""What the shades of both drawings mean, once for the two of them."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.canvas.items.face_item import Met, Patch
from grillestack.app.canvas.items.legend import Legend, LegendEntry, legend_height_px, paint_legend
from grillestack.app.canvas.items.sheet_words import sheet_font
from grillestack.app.palette import Palette

TITLE = "Radiator face: what its air has met"


class FaceKey(QWidget):
    """Paints one swatch with its words for each shade that either drawing shows."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self._palette = palette
        self._legend = Legend(TITLE, ())
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_faces(self, faces: Iterable[tuple[Patch, ...]], palette: Palette) -> None:
        """Explain the shades of these faces."""
        self._palette = palette
        met = {patch.met for face in faces for patch in face}
        self._legend = Legend(TITLE, tuple(LegendEntry(m, m.value, "") for m in Met if m in met))
        self.setAccessibleName(f"{TITLE}: {', '.join(entry.words for entry in self._legend.entries)}")
        self._set_height()
        self.update()

    def sizeHint(self) -> QSize:
        """Return the height that all swatches need in the present width."""
        return QSize(160, self._height_px())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Make room for the rows in the new width."""
        super().resizeEvent(event)
        self._set_height()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the legend."""
        del event
        if self._legend.entries:
            painter = QPainter(self)
            paint_legend(painter, self._legend, QRectF(self.rect()), self._palette, sheet_font(self.font(), 0.5))
            painter.end()

    def _height_px(self) -> int:
        return round(legend_height_px(self._legend, sheet_font(self.font(), 0.5), self.width()))

    def _set_height(self) -> None:
        self.setFixedHeight(self._height_px())
