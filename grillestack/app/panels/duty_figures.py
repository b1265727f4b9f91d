"""Which figures of a duty case are shown, and in which words: pairs of label and value, nothing of Qt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import NOT_KNOWN, display_unit, show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import CaseResult

Figure = tuple[str, str]
NONE_IN_PACK = "none in the pack"
NO_DAY = "no day"  # cold enough for the coolant to stay below its limit


def has_no_day(case: CaseResult) -> bool:
    """Return whether the case fails on every day, however cold: no hottest day is then an answer, not something unknown."""
    return case.limiting_ambient_degc is None and case.verdict.value == "fail" and case.heat_target_w is not None


def hottest_day_words(case: CaseResult | None, units: UnitSystem) -> str:
    """Return the hottest day as a temperature, "no day" if none is cold enough, or "not known"."""
    if case is None:
        return NOT_KNOWN
    if has_no_day(case):
        return NO_DAY
    return show_quantity(case.limiting_ambient_degc, Dimension.TEMPERATURE, units)


def top_tank_words(case: CaseResult, units: UnitSystem) -> str:
    """Return the top tank temperature against its limit, or "not known"."""
    if case.top_tank_degc is None:
        return NOT_KNOWN
    return _against(case.top_tank_degc, case.top_tank_limit_degc, Dimension.TEMPERATURE, units)


def duty_figures(case: CaseResult, project: Project, units: UnitSystem) -> tuple[Figure, ...]:
    """Return all figures of a duty case in the order in which they are asked for, always the same labels."""

    def shown(value: float | None, dimension: Dimension) -> str:
        return show_quantity(value, dimension, units)

    def of_core(role: CoreRole, words: str) -> str:
        return words if cores(project, role) else NONE_IN_PACK

    return (
        ("Hottest day", hottest_day_words(case, units)),
        ("Design day", shown(case.design_ambient_degc, Dimension.TEMPERATURE)),
        ("Heat to shed", shown(case.heat_target_w, Dimension.POWER)),
        ("Heat it can shed", shown(case.heat_capacity_w, Dimension.POWER)),
        ("Air through radiator", shown(case.air_kg_s, Dimension.MASS_FLOW)),
        ("Face velocity", shown(case.face_velocity_m_s, Dimension.FLOW_SPEED)),
        (
            "Charge air out",
            of_core(
                CoreRole.CHARGE_AIR_COOLER,
                _against(case.charge_out_degc, case.charge_out_limit_degc, Dimension.TEMPERATURE, units),
            ),
        ),
        (
            "Charge loss, core",
            of_core(
                CoreRole.CHARGE_AIR_COOLER,
                _against(case.charge_loss_pa, case.charge_loss_limit_pa, Dimension.PRESSURE, units),
            ),
        ),
        ("Condensing", of_core(CoreRole.CONDENSER, shown(case.condensing_degc, Dimension.TEMPERATURE))),
        ("Air drawn round again", shown(case.recirculated_frac, Dimension.FRACTION)),
        ("Air past the radiator", shown(case.bypassed_frac, Dimension.FRACTION)),
    )


def _against(value: float | None, limit: float | None, dimension: Dimension, units: UnitSystem) -> str:
    words = show_quantity(value, dimension, units)
    if limit is None:
        return words
    if value is None:
        return f"{words}, limit {show_quantity(limit, dimension, units)}"
    return f"{words.removesuffix(' ' + display_unit(dimension, units))} of {show_quantity(limit, dimension, units)}"
