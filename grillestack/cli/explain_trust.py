"""What an explanation rests on, in sentences: the engine's heat, how sure the day is, what to change, what was assumed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.advice.change import called
from grillestack.advice.ladder import Ladder
from grillestack.advice.ladder_words import left_out_in_words, rung_in_words
from grillestack.advice.rule import percent
from grillestack.assess.confidence import Confidence
from grillestack.assess.core_construction import core_ground
from grillestack.assess.origins import ENGINE_SHEET, field_origin, heat_origin
from grillestack.assess.result import Assessment, CaseResult
from grillestack.model.project import Project, cores
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_RUNGS_TOLD = 3


def heat_asked(assessment: Assessment, case: CaseResult, units: UnitSystem) -> Iterator[str]:
    """Return what the engine gives, where that figure comes from, and how hot the coolant may get."""
    sheet = assessment.project.engine
    if case.heat_target_w is None:
        return
    duty = next((duty for duty in assessment.project.cases if duty.id == case.case_id), None)
    share = "" if duty is None or duty.heat_frac == 1.0 else f"({percent(duty.heat_frac)} of full load) "
    limit = show_quantity(case.top_tank_limit_degc, Dimension.TEMPERATURE, units)
    heat, top = heat_origin(sheet), _short(field_origin(sheet, "top_tank_limit_degc"))
    origin = "both from the engine sheet" if heat == top == ENGINE_SHEET else f"heat: {heat}, limit: {top}"
    yield (
        f"The engine gives {show_quantity(case.heat_target_w, Dimension.POWER, units)} {share}to the coolant, at most {limit} in the "
        f"top tank ({origin})."
    )


def how_sure(project: Project, band: Confidence, units: UnitSystem) -> Iterator[str]:
    """Return the band of the hottest day, the chance on the design day and what weighs most in it."""
    low, high = (
        "no day at all" if day is None else show_quantity(day, Dimension.TEMPERATURE, units)
        for day in (band.p10_degc, band.p90_degc)
    )
    chance = percent(band.meets_design_day_frac) if band.meets_design_day_frac > 0 else "none"
    yield f"How sure: {low} to {high} (P10 to P90); the design day is met in {chance} of {band.samples} samples."
    drivers = [f"{_with_short_names(driver.name, project)} {percent(driver.share_frac)}" for driver in band.drivers]
    if drivers:
        yield f"That hangs on {', '.join(drivers)}."


def what_first(found: Ladder, units: UnitSystem) -> Iterator[str]:
    """Return the best changes, and how many are not told."""
    left_out = left_out_in_words(found, units)
    if not found.rungs:
        yield f"What to change first: {found.reason} {left_out}".rstrip()
        return
    clean = [rung for rung in found.rungs if not rung.spoils]
    told = (clean or list(found.rungs))[:_RUNGS_TOLD]
    yield "What to change first:"
    yield from (f"  {number}. {rung_in_words(rung, units)}" for number, rung in enumerate(told, start=1))
    worse = sum(rung.spoils for rung in found.rungs if rung not in told)
    less = len(found.rungs) - len(told) - worse
    rest = [
        f"{less} more would buy less." if less else "",
        f"{worse} would bring something over its limit." if worse else "",
        left_out,
    ]
    if any(rest):
        yield f"  {' '.join(words for words in rest if words)}"


def rests_on(assessment: Assessment) -> Iterator[str]:
    """Return what the cores rest on and what stands in for figures that were not given."""
    project = assessment.project
    grounds: dict[str, list[str]] = {}
    for core in cores(project):
        grounds.setdefault(core_ground(core).ground.value, []).append(called(project, core).removeprefix("the "))
    words = [f"{ground} ({', '.join(names)})" for ground, names in grounds.items()]
    sentence = f"It rests on {'; '.join(['the sizes as typed', *words])}"
    standing_in = _standing_in(assessment)
    if standing_in:
        sentence += f"; defaults for {', '.join(standing_in)}"
    yield f"{sentence}."


def _standing_in(assessment: Assessment) -> Sequence[str]:
    """Return the inputs that a default stands in for, each once."""
    inputs = [words for basis in assessment.basis for words in basis.inputs]
    return list(dict.fromkeys(words.partition(" (")[0] for words in inputs if "(default" in words))


def _short(origin: str) -> str:
    return origin.partition(":")[0]


def _with_short_names(words: str, project: Project) -> str:
    for core in cores(project):
        words = words.replace(f"“{core.name}”", called(project, core))
    return words
