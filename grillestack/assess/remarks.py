"""What the assessment itself has to say: what is missing, what stands in for it, and how the cores are described."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from grillestack.assess.asked import NO_CASES, NO_CHARGE_FLOW, NO_HEAT, NO_OPENING, NO_RADIATOR, AskedCase, coolant_of
from grillestack.assess.core_remarks import core_remarks
from grillestack.assess.defaults import COOLANT_RISE_K
from grillestack.assess.fan_figures import fan_figures
from grillestack.assess.further_remarks import further_cooler_remarks
from grillestack.assess.result import CaseResult, Finding, Severity, Verdict
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, fans

_SHEET: Final = "engine sheet"
_MODEL: Final = "model of the pack"
_FIELDS: Final = {NO_HEAT: "heat_to_coolant_w", NO_CHARGE_FLOW: "charge_flow_kg_s"}


def remarks(
    project: Project, stack: Sequence[Core], asked: Sequence[AskedCase], cases: Sequence[CaseResult]
) -> tuple[Finding, ...]:
    """Return the remarks of this assessment."""
    return (
        *_missing(project, asked),
        *_not_computed(stack),
        *further_cooler_remarks(stack, cases),
        *core_remarks(stack, cases),
        *_stand_ins(project),
        *_no_answer(cases),
    )


def _missing(project: Project, asked: Sequence[AskedCase]) -> Iterator[Finding]:
    if not project.cases:
        yield Finding(severity=Severity.SERIOUS, text=NO_CASES, source="duty cases")
    left_to_rules = {NO_RADIATOR, NO_OPENING}
    left_to_rules |= {fan_figures(fan).problem or "" for fan in fans(project) if not fan.curve}
    said: set[str] = set()
    for one in asked:
        for sentence in one.missing:
            # Missing parts are the business of the rules of practice; here only figures that are not there.
            if sentence not in left_to_rules:
                said.add(sentence)
    for sentence in sorted(said):
        yield Finding(severity=Severity.SERIOUS, text=sentence, source=_SHEET, sheet_field=_FIELDS.get(sentence, ""))


def _not_computed(stack: Sequence[Core]) -> Iterator[Finding]:
    charge = [core for core in stack if core.role is CoreRole.CHARGE_AIR_COOLER]
    for core in charge[1:]:
        yield Finding(
            severity=Severity.WARNING,
            text=f"“{core.name}” is a second charge-air cooler: only the first is given charge air, "
            "this one counts as resistance to the air alone.",
            parts=(core.id,),
            source=_MODEL,
        )


def _stand_ins(project: Project) -> Iterator[Finding]:
    if project.engine.coolant_flow_m3_s is None:
        yield Finding(
            severity=Severity.NOTE,
            text=f"The coolant flow is not on the engine sheet: taken as what carries the heat with {COOLANT_RISE_K:g} K.",
            source="common practice, no source",
            sheet_field="coolant_flow_m3_s",
        )
    coolant = coolant_of(project)
    if coolant.is_held_at_range_end:
        yield Finding(
            severity=Severity.NOTE,
            text="The coolant's glycol share is outside 30 to 60 %: its properties are those of the nearer end.",
            source="coolant properties fitted between 30 and 60 % by volume",
            sheet_field="glycol_frac",
        )


def _no_answer(cases: Sequence[CaseResult]) -> Iterator[Finding]:
    for case in cases:
        if case.heat_capacity_w is None:
            continue
        for reason in case.reasons:
            severity = Severity.SERIOUS if case.verdict is Verdict.FAIL else Severity.WARNING
            yield Finding(severity=severity, text=reason, source=_MODEL)
