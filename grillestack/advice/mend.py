"""The one edit that mends a finding: made on a copy, refused with a reason where there is no room for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, TypeVar

from msgspec.structs import replace

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.advice.change_nose import seal_the_edges
from grillestack.advice.change_shroud import shroud_over_the_whole_core
from grillestack.advice.depth import BONNET_LEAST_MM, CORE_TO_FAN_LEAST_MM, GAP_LEAST_MM, PULLEY_LEAST_MM
from grillestack.advice.parts import TILT_MOST_DEG
from grillestack.advice.room import has_room
from grillestack.assess.result import Assessment, Finding, Mend
from grillestack.geometry.corners import fitted_radii
from grillestack.geometry.depth import BONNET_LINE, GRILLE_PLANE, PULLEY_PLANE
from grillestack.model import edits
from grillestack.model.nose import Obstruction, Opening
from grillestack.model.parts import Core, CoreRole, Fan, Shroud
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

Thing = TypeVar("Thing", Opening, Obstruction)

NO_ROOM: Final = "There is no room for that in one step: something else must move or change first."
GONE: Final = "This was mended already, or the pack has changed since it was said."


@dataclass(frozen=True, slots=True)
class Mended:
    """The project with the edit made, and what was done, as an order to a fitter."""

    title: str
    project: Project


class _RefusalError(Exception):
    """There is a reason not to make the edit; the message is the sentence for it."""


def mend(
    project: Project, assessment: Assessment, finding: Finding, units: UnitSystem = UnitSystem.METRIC
) -> Mended | str:
    """Return the project with that finding mended, or a sentence that says why it is not.

    Parameters
    ----------
    assessment
        That of the project.
    """
    if finding.mend is None:
        return NO_ROOM
    try:
        done = _MENDS[finding.mend](_Case(project, assessment, finding, units))
    except _RefusalError as refusal:
        return str(refusal)
    return done


@dataclass(frozen=True, slots=True)
class _Case:
    project: Project
    assessment: Assessment
    finding: Finding
    units: UnitSystem

    def length(self, value_mm: float) -> str:
        return show_quantity(value_mm, Dimension.LENGTH, self.units)

    def name(self, part_id: str) -> str:
        return f"“{self.project.part(part_id).name}”"

    def checked(self, title: str, changed: Project) -> Mended:
        if not has_room(self.project, self.assessment.depth, changed):
            raise _RefusalError(NO_ROOM)
        return Mended(title, changed)

    def moved(self, ids: Sequence[str], *, dx_mm: float = 0.0, dz_mm: float = 0.0) -> Project:
        locked = [part.name for part in self.project.parts if part.id in ids and part.locked]
        if locked:
            raise _RefusalError(f"“{locked[0]}” is locked and stays where it is: unlock it first.")
        return edits.move_parts(self.project, ids, dx_mm=dx_mm, dz_mm=dz_mm)


def _apart(case: _Case, least_mm: float) -> Mended:
    """Move the rear one and all behind it rearward, or where that has no room the front one and all ahead forward."""
    pair = set(case.finding.parts)
    gap = next((g for g in case.assessment.depth.gaps if {g.front_id, g.rear_id} == pair), None)
    if gap is None or gap.gap_mm >= least_mm:
        raise _RefusalError(GONE)
    by_mm = least_mm - gap.gap_mm
    front, rear = (case.project.part(i).placement.x_mm for i in (gap.front_id, gap.rear_id))
    behind = [part.id for part in case.project.parts if part.placement.x_mm >= rear and part.id != gap.front_id]
    ahead = [part.id for part in case.project.parts if part.placement.x_mm <= front and part.id != gap.rear_id]
    try:
        title = f"Move {case.name(gap.rear_id)} {case.length(by_mm)} rearward, with what is behind it"
        return case.checked(title, case.moved(behind, dx_mm=by_mm))
    except _RefusalError as refusal:
        if str(refusal) != NO_ROOM:
            raise
    title = f"Move {case.name(gap.front_id)} {case.length(by_mm)} forward, with what is ahead of it"
    return case.checked(title, case.moved(ahead, dx_mm=-by_mm))


def _clearance_mm(case: _Case, to: str) -> float:
    part_id = case.finding.parts[0]
    for one in case.assessment.depth.clearances:
        if one.part_id == part_id and one.to == to:
            return one.clearance_mm
    raise _RefusalError(GONE)


def _least_clearance_mm(case: _Case, to: str) -> float:
    """Return the least room of all parts, so that moving the whole pack mends it for each."""
    _clearance_mm(case, to)
    return min(one.clearance_mm for one in case.assessment.depth.clearances if one.to == to)


def _forward(case: _Case) -> Mended:
    by_mm = PULLEY_LEAST_MM - _least_clearance_mm(case, PULLEY_PLANE)
    everything = [part.id for part in case.project.parts]
    return case.checked(f"Move the pack {case.length(by_mm)} forward", case.moved(everything, dx_mm=-by_mm))


def _rearward(case: _Case) -> Mended:
    by_mm = -_least_clearance_mm(case, GRILLE_PLANE)
    everything = [part.id for part in case.project.parts]
    return case.checked(f"Move the pack {case.length(by_mm)} rearward", case.moved(everything, dx_mm=by_mm))


def _lower(case: _Case) -> Mended:
    part = case.project.part(case.finding.parts[0])
    by_mm = BONNET_LEAST_MM - _clearance_mm(case, BONNET_LINE)
    ids = [part.id]
    # Radiator, shroud and fans hang together: one of them alone would leave the others behind.
    if isinstance(part, Shroud | Fan) or (isinstance(part, Core) and part.role is CoreRole.RADIATOR):
        ids = [
            other.id
            for other in case.project.parts
            if isinstance(other, Shroud | Fan) or (isinstance(other, Core) and other.role is CoreRole.RADIATOR)
        ]
    title = f"Lower {case.name(part.id)} by {case.length(by_mm)}"
    return case.checked(title, case.moved(ids, dz_mm=-by_mm))


def _steeper(case: _Case) -> Mended:
    part = case.project.part(case.finding.parts[0])
    if part.locked:
        raise _RefusalError(f"“{part.name}” is locked and stays as it is: unlock it first.")
    lean_deg = TILT_MOST_DEG if part.placement.tilt_deg > 0 else -TILT_MOST_DEG
    changed = edits.place_part(case.project, part.id, replace(part.placement, tilt_deg=lean_deg))
    return case.checked(f"Set “{part.name}” to a lean of {TILT_MOST_DEG:.0f}°", changed)


def _take_out(case: _Case) -> Mended:
    part = case.project.part(case.finding.parts[0])
    return Mended(f"Take “{part.name}” out", edits.remove_parts(case.project, [part.id]))


def _by_change(change: Change) -> Callable[[_Case], Mended]:
    def mended(case: _Case) -> Mended:
        situation = Situation(project=case.project, depth=case.assessment.depth, catalogue=(), units=case.units)
        offered: Candidate | None = next(iter(change(situation)), None)
        if offered is None:
            raise _RefusalError(GONE)
        return case.checked(offered.title, offered.project)

    return mended


def _remove_outline(case: _Case) -> Mended:
    subject, nose = case.finding.parts[0], case.project.nose
    kept = replace(
        nose,
        openings=tuple(o for o in nose.openings if o.id != subject),
        obstructions=tuple(o for o in nose.obstructions if o.id != subject),
    )
    return Mended("Remove the outline that encloses nothing", edits.set_nose(case.project, kept))


def _smaller_radii(case: _Case) -> Mended:
    subject, nose = case.finding.parts[0], case.project.nose
    changed = replace(
        nose,
        openings=tuple(_fitted(o) if o.id == subject else o for o in nose.openings),
        obstructions=tuple(_fitted(o) if o.id == subject else o for o in nose.obstructions),
    )
    return Mended("Make the corner radii as they are drawn", edits.set_nose(case.project, changed))


def _fitted(thing: Thing) -> Thing:
    return replace(thing, corner_radii_mm=fitted_radii(thing.outline, thing.corner_radii_mm))


_MENDS: Final[dict[Mend, Callable[[_Case], Mended]]] = {
    Mend.WIDEN_GAP: lambda case: _apart(case, GAP_LEAST_MM),
    Mend.FROM_FINS: lambda case: _apart(case, CORE_TO_FAN_LEAST_MM),
    Mend.FORWARD: _forward,
    Mend.REARWARD: _rearward,
    Mend.LOWER: _lower,
    Mend.SHROUD: _by_change(shroud_over_the_whole_core),
    Mend.TAKE_OUT: _take_out,
    Mend.STEEPER: _steeper,
    Mend.SEAL: _by_change(seal_the_edges),
    Mend.REMOVE_OUTLINE: _remove_outline,
    Mend.SMALLER_RADII: _smaller_radii,
}
