"""Pulling a selected outline by a corner, a side or the round of a corner: a trial while it lasts, one step at the end."""

from __future__ import annotations

import math

from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.outline_handles import Held, OutlineHandle
from grillestack.app.canvas.gestures.place_corner import Guides, corner_lines, place_corner
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, front_snap_lines, nearest_snap
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.app.nose_things import find_thing, put_thing, thing_id, thing_name
from grillestack.app.session import Session
from grillestack.geometry.corners import corner_of, fitted_radii, largest_radius_mm
from grillestack.model.nose import NoseThing
from grillestack.model.outline_edits import move_corner, push_side, radii_of, set_radius, side_normal
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_LABELS = {Held.CORNER: "move a corner of", Held.SIDE: "push a side of", Held.ROUND: "round a corner of"}


class PullOutlineGesture(TrialGesture):
    """Changes one outline by the handle that is held."""

    def __init__(self, session: Session, thing: NoseThing, handle: OutlineHandle) -> None:
        super().__init__(session)
        self._thing = thing
        self._handle = handle
        self._lines: tuple[SnapLine, ...] = ()

    def take_hold(self) -> None:
        """Note what the outline is, and what its corners may be set against."""
        name = thing_id(self._thing)
        self._thing = find_thing(self.project, name) or self._thing
        held = {self._handle.place}
        if self._handle.held is Held.SIDE:
            held.add((self._handle.place + 1) % len(self._thing.outline))
        others = [(p.y_mm, p.z_mm) for n, p in enumerate(self._thing.outline) if n not in held]
        self._lines = (*front_snap_lines(self.project, (name,)), *corner_lines(others, Axis.Y))

    def label(self) -> str:
        """Return what the step is called."""
        return f"{_LABELS[self._handle.held]} {thing_name(self._thing)}"

    def changed(self, at: Pointer) -> Project:
        """Return the project with the outline as the hand has pulled it."""
        pull = {Held.CORNER: self._with_corner, Held.SIDE: self._with_side, Held.ROUND: self._with_round}
        return put_thing(self.project, pull[self._handle.held](at))

    def _with_corner(self, at: Pointer) -> NoseThing:
        corner = self._thing.outline[self._handle.place]
        dy, dz = at.across_mm - self.start.across_mm, at.z_mm - self.start.z_mm
        meant = Pointer(
            across_mm=corner.y_mm + dy, z_mm=corner.z_mm + dz, px_per_mm=at.px_per_mm, snaps_off=at.snaps_off
        )
        placed = place_corner(meant, None, Guides(lines=self._lines, across=Axis.Y, units=self.session.units))
        pulled = move_corner(self._thing, self._handle.place, *placed.at_mm)
        count = len(pulled.outline)
        before, after = (_side_words(self.session, pulled, (self._handle.place + n) % count) for n in (-1, 0))
        self.shown_marks = Marks(snaps=placed.snaps, moved_text=f"sides {before} and {after}")
        return pulled

    def _with_side(self, at: Pointer) -> NoseThing:
        place = self._handle.place
        y, z = side_normal(self._thing, place)
        pull = (at.across_mm - self.start.across_mm) * y + (at.z_mm - self.start.z_mm) * z
        snap = None
        if not at.snaps_off and 1.0 in (abs(y), abs(z)):
            axis, sign = (Axis.Y, y) if abs(y) == 1.0 else (Axis.Z, z)
            start = self._thing.outline[place]
            edge = (start.y_mm if axis is Axis.Y else start.z_mm) + sign * pull
            found = nearest_snap((edge, edge), self._lines, axis, SNAP_PX / at.px_per_mm)
            snap, pull = found.line, pull + sign * found.shift_mm
        if snap is None:
            pull = whole_step(pull, self.session.units, free=at.snaps_off)
        way = show_quantity(abs(pull), Dimension.LENGTH, self.session.units)
        said = "where it was" if abs(pull) < 0.05 else f"side {way} {'out' if pull > 0 else 'in'}"
        self.shown_marks = Marks(snaps=() if snap is None else (snap,), moved_text=said)
        return push_side(self._thing, place, pull)

    def _with_round(self, at: Pointer) -> NoseThing:
        place, outline = self._handle.place, self._thing.outline
        corner, radii = corner_of(outline, place), radii_of(self._thing)
        y, z = corner.inward_frac
        pull = (at.across_mm - self.start.across_mm) * y + (at.z_mm - self.start.z_mm) * z
        radius = fitted_radii(outline, radii)[place] + pull * math.sin(corner.half_angle_rad)
        largest = largest_radius_mm(outline, radii, place)
        radius = min(max(0.0, whole_step(radius, self.session.units, free=at.snaps_off)), largest)
        said = show_quantity(radius, Dimension.LENGTH, self.session.units)
        end = ", the most the sides allow" if radius == largest else ""
        self.shown_marks = Marks(moved_text=f"radius {said}{end}" if radius > 0 else "sharp corner")
        return set_radius(self._thing, place, radius)


def _side_words(session: Session, thing: NoseThing, place: int) -> str:
    a, b = thing.outline[place], thing.outline[(place + 1) % len(thing.outline)]
    return show_quantity(math.hypot(b.y_mm - a.y_mm, b.z_mm - a.z_mm), Dimension.LENGTH, session.units)
