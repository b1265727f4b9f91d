"""Moving things over a sheet by hand: where the hand has them, on what they come to rest, or by what is typed."""

from __future__ import annotations

import contextlib
import enum

from grillestack.app.canvas.gestures.extents import Extent, extent_of_all, neighbours
from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.plan_lines import plan_snap_lines
from grillestack.app.canvas.gestures.port_lines import port_lines, ports_along
from grillestack.app.canvas.gestures.shift import name_of, shifted
from grillestack.app.canvas.gestures.snap import Axis, SnapLine, front_snap_lines, side_snap_lines
from grillestack.app.canvas.gestures.snapping import Beside, Ports, Rest, Surroundings, come_to_rest
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.app.canvas.gestures.typed_offset import FRONT_WAYS, PLAN_WAYS, SIDE_WAYS, TypedOffset, Way
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension, QuantityError
from grillestack.units.show import show_quantity

_HARDLY_MM = 0.05


class Sheet(enum.Enum):
    """Over which sheet something is moved."""

    FRONT = "front"
    SIDE = "side"
    PLAN = "plan"


_WAYS: dict[Sheet, tuple[Way, ...]] = {Sheet.FRONT: FRONT_WAYS, Sheet.SIDE: SIDE_WAYS, Sheet.PLAN: PLAN_WAYS}
# Along which other axes a neighbour must share room for its gap to count, the sheet's own first.
_BESIDE: dict[Sheet, Beside] = {
    Sheet.FRONT: {Axis.Y: (Axis.Z,), Axis.Z: (Axis.Y,)},
    Sheet.SIDE: {Axis.X: (Axis.Z, Axis.Y)},
    Sheet.PLAN: {Axis.Y: (Axis.X,), Axis.X: (Axis.Y, Axis.Z)},
}


class MoveGesture(TrialGesture):
    """Shifts the held parts, openings or obstructions along the axes of a sheet."""

    def __init__(
        self, session: Session, held_ids: tuple[str, ...], sheet: Sheet = Sheet.FRONT, *, grid_on: bool = False
    ) -> None:
        super().__init__(session)
        self.held_ids = held_ids
        self._sheet = sheet
        self._grid_on = grid_on
        self._extent: Extent = {}
        self._ports: Ports = {}
        self._around: Surroundings | None = None
        self._typed_by_mm: dict[Axis, float] = {}

    def take_hold(self) -> None:
        """Note what the held things may come to rest on."""
        axes = tuple(_BESIDE[self._sheet])
        held = [part for part in self.project.parts if part.id in self.held_ids]
        self.typed = TypedOffset(_WAYS[self._sheet], self.session.units)
        self._extent = extent_of_all(self.project, self.held_ids)
        self._ports = {axis: ports_along(held, axis) for axis in axes}
        self._around = Surroundings(
            lines=(*self._lines(), *port_lines(self.project, self.held_ids, axes)),
            others=neighbours(self.project, self.held_ids),
            beside=_BESIDE[self._sheet],
            units=self.session.units,
            grid_on=self._grid_on,
            grid_zero_mm=self.project.nose.stations.grille_x_mm,
        )

    def changed(self, at: Pointer) -> Project:
        """Return the project with the held things moved."""
        rest = self.rest_at(at)
        if self.typed is not None:
            self.typed.follow(rest.by_mm)
            self.shown_marks = Marks(snaps=rest.snaps, moved_text=self._said(rest.by_mm), typed=self.typed.rows())
        return self.moved(rest.by_mm)

    def rest_at(self, at: Pointer) -> Rest:
        """Return how far the held things are moved for this place of the pointer, or by what is typed."""
        if self.typed is not None and self.typed.is_open:
            # Half a number is no fault yet: what was last understood stands until it is one.
            with contextlib.suppress(QuantityError):
                self._typed_by_mm = self.typed.offset_mm()
            if self.typed.has_text():
                return Rest(by_mm=self._typed_by_mm)
        wished = self._wished(at)
        if self._around is None:
            return Rest(by_mm=wished)
        return come_to_rest(self._extent, self._ports, wished, at, self._around)

    def moved(self, by_mm: dict[Axis, float]) -> Project:
        """Return the project with the held things moved by so much."""
        return shifted(
            self.project,
            self.held_ids,
            dx_mm=by_mm.get(Axis.X, 0.0),
            dy_mm=by_mm.get(Axis.Y, 0.0),
            dz_mm=by_mm.get(Axis.Z, 0.0),
        )

    def label(self) -> str:
        """Return what the step is called."""
        one = len(self.held_ids) == 1
        what = name_of(self.project, self.held_ids[0]) if one else f"{len(self.held_ids)} things"
        return f"Move {what} fore or aft" if self._sheet is Sheet.SIDE else f"Move {what}"

    def _wished(self, at: Pointer) -> dict[Axis, float]:
        across, up = at.across_mm - self.start.across_mm, at.z_mm - self.start.z_mm
        if self._sheet is Sheet.FRONT:
            return {Axis.Y: across, Axis.Z: up}
        return {Axis.X: across} if self._sheet is Sheet.SIDE else {Axis.Y: across, Axis.X: up}

    def _lines(self) -> tuple[SnapLine, ...]:
        if self._sheet is Sheet.FRONT:
            return front_snap_lines(self.project, self.held_ids)
        if self._sheet is Sheet.SIDE:
            return side_snap_lines(self.project, self.held_ids)
        return plan_snap_lines(self.project, self.held_ids)

    def _said(self, by_mm: dict[Axis, float]) -> str:
        words = []
        for way in _WAYS[self._sheet]:
            by = by_mm.get(way.axis, 0.0) * way.sign
            if by >= _HARDLY_MM:
                words.append(f"{way.words} {show_quantity(by, Dimension.LENGTH, self.session.units)}")
        return ", ".join(words) or "where it was"
