"""Bringing a part from the shelf onto the nose: a trial while it hovers, one step when it is let go."""

from __future__ import annotations

from grillestack.app.canvas.gestures.extents import Extent, neighbours
from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.port_lines import port_lines, ports_along
from grillestack.app.canvas.gestures.snap import Axis, SnapLine, front_snap_lines
from grillestack.app.canvas.gestures.snapping import Beside, Surroundings, come_to_rest
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.app.landing import land_part
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Part
from grillestack.model.project import Project

PART_MIME = "application/x-grillestack-part"
_BESIDE: Beside = {Axis.Y: (Axis.Z,), Axis.Z: (Axis.Y,)}


class DropGesture(TrialGesture):
    """Shows a part of the shelf under the pointer as if it were in the pack already."""

    def __init__(self, session: Session, part: Part, *, grid_on: bool = False) -> None:
        super().__init__(session)
        self._part = part
        self._grid_on = grid_on
        self._around: Surroundings | None = None
        self._part_id = ""

    def begin(self, at: Pointer) -> None:
        """Take the part over the sheet; it is seen there at once."""
        super().begin(at)
        self.update(at)

    def take_hold(self) -> None:
        """Note what the part may come to rest on."""
        self._around = Surroundings(
            lines=(*front_snap_lines(self.project, ()), *port_lines(self.project, (), (Axis.Y, Axis.Z))),
            others=neighbours(self.project, ()),
            beside=_BESIDE,
            units=self.session.units,
            grid_on=self._grid_on,
        )

    def label(self) -> str:
        """Return what the step is called."""
        return f"Add {self._part.name}"

    def after(self) -> None:
        """Select the part."""
        self.session.select((self._part_id,))

    def changed(self, at: Pointer) -> Project:
        """Return the project with the part under the pointer."""
        y_mm, z_mm = self._part.placement.y_mm, self._part.placement.z_mm
        by_mm = {Axis.Y: at.across_mm - y_mm, Axis.Z: at.z_mm - z_mm}
        snaps: tuple[SnapLine, ...] = ()
        if self._around is not None:
            ports = {axis: ports_along((self._part,), axis) for axis in by_mm}
            rest = come_to_rest(self._extent(), ports, by_mm, at, self._around)
            by_mm, snaps = rest.by_mm, rest.snaps
        landed, self._part_id = land_part(self.project, self._part, (y_mm + by_mm[Axis.Y], z_mm + by_mm[Axis.Z]))
        self.shown_marks = Marks(snaps=snaps, moved_text=self._part.name)
        return landed

    def _extent(self) -> Extent:
        seen = project_part(self._part)
        box = seen.outline_box
        return {
            Axis.X: (seen.x_front_mm, seen.x_rear_mm),
            Axis.Y: (box.y0_mm, box.y1_mm),
            Axis.Z: (box.z0_mm, box.z1_mm),
        }
