"""Where does the next corner of a drawing fall: level or upright if nearly so, on lines to snap to, in whole steps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, nearest_snap
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.units.display import UnitSystem

# A side within this angle of level or upright is meant to be so.
STRAIGHT_DEG = 3.0

Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Placed:
    """A place across and up on the sheet in mm, and the lines that hold it there."""

    at_mm: Place
    snaps: tuple[SnapLine, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Guides:
    """What a corner may be drawn to: lines of the sheet, and which axis runs across it."""

    lines: tuple[SnapLine, ...]
    across: Axis
    units: UnitSystem


def place_corner(at: Pointer, last: Place | None, guides: Guides) -> Placed:
    """Return where a corner falls for this pointer; `last` is the corner before, if there is one."""
    if at.snaps_off:
        return Placed((at.across_mm, at.z_mm))
    level, upright = straight(last, (at.across_mm, at.z_mm))
    last_across, last_z = (None, None) if last is None else last
    across, across_line = _settled(
        at.across_mm, guides.across, at, guides, last_across if upright else None, last_across
    )
    z, z_line = _settled(at.z_mm, Axis.Z, at, guides, last_z if level else None, last_z)
    return Placed((across, z), tuple(line for line in (across_line, z_line) if line is not None))


def straight(last: Place | None, at: Place) -> tuple[bool, bool]:
    """Return whether a side from the last corner to there is meant to be level, and whether upright."""
    if last is None:
        return False, False
    across, up = abs(at[0] - last[0]), abs(at[1] - last[1])
    slope = math.tan(math.radians(STRAIGHT_DEG))
    return up <= slope * across, across <= slope * up


def at_length(at: Pointer, last: Place, length_mm: float) -> Place:
    """Return the place at this distance from the last corner, towards the pointer."""
    to = (at.across_mm, at.z_mm)
    if to == last:
        to = (last[0] + 1.0, last[1])
    level, upright = (False, False) if at.snaps_off else straight(last, to)
    across, up = (0.0 if upright else to[0] - last[0]), (0.0 if level else to[1] - last[1])
    reach = math.hypot(across, up)
    return last[0] + length_mm * across / reach, last[1] + length_mm * up / reach


def corner_lines(corners: Sequence[Place], across: Axis) -> tuple[SnapLine, ...]:
    """Return the lines that run through earlier corners of a drawing."""
    lines = []
    for number, (a, z) in enumerate(corners):
        name = "the first corner" if number == 0 else "a corner"
        lines.append(SnapLine(axis=Axis.Z, at_mm=z, from_mm=a, to_mm=a + 1.0, words=f"level with {name}"))
        lines.append(SnapLine(axis=across, at_mm=a, from_mm=z, to_mm=z + 1.0, words=f"above or below {name}"))
    return tuple(lines)


def _settled(
    at_mm: float, axis: Axis, pointer: Pointer, guides: Guides, kept_mm: float | None, last_mm: float | None
) -> tuple[float, SnapLine | None]:
    if kept_mm is not None:
        return kept_mm, None
    found = nearest_snap((at_mm, at_mm), guides.lines, axis, SNAP_PX / pointer.px_per_mm)
    if found.line is not None:
        return found.line.at_mm, found.line
    from_mm = 0.0 if last_mm is None else last_mm
    return from_mm + whole_step(at_mm - from_mm, guides.units, free=False), None
