"""Bringing a part from the shelf onto the nose: a trial while it hovers, one step when it is let go."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.move import whole_step
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, front_snap_lines, nearest_snap
from grillestack.app.landing import land_part
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Part
from grillestack.model.project import Project

PART_MIME = "application/x-grillestack-part"


class DropGesture:
    """Shows a part of the shelf under the pointer as if it were in the pack already."""

    def __init__(self, session: Session, part: Part) -> None:
        self._session = session
        self._part = part
        self._lines: tuple[SnapLine, ...] = ()
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the snap lines in force and the name of what is held."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take the part over the sheet."""
        self._lines = front_snap_lines(self._session.project, ())
        self.update(at)

    def update(self, at: Pointer) -> None:
        """Show the part under the pointer."""
        self._session.try_project(self._landed(at)[0])

    def finish(self, at: Pointer) -> None:
        """Leave the part there as one step and select it."""
        landed, part_id = self._landed(at)
        self._session.apply(f"Add {self._part.name}", landed)
        self._session.select((part_id,))
        self._marks = NO_MARKS

    def cancel(self) -> None:
        """Take the part away again."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _landed(self, at: Pointer) -> tuple[Project, str]:
        y_mm, z_mm = at.across_mm, at.z_mm
        snaps: list[SnapLine] = []
        if not at.snaps_off:
            within = SNAP_PX / at.px_per_mm
            box = project_part(self._part).outline_box
            dy, dz = y_mm - self._part.placement.y_mm, z_mm - self._part.placement.z_mm
            across = nearest_snap((box.y0_mm + dy, box.y1_mm + dy), self._lines, Axis.Y, within)
            upright = nearest_snap((box.z0_mm + dz, box.z1_mm + dz), self._lines, Axis.Z, within)
            y_mm = whole_step(y_mm, self._session.units, free=False) if across.line is None else y_mm + across.shift_mm
            z_mm = (
                whole_step(z_mm, self._session.units, free=False) if upright.line is None else z_mm + upright.shift_mm
            )
            snaps = [snap.line for snap in (across, upright) if snap.line is not None]
        self._marks = Marks(snaps=tuple(snaps), moved_text=self._part.name)
        return land_part(self._session.project, self._part, (y_mm, z_mm))
