"""How the air gets to the radiator, in sentences: how much comes in, past what, and how warm it arrives."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.change import called
from grillestack.advice.rule import percent
from grillestack.assess.result import Assessment, CaseResult
from grillestack.geometry.exposure import FaceState
from grillestack.geometry.overlay import SUPPORT_PLATE
from grillestack.model.parts import Core
from grillestack.model.project import Project, cores
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

# Shares and warmings below these are not worth a breath.
_LEAST_FRAC = 0.005
_LEAST_W = 50.0


def air_in(case: CaseResult, units: UnitSystem) -> Iterator[str]:
    """Return how much air comes in and what becomes of it."""
    if case.air_kg_s is None:
        return
    through = show_quantity(case.air_kg_s, Dimension.MASS_FLOW, units)
    face = show_quantity(case.face_velocity_m_s, Dimension.FLOW_SPEED, units)
    flows = [f"{through} of air cross the radiator ({face} on its face)"]
    if case.opening_kg_s is not None:
        entering = show_quantity(case.opening_kg_s, Dimension.MASS_FLOW, units)
        flows = [f"{entering} of air enter the opening", f"{through} cross the radiator ({face})"]
    flows += [
        f"{percent(share)} {what}"
        for share, what in (
            (case.bypassed_frac, "pass it by"),
            (case.recirculated_frac, "of what meets the pack is hot air drawn round again"),
        )
        if share is not None and share >= _LEAST_FRAC
    ]
    yield f"{', '.join(flows)}."


def face_seen(assessment: Assessment) -> Iterator[str]:
    """Return what the radiator's core sees: fresh air, other cores, tanks, nothing."""
    face = assessment.radiator
    if face is None:
        return
    behind, blocked = _ahead(assessment, FaceState.BEHIND), _ahead(assessment, FaceState.BLOCKED)
    parts = [
        f"{percent(area / face.core_mm2)} {what}"
        for area, what in (
            (face.exposed_mm2, "sees fresh air"),
            (face.behind_mm2, f"stands behind {behind or 'other cores'}"),
            (face.blocked_mm2, f"is shut off by {blocked or 'something solid'}"),
            (face.off_opening_mm2, "lies beside the opening"),
        )
        if area >= _LEAST_FRAC * face.core_mm2
    ]
    yield f"Of the radiator's core {', '.join(parts)}."


def warmed(assessment: Assessment, case: CaseResult, units: UnitSystem) -> Iterator[str]:
    """Return how warm the air is when it meets the radiator, and what warmed it."""
    if assessment.radiator is None:
        return
    flows = {flow.part_id: flow for flow in case.cores}
    mine = flows.get(assessment.radiator.part_id)
    if mine is None or mine.air_in_degc is None:
        return
    behind = _behind_the_radiator(assessment.project, mine.part_id)
    arrives = show_quantity(mine.air_in_degc, Dimension.TEMPERATURE, units)
    givers = [
        f"{_named(assessment.project, flow.part_id)} ({show_quantity(flow.heat_w, Dimension.POWER, units)})"
        for flow in case.cores
        if flow.part_id not in behind and flow.heat_w is not None and flow.heat_w >= _LEAST_W
    ]
    by = f", warmed by {' and '.join(givers)}" if givers else ""
    yield f"It meets the radiator at {arrives} on average{by}."


def _ahead(assessment: Assessment, state: FaceState) -> str:
    """Return what stands before the radiator's core in that state, largest share first."""
    face = assessment.faces.get(assessment.radiator.part_id) if assessment.radiator is not None else None
    areas_mm2: dict[str, float] = {}
    for zone in face.zones if face is not None else ():
        if zone.state is state:
            for part_id in zone.behind if state is FaceState.BEHIND else zone.blocked_by:
                areas_mm2[part_id] = areas_mm2.get(part_id, 0.0) + zone.area_mm2
    order = sorted(areas_mm2, key=lambda part_id: -areas_mm2[part_id])
    plate = [_named(assessment.project, part_id) for part_id in order if part_id == SUPPORT_PLATE]
    names = [_named(assessment.project, part_id) for part_id in order if part_id != SUPPORT_PLATE]
    if state is FaceState.BLOCKED and names:
        names[0] = f"tanks of {names[0]}"
    return " and ".join([*names, *plate])


def _behind_the_radiator(project: Project, radiator_id: str) -> set[str]:
    """Return the radiator and the cores behind it, which warm no air of its."""
    ids = [core.id for core in cores(project)]
    return set(ids[ids.index(radiator_id) :]) if radiator_id in ids else {radiator_id}


def _named(project: Project, part_id: str) -> str:
    if part_id == SUPPORT_PLATE:
        return "the core support"
    part = project.part(part_id)
    return called(project, part) if isinstance(part, Core) else f"“{part.name}”"
