"""Pulling an edge of a part made to own sizes; the edge across from it stays where it is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from msgspec.structs import replace
from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.snap import SNAP_PX, Axis, SnapLine, front_snap_lines, nearest_snap
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.app.resize import resize_core, resize_shroud
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core, Fan, Part, Shroud
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_SMALLEST_MM = 20.0


@dataclass(frozen=True, slots=True)
class Handle:
    """A place on a part's outline by which it is pulled: -1, 0 or +1 along y and along z."""

    y_side: int
    z_side: int


HANDLES = tuple(Handle(y, z) for y in (-1, 0, 1) for z in (-1, 0, 1) if (y, z) != (0, 0))


def handle_place(part: Part, handle: Handle) -> tuple[float, float]:
    """Return y and z of a handle of the part."""
    box = project_part(part).outline_box
    y = (box.y0_mm, (box.y0_mm + box.y1_mm) / 2, box.y1_mm)[handle.y_side + 1]
    z = (box.z0_mm, (box.z0_mm + box.z1_mm) / 2, box.z1_mm)[handle.z_side + 1]
    return y, z


def handle_cursor(handle: Handle) -> Qt.CursorShape:
    """Return the pointer's shape over a handle; +y is at the viewer's left."""
    if handle.z_side == 0:
        return Qt.CursorShape.SizeHorCursor
    if handle.y_side == 0:
        return Qt.CursorShape.SizeVerCursor
    falling = handle.y_side == handle.z_side
    return Qt.CursorShape.SizeFDiagCursor if falling else Qt.CursorShape.SizeBDiagCursor


def can_stretch(part: Part) -> bool:
    """Return whether the part is made to own sizes and not locked."""
    return part.own_sizes and not part.locked


def keeps_its_size(part: Part) -> str:
    """Return the sentence for a hand that pulls at a bought part."""
    return f"“{part.name}” is a bought part and keeps its size: choose another one, or tick own sizes on its card."


class StretchGesture(TrialGesture):
    """Changes the size of one part by the handle that is held."""

    def __init__(self, session: Session, part_id: str, handle: Handle) -> None:
        super().__init__(session)
        self._part_id = part_id
        self._handle = handle
        self._lines: tuple[SnapLine, ...] = ()

    def take_hold(self) -> None:
        """Note what the edge may be set against."""
        self._lines = front_snap_lines(self.project, (self._part_id,))

    def label(self) -> str:
        """Return what the step is called."""
        return f"Resize {self.project.part(self._part_id).name}"

    def changed(self, at: Pointer) -> Project:
        """Return the project with the part as the hand has pulled it."""
        part = self.project.part(self._part_id)
        box = project_part(part).outline_box
        snaps: list[SnapLine] = []
        wider = self._growth(at, Axis.Y, (box.y0_mm, box.y1_mm), snaps)
        higher = self._growth(at, Axis.Z, (box.z0_mm, box.z1_mm), snaps)
        new = stretched_part(part, self._handle, wider, higher)
        size = project_part(new).outline_box
        across = show_quantity(size.y1_mm - size.y0_mm, Dimension.LENGTH, self.session.units)
        upright = show_quantity(size.z1_mm - size.z0_mm, Dimension.LENGTH, self.session.units)
        self.shown_marks = Marks(snaps=tuple(snaps), moved_text=f"overall {across} × {upright}")
        return replace_part(self.project, new)

    def _growth(self, at: Pointer, axis: Axis, span_mm: tuple[float, float], snaps: list[SnapLine]) -> float:
        side = self._handle.y_side if axis is Axis.Y else self._handle.z_side
        if side == 0:
            return 0.0
        pulled = at.across_mm - self.start.across_mm if axis is Axis.Y else at.z_mm - self.start.z_mm
        edge = span_mm[0] if side < 0 else span_mm[1]
        if not at.snaps_off:
            lines = [line for line in self._lines if not line.for_middle]
            found = nearest_snap((edge + pulled, edge + pulled), lines, axis, SNAP_PX / at.px_per_mm)
            if found.line is not None:
                snaps.append(found.line)
                return side * (pulled + found.shift_mm)
        return side * whole_step(pulled, self.session.units, free=at.snaps_off)


def stretched_part(part: Part, handle: Handle, wider_mm: float, higher_mm: float) -> Part:
    """Return the part so much wider along y and higher along z, the opposite edges where they were.

    A fan stays round and keeps its centre: its ring grows by twice the larger pull.
    """
    turned = part.placement.quarter_turns % 2 == 1
    cos = math.cos(math.radians(part.placement.tilt_deg))
    higher_true = higher_mm / cos
    du, dv = (higher_true, wider_mm) if turned else (wider_mm, higher_true)
    if isinstance(part, Fan):
        pull = max(wider_mm, higher_true, key=abs)
        ring = max(part.ring_diameter_mm + 2 * pull, part.motor_diameter_mm, _SMALLEST_MM)
        return replace(part, ring_diameter_mm=ring)
    resized: Part
    if isinstance(part, Core):
        du, dv = max(du, _SMALLEST_MM - part.core_width_mm), max(dv, _SMALLEST_MM - part.core_height_mm)
        resized = resize_core(part, part.core_width_mm + du, part.core_height_mm + dv)
    elif isinstance(part, Shroud):
        du, dv = max(du, _SMALLEST_MM - part.width_mm), max(dv, _SMALLEST_MM - part.height_mm)
        resized = resize_shroud(part, part.width_mm + du, part.height_mm + dv)
    return _with_far_edges_kept(part, resized, handle)


def _with_far_edges_kept(old: Part, new: Part, handle: Handle) -> Part:
    before, after = project_part(old).outline_box, project_part(new).outline_box
    dy = before.y0_mm - after.y0_mm if handle.y_side > 0 else before.y1_mm - after.y1_mm
    dz = before.z0_mm - after.z0_mm if handle.z_side > 0 else before.z1_mm - after.z1_mm
    at = new.placement
    return replace(
        new,
        placement=replace(
            at,
            y_mm=at.y_mm + (dy if handle.y_side else 0.0),
            z_mm=at.z_mm + (dz if handle.z_side else 0.0),
        ),
    )
