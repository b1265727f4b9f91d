"""Why one duty case comes out as it does: the chain from the engine's heat to the verdict, short enough to read aloud."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.advice.ladder import Ladder
from grillestack.assess.confidence import Confidence
from grillestack.assess.result import Assessment, CaseResult, Verdict
from grillestack.assess.waterfall import Waterfall
from grillestack.cli.assessment_text import NO_PROOF
from grillestack.cli.explain_air import air_in, face_seen, warmed
from grillestack.cli.explain_coolers import further_coolers
from grillestack.cli.explain_trust import heat_asked, how_sure, rests_on, what_first
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit, show_bare, show_quantity

_WIDTH = 100
_LEAST_STEP_K = 0.05
# A figure and its unit stay on one line.
_NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=[%°A-Za-z])")
_UNBREAKABLE = "\u00a0"
_VERDICTS = {
    Verdict.PASS: "it passes",
    Verdict.CLOSE: "it passes, but only just",
    Verdict.FAIL: "it fails",
    Verdict.UNKNOWN: "not known",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """What an explanation is made of; what is `None` was not asked for or has no answer and is left out."""

    assessment: Assessment
    case: CaseResult
    waterfall: Waterfall | None = None
    confidence: Confidence | None = None
    ladder: Ladder | None = None


def explanation(subject: Explained, units: UnitSystem = UnitSystem.METRIC) -> str:
    """Return the explanation: a heading, one sentence or two per link of the chain, the caution last."""
    lines = [subject.assessment.project.title, *_wrapped(_heading(subject, units)), ""]
    for sentence in _chain(subject, units):
        lines += _wrapped(sentence)
    return "\n".join([*lines, "", NO_PROOF])


def _chain(subject: Explained, units: UnitSystem) -> Iterator[str]:
    assessment, case = subject.assessment, subject.case
    yield from (f"Not known: {reason}" for reason in case.reasons)
    yield from heat_asked(assessment, case, units)
    yield from air_in(case, units)
    yield from face_seen(assessment)
    yield from warmed(assessment, case, units)
    yield from _heat_shed(case, units)
    yield from _hottest_day(case, units)
    yield from _charge_air(case, units)
    yield from further_coolers(assessment, case, units)
    if subject.waterfall is not None:
        yield _degrees(subject.waterfall, units)
    if subject.confidence is not None:
        yield from how_sure(assessment.project, subject.confidence, units)
    if subject.ladder is not None:
        yield from what_first(subject.ladder, units)
    yield from rests_on(assessment)


def _heading(subject: Explained, units: UnitSystem) -> str:
    case, project = subject.case, subject.assessment.project
    duty = next((duty for duty in project.cases if duty.id == case.case_id), None)
    speed = "" if duty is None else f", {show_quantity(duty.road_speed_m_s, Dimension.SPEED, units)}"
    day = show_quantity(case.design_ambient_degc, Dimension.TEMPERATURE, units)
    heading = f"{case.name}{speed}, on a day of {day}: {_VERDICTS[case.verdict]}."
    deciding = subject.assessment.deciding_case
    if deciding is not None and deciding.case_id != case.case_id:
        heading += f" (What decides about this pack is {deciding.name}.)"
    return heading


def _heat_shed(case: CaseResult, units: UnitSystem) -> Iterator[str]:
    shed, target, limit = case.heat_capacity_w, case.heat_target_w, case.top_tank_limit_degc
    if shed is None or target is None or limit is None:
        return
    enough = shed >= target
    spare = show_quantity(abs(shed - target), Dimension.POWER, units)
    sentence = f"At that limit it sheds {show_quantity(shed, Dimension.POWER, units)} on such a day, {spare} "
    sentence += "to spare" if enough else "too little"
    if case.top_tank_degc is not None:
        reached = show_quantity(case.top_tank_degc, Dimension.TEMPERATURE, units)
        sentence += f"; the coolant {'settles at' if enough else 'climbs to'} {reached}"
    yield f"{sentence}."


def _hottest_day(case: CaseResult, units: UnitSystem) -> Iterator[str]:
    if case.heat_target_w is None or case.heat_capacity_w is None:
        return
    target = show_quantity(case.heat_target_w, Dimension.POWER, units)
    if case.limiting_ambient_degc is None or case.margin_k is None:
        yield f"There is no hottest day: however cold the air, the radiator does not shed the {target}."
        return
    day = show_quantity(case.limiting_ambient_degc, Dimension.TEMPERATURE, units)
    margin = show_quantity(abs(case.margin_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    side = "above" if case.margin_k >= 0 else "below"
    yield f"The hotter the day, the less: just the {target} at {day}, the hottest day, {margin} {side} the design day."


def _charge_air(case: CaseResult, units: UnitSystem) -> Iterator[str]:
    if case.charge_out_degc is None:
        return
    out = show_quantity(case.charge_out_degc, Dimension.TEMPERATURE, units)
    sentence = f"The charge air leaves its cooler at {out}"
    sentence += f" ({_limit(case.charge_out_degc, case.charge_out_limit_degc, Dimension.TEMPERATURE, units)})"
    if case.charge_loss_pa is not None:
        loss = show_quantity(case.charge_loss_pa, Dimension.PRESSURE, units)
        sentence += f" and loses {loss} in it ({_limit(case.charge_loss_pa, case.charge_loss_limit_pa, Dimension.PRESSURE, units)})"
    yield f"{sentence}."


def _limit(value: float, limit: float | None, dimension: Dimension, units: UnitSystem) -> str:
    if limit is None:
        return "no limit given"
    return f"{'over its limit of' if value > limit else 'limit'} {show_quantity(limit, dimension, units)}"


def _degrees(steps: Waterfall, units: UnitSystem) -> str:
    """Return where the degrees go, steps that cost or give nothing left out."""
    start, end = (_day(day, units) for day in (steps.start_degc, steps.end_degc))
    words = [f"Where the degrees go: {start} for the radiator alone in an open nose"]
    for step in steps.steps:
        name = step.name[0].lower() + step.name[1:]
        if step.change_k is None:
            words.append(f"{name}: no answer")
        elif abs(step.change_k) >= _LEAST_STEP_K:
            sign = "+" if step.change_k > 0 else ""
            words.append(f"{name} {sign}{show_quantity(step.change_k, Dimension.TEMPERATURE_DIFFERENCE, units)}")
    return f"{', '.join(words)}. What is left: {end}."


def _day(day_degc: float | None, units: UnitSystem) -> str:
    """Return a hottest day to a tenth of a degree, so that the steps can be added up."""
    if day_degc is None:
        return "no hottest day"
    return f"{show_bare(day_degc, Dimension.TEMPERATURE, units)} {display_unit(Dimension.TEMPERATURE, units)}"


def _wrapped(sentence: str) -> list[str]:
    lines = textwrap.wrap(
        _NUMBER_AND_UNIT.sub(_UNBREAKABLE, sentence),
        _WIDTH,
        subsequent_indent="  ",
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace(_UNBREAKABLE, " ") for line in lines]
