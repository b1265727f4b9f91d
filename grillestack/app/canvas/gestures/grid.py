"""A grid over the sheet in the unit in use, and where something that moves comes to rest on it."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from grillestack.app.canvas.gestures.extents import Span
from grillestack.app.canvas.gestures.snap import Axis, SnapLine, Snapped
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_STEP_MM = {UnitSystem.METRIC: 10.0, UnitSystem.INCH: 25.4 / 2}
# A height is measured to the lower edge, a place across to the middle, a depth to the front.
_CAUGHT = {Axis.X: "front", Axis.Y: "middle", Axis.Z: "lower edge"}


class Grid(QObject):
    """Whether things come to rest on the grid; all views share one."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._is_on = False

    @property
    def is_on(self) -> bool:
        """Return whether the grid is drawn and caught."""
        return self._is_on

    def switch(self, *, on: bool) -> None:
        """Use the grid from now on, or no longer."""
        if on != self._is_on:
            self._is_on = on
            self.changed.emit()


def grid_step_mm(units: UnitSystem) -> float:
    """Return how far the lines of the grid are apart."""
    return _STEP_MM[units.base]


def on_grid(span_mm: Span, axis: Axis, zero_mm: float, units: UnitSystem) -> Snapped:
    """Return the shift that brings what moves onto the nearest line of the grid, which begins at zero, and that line."""
    step = grid_step_mm(units)
    place = sum(span_mm) / 2 if axis is Axis.Y else span_mm[0]
    at = zero_mm + round((place - zero_mm) / step) * step
    words = f"{_CAUGHT[axis]} on the grid of {show_quantity(step, Dimension.LENGTH, units)}"
    line = SnapLine(axis=axis, at_mm=at, from_mm=0.0, to_mm=0.0, words=words)
    return Snapped(shift_mm=at - place, line=line)
