"""Does each medium come out cool enough: coolant, charge air, refrigerant."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from grillestack.advice.rule import COMPUTED, FROM_MEMORY, Facts, Rule
from grillestack.assess.result import CaseResult, Finding, Severity, Verdict
from grillestack.assess.verdict import CLOSE_CHARGE_K, CLOSE_MARGIN_K
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores, radiator

CUT_OUT_CONDENSING_DEGC = 75.0  # from memory: about where high-pressure switches open
LITTLE_FAN_ABOVE_M_S = 64 / 3.6  # published: over about 64 km/h a fan does little


def hottest_day_below_design_day(facts: Facts) -> Iterator[Finding]:
    """Find the duty cases in which the coolant passes its limit on the design day."""
    for case in facts.assessment.cases:
        margin_k = case.margin_k
        if margin_k is not None and margin_k <= CLOSE_MARGIN_K:
            yield _margin_finding(facts, case, margin_k)


def no_hottest_day(facts: Facts) -> Iterator[Finding]:
    """Find the duty cases that fail because no day is cold enough, unless the assessment itself says so."""
    for case in facts.assessment.cases:
        fails = case.verdict is Verdict.FAIL and case.heat_target_w is not None
        if fails and case.limiting_ambient_degc is None and not case.reasons:
            yield Finding(
                severity=Severity.SERIOUS,
                text=f"{case.name}: the heat does not go away on any day, however cold. {_air_remedy(facts, case)}",
                parts=_radiator_id(facts),
                source=COMPUTED,
            )


def charge_air_too_hot(facts: Facts) -> Iterator[Finding]:
    """Find the worst duty case in which the charge air leaves its cooler over or close to its limit."""
    found = _worst(facts, lambda case: _excess(case.charge_out_degc, case.charge_out_limit_degc))
    if found is None:
        return
    case, excess_k = found
    if excess_k <= -CLOSE_CHARGE_K or case.charge_out_degc is None or case.charge_out_limit_degc is None:
        return
    over = excess_k > 0
    limit = facts.temperature(case.charge_out_limit_degc)
    by = (
        f"{facts.difference(excess_k)} over the limit of {limit}"
        if over
        else f"only {facts.difference(-excess_k)} under the limit of {limit}"
    )
    yield Finding(
        severity=Severity.SERIOUS if over else Severity.WARNING,
        text=f"{case.name}: the charge air leaves its cooler at {facts.temperature(case.charge_out_degc)}, {by}. "
        "Give the charge-air cooler more fresh air or more core.",
        parts=_ids(facts, CoreRole.CHARGE_AIR_COOLER),
        source=COMPUTED,
    )


def charge_loss_too_high(facts: Facts) -> Iterator[Finding]:
    """Find the worst duty case in which the charge air loses more pressure than allowed."""
    found = _worst(facts, lambda case: _excess(case.charge_loss_pa, case.charge_loss_limit_pa))
    if found is None or found[1] <= 0:
        return
    case = found[0]
    if case.charge_loss_pa is None or case.charge_loss_limit_pa is None:
        return
    yield Finding(
        severity=Severity.SERIOUS,
        text=f"{case.name}: the charge air loses {facts.pressure(case.charge_loss_pa)} in the cooler and its ports, over the "
        f"limit of {facts.pressure(case.charge_loss_limit_pa)}, and the pipes are not counted yet. "
        "Take a cooler with more or shorter tubes, or larger ports.",
        parts=_ids(facts, CoreRole.CHARGE_AIR_COOLER),
        source=COMPUTED,
    )


def pipes_not_counted(facts: Facts) -> Iterator[Finding]:
    """Say that a charge pressure loss within its limit leaves out the pipes."""
    losses = [
        (case.charge_loss_pa, case.charge_loss_limit_pa)
        for case in facts.assessment.cases
        if case.charge_loss_pa is not None and case.charge_loss_limit_pa is not None
    ]
    if losses and all(loss <= limit for loss, limit in losses):
        yield Finding(
            severity=Severity.NOTE,
            text="The charge pressure loss is that of the cooler and its ports only: keep some of the limit for pipes and bends, "
            "which are not counted yet.",
            parts=_ids(facts, CoreRole.CHARGE_AIR_COOLER),
            source=FROM_MEMORY,
        )


def condensing_too_hot(facts: Facts) -> Iterator[Finding]:
    """Find the worst duty case in which the condenser gets so hot that the system switches itself off."""
    found = _worst(facts, lambda case: _excess(case.condensing_degc, CUT_OUT_CONDENSING_DEGC))
    if found is None or found[1] <= 0 or found[0].condensing_degc is None:
        return
    yield Finding(
        severity=Severity.WARNING,
        text=f"{found[0].name}: the condenser would condense at {facts.temperature(found[0].condensing_degc)}, so the high-pressure "
        "cut-out is likely to open. Give it more air at low speed: fan, shroud, closed edges.",
        parts=_ids(facts, CoreRole.CONDENSER),
        source=FROM_MEMORY,
    )


def heat_target_estimated(facts: Facts) -> Iterator[Finding]:
    """Say that the heat to the coolant is a rule of thumb from the rated power."""
    known = [case.heat_target_w for case in facts.assessment.cases if case.heat_target_w is not None]
    if facts.project.engine.heat_to_coolant_w is None and known:
        yield Finding(
            severity=Severity.WARNING,
            text="The heat to the coolant is estimated from the engine's rated power, and may well be a fifth out. "
            "Take the figure from the engine maker's installation sheet.",
            source=FROM_MEMORY,
            sheet_field="heat_to_coolant_w",
        )


def charge_flow_estimated(facts: Facts) -> Iterator[Finding]:
    """Say that the charge-air flow is a rule of thumb from the rated power."""
    known = any(case.charge_out_degc is not None for case in facts.assessment.cases)
    if facts.project.engine.charge_flow_kg_s is None and known:
        yield Finding(
            severity=Severity.NOTE,
            text="The charge-air flow is estimated from the engine's rated power: take the figure from the installation sheet.",
            parts=_ids(facts, CoreRole.CHARGE_AIR_COOLER),
            source=FROM_MEMORY,
            sheet_field="charge_flow_kg_s",
        )


RULES: tuple[Rule, ...] = (
    hottest_day_below_design_day,
    no_hottest_day,
    charge_air_too_hot,
    charge_loss_too_high,
    condensing_too_hot,
    heat_target_estimated,
    charge_flow_estimated,
    pipes_not_counted,
)


def _margin_finding(facts: Facts, case: CaseResult, margin_k: float) -> Finding:
    hottest = facts.temperature(case.limiting_ambient_degc or 0.0)
    design = facts.temperature(case.design_ambient_degc or 0.0)
    if margin_k < 0:
        text = f"{case.name}: the hottest day is {hottest}, {facts.difference(-margin_k)} below the design day of {design}."
    else:
        text = f"{case.name}: the hottest day is {hottest}, only {facts.difference(margin_k)} above the design day of {design}."
    return Finding(
        severity=Severity.SERIOUS if margin_k < 0 else Severity.WARNING,
        text=f"{text} {_air_remedy(facts, case)}",
        parts=_radiator_id(facts),
        source=COMPUTED,
    )


def _air_remedy(facts: Facts, case: CaseResult) -> str:
    duty = next((d for d in facts.project.cases if d.id == case.case_id), None)
    if duty is not None and duty.road_speed_m_s > LITTLE_FAN_ABOVE_M_S:
        return "At this speed a fan does little: uncover radiator face, open the grille or take a larger core."
    return "Uncover radiator face, lead more air through it by fan and shroud, or take a larger core."


def _worst(facts: Facts, excess: Callable[[CaseResult], float | None]) -> tuple[CaseResult, float] | None:
    known = [(case, over) for case in facts.assessment.cases if (over := excess(case)) is not None]
    return max(known, key=lambda pair: pair[1], default=None)


def _excess(value: float | None, limit: float | None) -> float | None:
    return None if value is None or limit is None else value - limit


def _ids(facts: Facts, role: CoreRole) -> tuple[str, ...]:
    return tuple(core.id for core in cores(facts.project, role))


def _radiator_id(facts: Facts) -> tuple[str, ...]:
    core = radiator(facts.project)
    return () if core is None else (core.id,)
