"""Moving parts fore and aft in the side strip: along x only."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.move import whole_step
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, nearest_snap, side_snap_lines
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.edits import move_parts
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


class MoveForeAftGesture:
    """Shifts the held parts along x."""

    def __init__(self, session: Session, part_ids: tuple[str, ...]) -> None:
        self._session = session
        self._part_ids = part_ids
        self._from_mm = 0.0
        self._project = session.project
        self._reach_mm = (0.0, 0.0)
        self._lines: tuple[SnapLine, ...] = ()
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the snap line in force and how far the parts have come."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take hold of the parts."""
        self._from_mm = at.across_mm
        self._project = self._session.project
        held = [project_part(self._project.part(i)) for i in self._part_ids]
        self._reach_mm = (min(p.x_front_mm for p in held), max(p.x_rear_mm for p in held))
        self._lines = side_snap_lines(self._project, self._part_ids)

    def update(self, at: Pointer) -> None:
        """Show the parts where the hand has them."""
        self._session.try_project(self._moved(at))

    def finish(self, at: Pointer) -> None:
        """Leave the parts there as one step."""
        moved = self._moved(at)
        name = self._project.part(self._part_ids[0]).name
        what = name if len(self._part_ids) == 1 else f"{len(self._part_ids)} parts"
        self._session.apply(f"Move {what} fore or aft", moved)
        self._marks = NO_MARKS

    def cancel(self) -> None:
        """Put the parts back."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _moved(self, at: Pointer) -> Project:
        dx = at.across_mm - self._from_mm
        snap = None
        if not at.snaps_off:
            front, rear = self._reach_mm
            found = nearest_snap((front + dx, rear + dx), self._lines, Axis.X, SNAP_PX / at.px_per_mm)
            dx, snap = dx + found.shift_mm, found.line
        if snap is None:
            dx = whole_step(dx, self._session.units, free=at.snaps_off)
        length = show_quantity(abs(dx), Dimension.LENGTH, self._session.units)
        way = "where it was" if abs(dx) < 0.05 else f"rearward {length}" if dx > 0 else f"forward {length}"
        self._marks = Marks(snaps=(snap,) if snap else (), moved_text=way)
        if dx == 0.0:
            return self._project
        return move_parts(self._project, self._part_ids, dx_mm=dx)
