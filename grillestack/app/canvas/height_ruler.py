"""Which heights are in sight, and at which scale: shared by front view and side strip so that they move together."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

SMALLEST_SCALE = 0.05
LARGEST_SCALE = 20.0
_MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedHeights:
    """The heights a view must show, pixels it keeps free, and the largest scale that shows all of it across, if it cares."""

    z_min_mm: float
    z_max_mm: float
    free_above_px: float
    free_below_px: float
    height_px: float
    largest_px_per_mm: float | None = None


class HeightRuler(QObject):
    """The scale in pixels per mm and the height at the top of the sheet, the same for all views that hold it."""

    changed = Signal()
    fitted = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._px_per_mm = 0.5
        self._z_top_mm = 900.0
        self._is_fitted = False
        self._views: list[Callable[[], WantedHeights | None]] = []

    @property
    def px_per_mm(self) -> float:
        """Return the scale of all views."""
        return self._px_per_mm

    @property
    def z_top_mm(self) -> float:
        """Return the height at the upper edge of all views."""
        return self._z_top_mm

    @property
    def is_fitted(self) -> bool:
        """Return whether everything was made to fit and nobody has zoomed or panned since."""
        return self._is_fitted

    def let_loose(self) -> None:
        """Remember that a hand has chosen its own scale or place."""
        self._is_fitted = False

    def join(self, wanted: Callable[[], WantedHeights | None]) -> None:
        """Let a view take part in `fit`."""
        self._views.append(wanted)

    def show_heights(self, px_per_mm: float, z_top_mm: float) -> None:
        """Set scale and upper height; all views follow at once."""
        scale = min(LARGEST_SCALE, max(SMALLEST_SCALE, px_per_mm))
        if (scale, z_top_mm) != (self._px_per_mm, self._z_top_mm):
            self._px_per_mm, self._z_top_mm = scale, z_top_mm
            self.changed.emit()

    def fit(self) -> None:
        """Show the heights of all joined views, as large as each allows; then let each put itself in the middle across."""
        wanted = [w for w in (view() for view in self._views) if w is not None]
        if wanted:
            z_min, z_max = min(w.z_min_mm for w in wanted), max(w.z_max_mm for w in wanted)
            above, below = max(w.free_above_px for w in wanted), max(w.free_below_px for w in wanted)
            room_px = max(1.0, min(w.height_px for w in wanted) - above - below)
            in_height = room_px / max(1.0, z_max - z_min)
            scale = min([in_height, *(w.largest_px_per_mm for w in wanted if w.largest_px_per_mm is not None)])
            spare_px = room_px - scale * (z_max - z_min)
            self.show_heights(scale, z_max + (above + spare_px / 2) / scale)
        self._is_fitted = True
        self.fitted.emit()


def ruler_step_mm(px_per_mm: float, *, inches: bool, least_px: float = 56.0) -> float:
    """Return the spacing of a ruler's figures: 1, 2 or 5 times a power of ten, in inches also halves down to sixteenths."""
    unit_mm = _MM_PER_INCH if inches else 1.0
    least = least_px / px_per_mm / unit_mm
    power = 10.0 ** math.floor(math.log10(least))
    if inches and least < 1.0:
        for step in (0.0625, 0.125, 0.25, 0.5, 1.0):
            if step >= least:
                return step * unit_mm
    step = next(factor for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= least * (1 - 1e-9))
    return step * power * unit_mm
