"""What one figure of an assessment rests on, with the values that enter it and where each of them comes from."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from grillestack.assess.figure import FigureName, Input, Quantity, Subject, Why
from grillestack.assess.why_inputs import (
    air_inputs,
    charge_inputs,
    condenser_inputs,
    coolant_inputs,
    core_inputs,
    day_inputs,
    face_inputs,
    heat_inputs,
    limit_inputs,
    road_inputs,
)
from grillestack.assess.why_words import sentence, source_ids
from grillestack.model.parts import CoreRole
from grillestack.units.quantity import Dimension

if TYPE_CHECKING:  # the window asks before the scientific core is loaded
    from grillestack.assess.result import Assessment, Basis, CaseResult

# The basis that each figure is read from; a test holds that the assessment of a whole pack has every one.
BASIS_OF: Final[dict[FigureName, str]] = {
    FigureName.HOTTEST_DAY: "limiting ambient temperature",
    FigureName.DESIGN_DAY: "design day",
    FigureName.MARGIN: "margin",
    FigureName.TOP_TANK: "top tank temperature",
    FigureName.HEAT_TARGET: "heat to the coolant",
    FigureName.HEAT_CAPACITY: "heat of radiator and charge-air cooler",
    FigureName.AIR: "air through the pack",
    FigureName.FACE_VELOCITY: "air through the pack",
    FigureName.CHARGE_OUT: "charge-air temperature",
    FigureName.CHARGE_LOSS: "charge pressure loss",
    FigureName.CONDENSING: "condensing temperature",
    FigureName.RECIRCULATED: "air through the pack",
    FigureName.BYPASSED: "air through the pack",
    FigureName.CORE_FACE: "core area",
    FigureName.EFFECTIVE_FACE: "effective and required face",
    FigureName.REQUIRED_FACE: "effective and required face",
    FigureName.EXPOSED_FACE: "exposed, behind, blocked, off-opening face",
}

SAYS: Final[dict[FigureName, str]] = {
    FigureName.HOTTEST_DAY: "The hottest day on which the coolant stays below its limit in this duty case.",
    FigureName.DESIGN_DAY: "The day that the pack must stand: what you ask of it.",
    FigureName.MARGIN: "How far the hottest day lies above the design day; below it, how much is missing.",
    FigureName.TOP_TANK: "How hot the coolant gets at the radiator's inlet on the design day, against its limit.",
    FigureName.HEAT_TARGET: "The heat that the engine gives to the coolant in this duty case, and the radiator must shed.",
    FigureName.HEAT_CAPACITY: "The heat that the radiator sheds on the design day with the top tank at its limit.",
    FigureName.AIR: "The air that goes through the radiator on the design day.",
    FigureName.FACE_VELOCITY: "The mean speed of the air ahead of the radiator: its air over its core's area.",
    FigureName.CHARGE_OUT: "How hot the charge air leaves its cooler on the design day, against its limit.",
    FigureName.CHARGE_LOSS: "What the charge air loses in the cooler and its ports, against the limit for the whole way.",
    FigureName.CONDENSING: "The temperature at which the refrigerant would condense: a hint whether the A/C still works.",
    FigureName.RECIRCULATED: "The share of the air into the pack that comes from behind it, already hot.",
    FigureName.BYPASSED: "The share of the air that enters the nose and goes past the radiator.",
    FigureName.CORE_FACE: "The finned area of the radiator.",
    FigureName.EFFECTIVE_FACE: "What is left of the radiator in this pack: its core times the heat in the pack over the heat alone.",
    FigureName.REQUIRED_FACE: "The same measure at the heat that the engine asks for: the effective face must reach it.",
    FigureName.EXPOSED_FACE: "The part of the core that gets air from the opening which has met no other core and nothing solid.",
}


def why(assessment: Assessment, subject: Subject) -> Why | None:
    """Return what that figure rests on, or nothing if the assessment has no such figure."""
    figure = subject.figure
    case = _case(assessment, subject)
    if figure not in BASIS_OF or (case is None and figure not in (FigureName.CORE_FACE, FigureName.EXPOSED_FACE)):
        return None
    basis = next((one for one in assessment.basis if one.figure == BASIS_OF[figure]), None)
    ids, words = source_ids(basis.source if basis else "")
    return Why(
        title=f"{figure.value}, {case.name}" if case is not None and not _is_of_every_case(figure) else figure.value,
        quantity=_quantity(assessment, figure, case),
        says=SAYS[figure],
        method=sentence(basis.method if basis else ""),
        inputs=tuple(_inputs(assessment, figure, case)),
        sources=ids,
        source_words=words,
        spread=sentence(_spread(assessment, figure, basis)),
    )


def _is_of_every_case(figure: FigureName) -> bool:
    return figure in (FigureName.CORE_FACE, FigureName.EXPOSED_FACE)


def _case(assessment: Assessment, subject: Subject) -> CaseResult | None:
    """Return the duty case asked about; where none is named, the deciding one, else the first."""
    if subject.case_id:
        return next((case for case in assessment.cases if case.case_id == subject.case_id), None)
    return assessment.deciding_case or next(iter(assessment.cases), None)


_OF_CASE: Final[dict[FigureName, tuple[str, Dimension]]] = {
    FigureName.HOTTEST_DAY: ("limiting_ambient_degc", Dimension.TEMPERATURE),
    FigureName.DESIGN_DAY: ("design_ambient_degc", Dimension.TEMPERATURE),
    FigureName.MARGIN: ("margin_k", Dimension.TEMPERATURE_DIFFERENCE),
    FigureName.TOP_TANK: ("top_tank_degc", Dimension.TEMPERATURE),
    FigureName.HEAT_TARGET: ("heat_target_w", Dimension.POWER),
    FigureName.HEAT_CAPACITY: ("heat_capacity_w", Dimension.POWER),
    FigureName.AIR: ("air_kg_s", Dimension.MASS_FLOW),
    FigureName.FACE_VELOCITY: ("face_velocity_m_s", Dimension.FLOW_SPEED),
    FigureName.CHARGE_OUT: ("charge_out_degc", Dimension.TEMPERATURE),
    FigureName.CHARGE_LOSS: ("charge_loss_pa", Dimension.PRESSURE),
    FigureName.CONDENSING: ("condensing_degc", Dimension.TEMPERATURE),
    FigureName.RECIRCULATED: ("recirculated_frac", Dimension.FRACTION),
    FigureName.BYPASSED: ("bypassed_frac", Dimension.FRACTION),
}
_OF_FACE: Final = {
    FigureName.CORE_FACE: "core_mm2",
    FigureName.EFFECTIVE_FACE: "effective_mm2",
    FigureName.REQUIRED_FACE: "required_mm2",
    FigureName.EXPOSED_FACE: "exposed_mm2",
}


def _quantity(assessment: Assessment, figure: FigureName, case: CaseResult | None) -> Quantity:
    if figure in _OF_FACE:
        value = getattr(assessment.radiator, _OF_FACE[figure]) if assessment.radiator is not None else None
        return Quantity(value=value, dimension=Dimension.AREA)
    field, dimension = _OF_CASE[figure]
    if figure is FigureName.HOTTEST_DAY and case is not None and case.has_no_day:
        return Quantity(words="no day")
    return Quantity(value=None if case is None else getattr(case, field), dimension=dimension)


Inputs = Callable[["Assessment", "CaseResult"], list[Input]]
_RADIATOR_AND_AHEAD: Final = (CoreRole.RADIATOR, CoreRole.CHARGE_AIR_COOLER, CoreRole.CONDENSER, CoreRole.COOLER)


def _of_cores(*roles: CoreRole) -> Inputs:
    return lambda assessment, _case: core_inputs(assessment, roles)


_AIR: Final[tuple[Inputs, ...]] = (road_inputs, day_inputs, air_inputs)
_ENTERS: Final[dict[FigureName, tuple[Inputs, ...]]] = {
    FigureName.HOTTEST_DAY: (
        heat_inputs,
        limit_inputs,
        coolant_inputs,
        road_inputs,
        air_inputs,
        _of_cores(*_RADIATOR_AND_AHEAD),
    ),
    FigureName.DESIGN_DAY: (day_inputs,),
    FigureName.MARGIN: (day_inputs, heat_inputs, limit_inputs),
    FigureName.TOP_TANK: (heat_inputs, limit_inputs, coolant_inputs, day_inputs, road_inputs),
    FigureName.HEAT_TARGET: (heat_inputs,),
    FigureName.HEAT_CAPACITY: (limit_inputs, coolant_inputs, *_AIR, _of_cores(*_RADIATOR_AND_AHEAD)),
    FigureName.AIR: _AIR,
    FigureName.FACE_VELOCITY: _AIR,
    FigureName.CHARGE_OUT: (charge_inputs, road_inputs, day_inputs, _of_cores(CoreRole.CHARGE_AIR_COOLER)),
    FigureName.CHARGE_LOSS: (charge_inputs, _of_cores(CoreRole.CHARGE_AIR_COOLER)),
    FigureName.CONDENSING: (condenser_inputs, road_inputs, day_inputs, _of_cores(CoreRole.CONDENSER)),
    FigureName.RECIRCULATED: _AIR,
    FigureName.BYPASSED: _AIR,
    FigureName.EFFECTIVE_FACE: (limit_inputs, coolant_inputs, road_inputs, _of_cores(CoreRole.RADIATOR)),
    FigureName.REQUIRED_FACE: (heat_inputs, limit_inputs, coolant_inputs, road_inputs),
}


def _inputs(assessment: Assessment, figure: FigureName, case: CaseResult | None) -> list[Input]:
    found: list[Input] = []
    if figure is FigureName.MARGIN and case is not None:
        found.append(
            Input(name="Hottest day", quantity=_quantity(assessment, FigureName.HOTTEST_DAY, case), origin="computed")
        )
    if figure in _OF_FACE:
        found += face_inputs(assessment, figure)
    if case is not None:
        for enters in _ENTERS.get(figure, ()):
            found += enters(assessment, case)
    return found


def _spread(assessment: Assessment, figure: FigureName, basis: Basis | None) -> str:
    """Return how far the figure may be out; where that is the core's affair, what is said of the core."""
    spread = basis.spread if basis else ""
    roles = {
        FigureName.HEAT_CAPACITY: CoreRole.RADIATOR,
        FigureName.CHARGE_OUT: CoreRole.CHARGE_AIR_COOLER,
    }
    if figure not in roles:
        return spread
    named = [f"heat and resistance of “{part.name}”" for part in assessment.project.parts if _is(part, roles[figure])]
    of_core = [one.spread for one in assessment.basis if one.figure in named and one.spread]
    return of_core[0] if of_core else spread


def _is(part: object, role: CoreRole) -> bool:
    return getattr(part, "role", None) is role
