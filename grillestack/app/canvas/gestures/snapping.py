"""Where does what a hand moves come to rest: on a named line, on the grid, or on whole steps of the unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grillestack.app.canvas.gestures.equal_gaps import equal_gap_lines
from grillestack.app.canvas.gestures.extents import Extent, Neighbour, pushed
from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.grid import on_grid
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, nearest_snap
from grillestack.units.display import UnitSystem

_SIXTEENTH_MM = 25.4 / 16

Ports = dict[Axis, tuple[float, ...]]
Beside = Mapping[Axis, tuple[Axis, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What something may come to rest on: fixed lines, what stays around it, the grid if it is on.

    `beside` says for each axis of the sheet along which other axes a neighbour must share room, the sheet's own first.
    """

    lines: tuple[SnapLine, ...]
    others: tuple[Neighbour, ...]
    beside: Beside
    units: UnitSystem
    grid_on: bool = False
    grid_zero_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """How far it is moved along each axis of the sheet, and the lines that hold it there."""

    by_mm: dict[Axis, float]
    snaps: tuple[SnapLine, ...] = ()


def come_to_rest(extent: Extent, ports: Ports, by_mm: dict[Axis, float], at: Pointer, around: Surroundings) -> Rest:
    """Return where a thing of this extent rests that the hand has moved by so much."""
    if at.snaps_off:
        return Rest(by_mm=dict(by_mm))
    moved = pushed(extent, by_mm)
    settled, snaps = {}, []
    for axis, by in by_mm.items():
        gaps = equal_gap_lines(moved, around.others, axis, around.beside[axis])
        here = tuple(place + by for place in ports.get(axis, ()))
        found = nearest_snap(moved[axis], (*around.lines, *gaps), axis, SNAP_PX / at.px_per_mm, here)
        if found.line is None and around.grid_on:
            zero = around.grid_zero_mm if axis is Axis.X else 0.0
            found = on_grid(moved[axis], axis, zero, around.units)
        if found.line is None:
            settled[axis] = whole_step(by, around.units, free=False)
        else:
            settled[axis] = by + found.shift_mm
            snaps.append(found.line)
    return Rest(by_mm=settled, snaps=tuple(snaps))


def whole_step(shift_mm: float, units: UnitSystem, *, free: bool) -> float:
    """Return the shift in whole millimetres or sixteenths of an inch, or as it is when snaps are suspended."""
    if free:
        return shift_mm
    step_mm = _SIXTEENTH_MM if units.base is UnitSystem.INCH else 1.0
    return round(shift_mm / step_mm) * step_mm
