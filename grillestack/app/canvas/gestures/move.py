"""Moving things over the face of the nose by hand: trial projects while it lasts, one step when it ends."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.shift import name_of, outline_of, shifted
from grillestack.app.canvas.gestures.snap import (
    SNAP_PX,
    Axis,
    SnapLine,
    front_snap_lines,
    nearest_snap,
    united,
)
from grillestack.app.session import Session
from grillestack.geometry.projection import Box
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_SIXTEENTH_MM = 25.4 / 16


class MoveGesture:
    """Shifts the held parts, openings or obstructions along y and z."""

    def __init__(self, session: Session, held_ids: tuple[str, ...]) -> None:
        self._session = session
        self._held_ids = held_ids
        self._start = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self._project = session.project
        self._box: Box | None = None
        self._lines: tuple[SnapLine, ...] = ()
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the snap lines in force and how far the parts have come."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take hold of the parts."""
        self._start = at
        self._project = self._session.project
        self._box = united(outline_of(self._project, name) for name in self._held_ids)
        self._lines = front_snap_lines(self._project, self._held_ids)

    def update(self, at: Pointer) -> None:
        """Show the parts where the hand has them."""
        self._session.try_project(self._moved(at))

    def finish(self, at: Pointer) -> None:
        """Leave the parts there as one step."""
        moved = self._moved(at)
        self._session.apply(_label(self._project, self._held_ids), moved)
        self._marks = NO_MARKS

    def cancel(self) -> None:
        """Put the parts back."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _moved(self, at: Pointer) -> Project:
        dy, dz = at.across_mm - self._start.across_mm, at.z_mm - self._start.z_mm
        snaps: list[SnapLine] = []
        if self._box is not None and not at.snaps_off:
            within = SNAP_PX / at.px_per_mm
            across = nearest_snap((self._box.y0_mm + dy, self._box.y1_mm + dy), self._lines, Axis.Y, within)
            upright = nearest_snap((self._box.z0_mm + dz, self._box.z1_mm + dz), self._lines, Axis.Z, within)
            dy, dz = dy + across.shift_mm, dz + upright.shift_mm
            snaps = [snap.line for snap in (across, upright) if snap.line is not None]
        if not snaps or all(line.axis is not Axis.Y for line in snaps):
            dy = whole_step(dy, self._session.units, free=at.snaps_off)
        if not snaps or all(line.axis is not Axis.Z for line in snaps):
            dz = whole_step(dz, self._session.units, free=at.snaps_off)
        self._marks = Marks(snaps=tuple(snaps), moved_text=_way(self._session, dy, dz))
        return shifted(self._project, self._held_ids, dy, dz)


def whole_step(shift_mm: float, units: UnitSystem, *, free: bool) -> float:
    """Return the shift in whole millimetres or sixteenths of an inch, or as it is when snaps are suspended."""
    if free:
        return shift_mm
    step_mm = _SIXTEENTH_MM if units is UnitSystem.INCH else 1.0
    return round(shift_mm / step_mm) * step_mm


def _way(session: Session, dy_mm: float, dz_mm: float) -> str:
    words = []
    if abs(dz_mm) >= 0.05:
        length = show_quantity(abs(dz_mm), Dimension.LENGTH, session.units)
        words.append(f"up {length}" if dz_mm > 0 else f"down {length}")
    if abs(dy_mm) >= 0.05:
        length = show_quantity(abs(dy_mm), Dimension.LENGTH, session.units)
        words.append(f"to vehicle right {length}" if dy_mm > 0 else f"to vehicle left {length}")
    return ", ".join(words) or "where it was"


def _label(project: Project, held_ids: tuple[str, ...]) -> str:
    return f"Move {name_of(project, held_ids[0])}" if len(held_ids) == 1 else f"Move {len(held_ids)} things"
