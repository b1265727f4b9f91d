"""What is asked of the pack in each duty case, with everything the document leaves open filled in or named as missing."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import Final

from grillestack.assess.core_construction import core_ground
from grillestack.assess.defaults import (
    CHARGE_KG_PER_J,
    COOLANT_RISE_K,
    HEAT_PER_POWER_FRAC,
    engine_value,
    environment_value,
)
from grillestack.assess.fan_figures import fan_figures, speed_problem
from grillestack.model.engine import DutyCase
from grillestack.model.parts import CoreRole, FanDrive
from grillestack.model.project import Project, cores, fans, radiator
from grillestack.physics.coolant import Coolant, ethylene_glycol


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedCase:
    """One duty case in numbers; `None` is not known, `missing` says what to type."""

    case: DutyCase
    ambient_degc: float
    altitude_m: float
    heat_target_w: float | None
    top_tank_limit_degc: float
    coolant_flow_kg_s: float | None
    charge_flow_kg_s: float | None
    charge_inlet_degc: float
    charge_pressure_pa: float
    charge_reference_degc: float
    charge_out_limit_degc: float
    charge_loss_limit_pa: float
    condenser_heat_w: float
    missing: tuple[str, ...]

    @property
    def answerable(self) -> bool:
        """Return whether all inputs of the verdict are there."""
        return not self.missing


NO_RADIATOR: Final = "There is no radiator in the pack: put one in."
NO_OPENING: Final = "The nose has no opening: draw one, or type its size."
NO_HEAT: Final = "The heat to coolant is not known: type it, or the rated power, into the engine sheet."
NO_CHARGE_FLOW: Final = "The charge-air flow is not known: type it, or the rated power, into the engine sheet."
NO_CASES: Final = "There is no duty case: add at least one."


def coolant_of(project: Project) -> Coolant:
    """Return the coolant of this engine."""
    return _mixture(engine_value(project.engine, "glycol_frac"))


@functools.lru_cache(maxsize=16)
def _mixture(glycol_frac: float) -> Coolant:
    return ethylene_glycol(glycol_frac)


def full_load_heat_w(project: Project) -> float | None:
    """Return the heat to coolant at full load: the sheet's, or estimated from rated power, or not known."""
    sheet = project.engine
    if sheet.heat_to_coolant_w is not None:
        return sheet.heat_to_coolant_w
    return None if sheet.rated_power_w is None else HEAT_PER_POWER_FRAC * sheet.rated_power_w


def full_load_charge_kg_s(project: Project) -> float | None:
    """Return the charge-air flow at full load: the sheet's, or estimated from rated power, or not known."""
    sheet = project.engine
    if sheet.charge_flow_kg_s is not None:
        return sheet.charge_flow_kg_s
    return None if sheet.rated_power_w is None else CHARGE_KG_PER_J * sheet.rated_power_w


def full_load_coolant_kg_s(project: Project) -> float | None:
    """Return the coolant flow at full load: the sheet's, or what carries the heat with the usual temperature difference."""
    coolant = coolant_of(project)
    limit = engine_value(project.engine, "top_tank_limit_degc")
    if project.engine.coolant_flow_m3_s is not None:
        return project.engine.coolant_flow_m3_s * float(coolant.density_kg_m3(limit))
    heat = full_load_heat_w(project)
    if heat is None:
        return None
    return heat / (float(coolant.heat_capacity_j_per_kg_k(limit)) * COOLANT_RISE_K)


def asked_cases(project: Project) -> tuple[AskedCase, ...]:
    """Return what is asked in each duty case."""
    missing = _missing_for_all(project)
    return tuple(_asked(project, case, missing) for case in project.cases)


def _missing_for_all(project: Project) -> tuple[str, ...]:
    missing = []
    if radiator(project) is None:
        missing.append(NO_RADIATOR)
    if not project.nose.openings:
        missing.append(NO_OPENING)
    if full_load_heat_w(project) is None:
        missing.append(NO_HEAT)
    if cores(project, CoreRole.CHARGE_AIR_COOLER) and full_load_charge_kg_s(project) is None:
        missing.append(NO_CHARGE_FLOW)
    for core in cores(project):
        problem = core_ground(core).problem
        if problem is not None:
            missing.append(f"“{core.name}” cannot be computed: {problem}")
    return tuple(missing)


def _asked(project: Project, case: DutyCase, missing: tuple[str, ...]) -> AskedCase:
    sheet, environment = project.engine, project.environment
    heat, coolant, charge = (
        full_load_heat_w(project),
        full_load_coolant_kg_s(project),
        full_load_charge_kg_s(project),
    )
    turning = [fan for fan in fans(project) if case.fans_on or fan.drive is FanDrive.BELT]
    found = [fan_figures(fan).problem or speed_problem(fan, case, environment) for fan in turning]
    unknown_fans = tuple(problem for problem in found if problem is not None)
    stopped = () if case.heat_frac > 0 else (f"The duty case “{case.name}” has no heat share: type one above 0.",)
    no_flow = (
        () if case.coolant_frac > 0 else (f"The duty case “{case.name}” has no coolant flow: type a share above 0.",)
    )
    return AskedCase(
        case=case,
        ambient_degc=environment_value(environment, "design_ambient_degc")
        if case.ambient_degc is None
        else case.ambient_degc,
        altitude_m=environment_value(environment, "altitude_m") if case.altitude_m is None else case.altitude_m,
        heat_target_w=None if heat is None else heat * case.heat_frac,
        top_tank_limit_degc=engine_value(sheet, "top_tank_limit_degc"),
        coolant_flow_kg_s=None if coolant is None else coolant * case.coolant_frac,
        charge_flow_kg_s=None if charge is None else charge * case.charge_frac,
        charge_inlet_degc=engine_value(sheet, "charge_inlet_degc"),
        charge_pressure_pa=engine_value(sheet, "charge_inlet_pa"),
        charge_reference_degc=engine_value(sheet, "charge_reference_ambient_degc"),
        charge_out_limit_degc=engine_value(sheet, "charge_out_limit_degc"),
        charge_loss_limit_pa=engine_value(sheet, "charge_loss_limit_pa"),
        condenser_heat_w=engine_value(sheet, "condenser_heat_w") if case.air_conditioning_on else 0.0,
        missing=(*missing, *unknown_fans, *stopped, *no_flow),
    )
