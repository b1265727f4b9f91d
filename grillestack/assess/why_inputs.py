"""The values that enter a figure, each with where it comes from: sheet, duty case, surroundings, part, or a default."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from grillestack.assess.defaults import (
    CHARGE_KG_PER_J,
    DEFAULT_SEAL,
    HEAT_PER_POWER_FRAC,
    default_for,
    engine_value,
    environment_value,
)
from grillestack.assess.figure import FigureName, Input, Quantity
from grillestack.assess.origins import charge_flow_origin, coolant_flow_origin, field_origin, heat_origin
from grillestack.model.engine import DutyCase
from grillestack.model.parts import Core, CoreRole, Fan, FanDrive
from grillestack.model.project import Project, cores, fans, radiator
from grillestack.units.quantity import Dimension

if TYPE_CHECKING:  # the window asks before the scientific core is loaded
    from grillestack.assess.result import Assessment, CaseResult

DUTY_CASE: Final = "duty case"
PART_CARD: Final = "part card"
DRAWN: Final = "drawn in the nose"

_AIR_FIELDS: Final = (
    ("Ram recovery", "ram_recovery_frac", Dimension.FRACTION),
    ("Exit pressure factor", "exit_pressure_factor", Dimension.COUNT),
    ("Bay loss factor", "bay_loss_factor", Dimension.COUNT),
    ("Jet spread, half angle", "jet_spread_deg", Dimension.ANGLE),
)
_CHARGE_FIELDS: Final = (
    ("Charge air into the cooler", "charge_inlet_degc", Dimension.TEMPERATURE),
    ("at ambient of", "charge_reference_ambient_degc", Dimension.TEMPERATURE),
    ("Charge pressure, absolute", "charge_inlet_pa", Dimension.PRESSURE),
    ("Charge air out, at most", "charge_out_limit_degc", Dimension.TEMPERATURE),
    ("Charge loss, at most", "charge_loss_limit_pa", Dimension.PRESSURE),
)


def heat_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return the heat at full load and the duty case's share of it."""
    sheet, duty = assessment.project.engine, _duty(assessment.project, case)
    full_w = sheet.heat_to_coolant_w
    found = []
    if full_w is None and sheet.rated_power_w is not None:
        full_w = HEAT_PER_POWER_FRAC * sheet.rated_power_w
        found.append(_input("Rated power", sheet.rated_power_w, Dimension.POWER, "engine sheet"))
    found.append(_input("Heat to coolant, full load", full_w, Dimension.POWER, heat_origin(sheet)))
    if duty is not None:
        found.append(_input("Heat share", duty.heat_frac, Dimension.FRACTION, DUTY_CASE))
    return found


def limit_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return how hot the top tank may get."""
    del case
    sheet = assessment.project.engine
    limit_degc = engine_value(sheet, "top_tank_limit_degc")
    return [_input("Top tank limit", limit_degc, Dimension.TEMPERATURE, field_origin(sheet, "top_tank_limit_degc"))]


def coolant_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return the coolant's flow through the radiator and its mixture."""
    sheet, core = assessment.project.engine, radiator(assessment.project)
    flow = next((one.tube_flow_kg_s for one in case.cores if core is not None and one.part_id == core.id), None)
    glycol = engine_value(sheet, "glycol_frac")
    return [
        _input("Coolant flow", flow, Dimension.MASS_FLOW, coolant_flow_origin(sheet)),
        _input("Glycol share", glycol, Dimension.FRACTION, field_origin(sheet, "glycol_frac")),
    ]


def day_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return the design day of the duty case, and how high up it is."""
    project, duty = assessment.project, _duty(assessment.project, case)
    own_day = duty is not None and duty.ambient_degc is not None
    own_height = None if duty is None else duty.altitude_m
    around = project.environment
    return [
        _input(
            "Design day",
            case.design_ambient_degc,
            Dimension.TEMPERATURE,
            DUTY_CASE if own_day else _around(project, "design_ambient_degc"),
        ),
        _input(
            "Altitude",
            environment_value(around, "altitude_m") if own_height is None else own_height,
            Dimension.ALTITUDE,
            _around(project, "altitude_m") if own_height is None else DUTY_CASE,
        ),
    ]


def road_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return how fast the vehicle goes, and where each fan works."""
    duty = _duty(assessment.project, case)
    found = [] if duty is None else [_input("Road speed", duty.road_speed_m_s, Dimension.SPEED, DUTY_CASE)]
    for fan in fans(assessment.project):
        point = next((one for one in case.fans if one.part_id == fan.id), None)
        runs = duty is None or duty.fans_on or fan.drive is FanDrive.BELT
        words = "" if runs else "off"
        flow = None if point is None else point.flow_m3_s
        found.append(
            Input(
                name=f"“{fan.name}” moves",
                quantity=Quantity(value=None if words else flow, dimension=Dimension.AIR_FLOW, words=words),
                origin=_fan_origin(fan),
            )
        )
    return found


def air_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return what drives the air through the nose, and what holds it up."""
    del case
    project = assessment.project
    around, free = project.environment, default_for("free_area_frac")
    found = [
        _input(name, environment_value(around, field), dimension, _around(project, field))
        for name, field, dimension in _AIR_FIELDS
    ]
    for opening in project.nose.openings:
        given = opening.free_area_frac
        default = free.value if free is not None else None
        found.append(
            _input(
                f"Free area of “{opening.name}”",
                default if given is None else given,
                Dimension.FRACTION,
                f"default: {free.source}" if given is None and free is not None else DRAWN,
            )
        )
    seal = around.seal
    found.append(
        Input(
            name="Edges of the pack",
            quantity=Quantity(words=(seal or DEFAULT_SEAL).value),
            origin="default: common practice, no source" if seal is None else "surroundings",
        )
    )
    if around.dirty_core:
        found.append(Input(name="Dirty cores", quantity=Quantity(words="yes"), origin="surroundings"))
    return found


def charge_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return what is known of the charge air."""
    sheet, duty = assessment.project.engine, _duty(assessment.project, case)
    flow = sheet.charge_flow_kg_s
    if flow is None and sheet.rated_power_w is not None:
        flow = CHARGE_KG_PER_J * sheet.rated_power_w
    found = [_input("Charge air flow, full load", flow, Dimension.MASS_FLOW, charge_flow_origin(sheet))]
    if duty is not None:
        found.append(_input("Charge share", duty.charge_frac, Dimension.FRACTION, DUTY_CASE))
    for name, field, dimension in _CHARGE_FIELDS:
        found.append(_input(name, engine_value(sheet, field), dimension, field_origin(sheet, field)))
    return found


def condenser_inputs(assessment: Assessment, case: CaseResult) -> list[Input]:
    """Return the heat that the condenser is given."""
    sheet, duty = assessment.project.engine, _duty(assessment.project, case)
    if duty is not None and not duty.air_conditioning_on:
        return [Input(name="Condenser heat", quantity=Quantity(words="A/C is off"), origin=DUTY_CASE)]
    heat_w = engine_value(sheet, "condenser_heat_w")
    return [_input("Condenser heat", heat_w, Dimension.POWER, field_origin(sheet, "condenser_heat_w"))]


def core_inputs(assessment: Assessment, roles: Sequence[CoreRole]) -> list[Input]:
    """Return how each core of these kinds is known."""
    known = {basis.figure: basis for basis in assessment.basis}
    found = []
    for core in cores(assessment.project):
        basis = known.get(f"heat and resistance of “{core.name}”")
        if core.role in roles and basis is not None:
            found.append(Input(name=f"“{core.name}”", quantity=Quantity(words=basis.method), origin=_known_by(core)))
    return found


def face_inputs(assessment: Assessment, figure: FigureName) -> list[Input]:
    """Return the sizes that an area of the radiator follows from."""
    core, face = radiator(assessment.project), assessment.radiator
    if core is None or face is None:
        return []
    if figure is FigureName.CORE_FACE:
        return [
            _input("Core width", core.core_width_mm, Dimension.LENGTH, PART_CARD),
            _input("Core height", core.core_height_mm, Dimension.LENGTH, PART_CARD),
        ]
    whole = _input("Core", face.core_mm2, Dimension.AREA, "its width × its height")
    if figure is not FigureName.EXPOSED_FACE:
        return [whole]
    jet_deg = environment_value(assessment.project.environment, "jet_spread_deg")
    return [
        whole,
        _input("behind another core", face.behind_mm2, Dimension.AREA, "overlay of the outlines"),
        _input("behind tanks or frames", face.blocked_mm2, Dimension.AREA, "overlay of the outlines"),
        _input("off the opening", face.off_opening_mm2, Dimension.AREA, "overlay of the outlines"),
        _input("Jet spread, half angle", jet_deg, Dimension.ANGLE, _around(assessment.project, "jet_spread_deg")),
    ]


def _input(name: str, value: float | None, dimension: Dimension, origin: str) -> Input:
    return Input(name=name, quantity=Quantity(value=value, dimension=dimension), origin=origin)


def _around(project: Project, field: str) -> str:
    origin = field_origin(project.environment, field)
    return "surroundings" if origin == "given" else origin


def _known_by(core: Core) -> str:
    description = core.description
    if description.table is not None:
        return "its measured table"
    if description.rating is not None:
        return "its rating point"
    return "its fins and tubes" if description.construction is not None else "default: typical of its type and depth"


def _fan_origin(fan: Fan) -> str:
    if fan.curve:
        return "its own curve against the pack"
    return "not given" if fan.free_flow_m3_s is None else "default: a usual curve through its free flow"


def _duty(project: Project, case: CaseResult) -> DutyCase | None:
    return next((duty for duty in project.cases if duty.id == case.case_id), None)
