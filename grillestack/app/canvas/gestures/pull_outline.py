"""Pulling a selected outline by a corner, a side or the round of a corner: a trial while it lasts, one step at the end."""

from __future__ import annotations

import math

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.move import whole_step
from grillestack.app.canvas.gestures.outline_handles import Held, OutlineHandle
from grillestack.app.canvas.gestures.place_corner import Guides, corner_lines, place_corner
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, front_snap_lines, nearest_snap
from grillestack.app.nose_things import find_thing, put_thing, thing_id, thing_name
from grillestack.app.session import Session
from grillestack.geometry.corners import corner_of, fitted_radii, largest_radius_mm
from grillestack.model.nose import NoseThing
from grillestack.model.outline_edits import move_corner, push_side, radii_of, set_radius, side_normal
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_LABELS = {Held.CORNER: "move a corner of", Held.SIDE: "push a side of", Held.ROUND: "round a corner of"}


class PullOutlineGesture:
    """Changes one outline by the handle that is held."""

    def __init__(self, session: Session, thing: NoseThing, handle: OutlineHandle) -> None:
        self._session = session
        self._thing = thing
        self._handle = handle
        self._start = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self._lines: tuple[SnapLine, ...] = ()
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the snap lines in force and the size now."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take hold of the handle."""
        self._start = at
        name = thing_id(self._thing)
        self._thing = find_thing(self._session.project, name) or self._thing
        held = {self._handle.place}
        if self._handle.held is Held.SIDE:
            held.add((self._handle.place + 1) % len(self._thing.outline))
        others = [(p.y_mm, p.z_mm) for n, p in enumerate(self._thing.outline) if n not in held]
        self._lines = (*front_snap_lines(self._session.project, (name,)), *corner_lines(others, Axis.Y))

    def update(self, at: Pointer) -> None:
        """Show the outline as the hand has pulled it."""
        pulled = self._pulled(at)
        if pulled is not None:
            self._session.try_project(put_thing(self._session.project, pulled))

    def finish(self, at: Pointer) -> None:
        """Leave the outline so as one step."""
        pulled = self._pulled(at)
        self._marks = NO_MARKS
        if pulled is None:
            self._session.end_trial()
            return
        label = f"{_LABELS[self._handle.held]} {thing_name(self._thing)}"
        self._session.apply(label, put_thing(self._session.project, pulled))

    def cancel(self) -> None:
        """Give the outline its old shape back."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _pulled(self, at: Pointer) -> NoseThing | None:
        try:
            if self._handle.held is Held.CORNER:
                return self._with_corner(at)
            return self._with_side(at) if self._handle.held is Held.SIDE else self._with_round(at)
        except ModelError as refusal:
            self._session.message.emit(str(refusal))
            return None

    def _with_corner(self, at: Pointer) -> NoseThing:
        corner = self._thing.outline[self._handle.place]
        dy, dz = at.across_mm - self._start.across_mm, at.z_mm - self._start.z_mm
        meant = Pointer(
            across_mm=corner.y_mm + dy, z_mm=corner.z_mm + dz, px_per_mm=at.px_per_mm, snaps_off=at.snaps_off
        )
        placed = place_corner(meant, None, Guides(lines=self._lines, across=Axis.Y, units=self._session.units))
        pulled = move_corner(self._thing, self._handle.place, *placed.at_mm)
        count = len(pulled.outline)
        before, after = (_side_words(self._session, pulled, (self._handle.place + n) % count) for n in (-1, 0))
        self._marks = Marks(snaps=placed.snaps, moved_text=f"sides {before} and {after}")
        return pulled

    def _with_side(self, at: Pointer) -> NoseThing:
        place = self._handle.place
        y, z = side_normal(self._thing, place)
        pull = (at.across_mm - self._start.across_mm) * y + (at.z_mm - self._start.z_mm) * z
        snap = None
        if not at.snaps_off and 1.0 in (abs(y), abs(z)):
            axis, sign = (Axis.Y, y) if abs(y) == 1.0 else (Axis.Z, z)
            start = self._thing.outline[place]
            edge = (start.y_mm if axis is Axis.Y else start.z_mm) + sign * pull
            found = nearest_snap((edge, edge), self._lines, axis, SNAP_PX / at.px_per_mm)
            snap, pull = found.line, pull + sign * found.shift_mm
        if snap is None:
            pull = whole_step(pull, self._session.units, free=at.snaps_off)
        way = show_quantity(abs(pull), Dimension.LENGTH, self._session.units)
        said = "where it was" if abs(pull) < 0.05 else f"side {way} {'out' if pull > 0 else 'in'}"
        self._marks = Marks(snaps=() if snap is None else (snap,), moved_text=said)
        return push_side(self._thing, place, pull)

    def _with_round(self, at: Pointer) -> NoseThing:
        place, outline = self._handle.place, self._thing.outline
        corner, radii = corner_of(outline, place), radii_of(self._thing)
        y, z = corner.inward_frac
        pull = (at.across_mm - self._start.across_mm) * y + (at.z_mm - self._start.z_mm) * z
        radius = fitted_radii(outline, radii)[place] + pull * math.sin(corner.half_angle_rad)
        largest = largest_radius_mm(outline, radii, place)
        radius = min(max(0.0, whole_step(radius, self._session.units, free=at.snaps_off)), largest)
        said = show_quantity(radius, Dimension.LENGTH, self._session.units)
        end = ", the most the sides allow" if radius == largest else ""
        self._marks = Marks(moved_text=f"radius {said}{end}" if radius > 0 else "sharp corner")
        return set_radius(self._thing, place, radius)


def _side_words(session: Session, thing: NoseThing, place: int) -> str:
    a, b = thing.outline[place], thing.outline[(place + 1) % len(thing.outline)]
    return show_quantity(math.hypot(b.y_mm - a.y_mm, b.z_mm - a.z_mm), Dimension.LENGTH, session.units)
