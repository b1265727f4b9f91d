"""Pulling a plane, a point of the bonnet line or an end of an obstruction in the side view: one step at the end."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.side_holds import SideHold, hold_place, hold_words, moved_hold
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, nearest_snap, side_snap_lines
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


class PullStationGesture(TrialGesture):
    """Moves what of the nose is held in the side view."""

    def __init__(self, session: Session, hold: SideHold) -> None:
        super().__init__(session)
        self._hold = hold
        self._lines: tuple[SnapLine, ...] = ()

    def take_hold(self) -> None:
        """Note what it may be set against."""
        x_mm, _ = hold_place(self.project, self._hold)
        # What is held lies on its own line: it would never come off it.
        lines = side_snap_lines(self.project, ())
        self._lines = tuple(line for line in lines if line.side == 0 or abs(line.at_mm - x_mm) > 1e-6)

    def label(self) -> str:
        """Return what the step is called."""
        return f"move {hold_words(self.project, self._hold)}"

    def changed(self, at: Pointer) -> Project:
        """Return the project with what is held where the hand has it."""
        x_mm, z_mm = hold_place(self.project, self._hold)
        dx, dz = at.across_mm - self.start.across_mm, at.z_mm - self.start.z_mm
        snap = None
        if not at.snaps_off:
            found = nearest_snap((x_mm + dx, x_mm + dx), self._lines, Axis.X, SNAP_PX / at.px_per_mm)
            dx, snap = dx + found.shift_mm, found.line
        if snap is None:
            dx = whole_step(dx, self.session.units, free=at.snaps_off)
        dz = 0.0 if z_mm is None else whole_step(dz, self.session.units, free=at.snaps_off)
        moved = moved_hold(self.project, self._hold, dx, dz)
        self.shown_marks = Marks(snaps=() if snap is None else (snap,), moved_text=self._said(moved))
        return moved

    def _said(self, moved: Project) -> str:
        x_mm, z_mm = hold_place(moved, self._hold)
        grille_mm = self.project.nose.stations.grille_x_mm
        behind = show_quantity(abs(x_mm - grille_mm), Dimension.LENGTH, self.session.units)
        said = f"{behind} {'behind' if x_mm >= grille_mm else 'ahead of'} the grille"
        if z_mm is None:
            return said
        return f"{said}, height {show_quantity(z_mm, Dimension.LENGTH, self.session.units)}"
