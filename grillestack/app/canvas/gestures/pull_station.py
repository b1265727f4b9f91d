"""Pulling a plane, a point of the bonnet line or an end of an obstruction in the side view: one step at the end."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.move import whole_step
from grillestack.app.canvas.gestures.side_holds import SideHold, hold_place, hold_words, moved_hold
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, nearest_snap, side_snap_lines
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


class PullStationGesture:
    """Moves what of the nose is held in the side view."""

    def __init__(self, session: Session, hold: SideHold) -> None:
        self._session = session
        self._hold = hold
        self._start = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self._project = session.project
        self._lines: tuple[SnapLine, ...] = ()
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the snap line in force and where it stands now."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take hold."""
        self._start = at
        self._project = self._session.project
        x_mm, _ = hold_place(self._project, self._hold)
        # What is held lies on its own line: it would never come off it.
        lines = side_snap_lines(self._project, ())
        self._lines = tuple(line for line in lines if line.side == 0 or abs(line.at_mm - x_mm) > 1e-6)

    def update(self, at: Pointer) -> None:
        """Show it where the hand has it."""
        moved = self._moved(at)
        if moved is not None:
            self._session.try_project(moved)

    def finish(self, at: Pointer) -> None:
        """Leave it there as one step."""
        moved = self._moved(at)
        self._marks = NO_MARKS
        if moved is None:
            self._session.end_trial()
        else:
            self._session.apply(f"move {hold_words(self._project, self._hold)}", moved)

    def cancel(self) -> None:
        """Put it back."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _moved(self, at: Pointer) -> Project | None:
        x_mm, z_mm = hold_place(self._project, self._hold)
        dx, dz = at.across_mm - self._start.across_mm, at.z_mm - self._start.z_mm
        snap = None
        if not at.snaps_off:
            found = nearest_snap((x_mm + dx, x_mm + dx), self._lines, Axis.X, SNAP_PX / at.px_per_mm)
            dx, snap = dx + found.shift_mm, found.line
        if snap is None:
            dx = whole_step(dx, self._session.units, free=at.snaps_off)
        dz = 0.0 if z_mm is None else whole_step(dz, self._session.units, free=at.snaps_off)
        try:
            moved = moved_hold(self._project, self._hold, dx, dz)
        except ModelError as refusal:
            self._session.message.emit(str(refusal))
            return None
        self._marks = Marks(snaps=() if snap is None else (snap,), moved_text=self._said(moved))
        return moved

    def _said(self, moved: Project) -> str:
        x_mm, z_mm = hold_place(moved, self._hold)
        grille_mm = self._project.nose.stations.grille_x_mm
        behind = show_quantity(abs(x_mm - grille_mm), Dimension.LENGTH, self._session.units)
        said = f"{behind} {'behind' if x_mm >= grille_mm else 'ahead of'} the grille"
        if z_mm is None:
            return said
        return f"{said}, height {show_quantity(z_mm, Dimension.LENGTH, self._session.units)}"
