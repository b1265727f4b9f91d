"""Is everything there, and is it drawn as it can be built."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from grillestack.advice.rule import COMPUTED, FROM_MEMORY, Facts, Rule, quoted
from grillestack.assess.result import Finding, Mend, Severity
from grillestack.geometry.problems import ProblemKind, nose_problems
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores, radiator

TILT_MOST_DEG = 15.0


def no_opening(facts: Facts) -> Iterator[Finding]:
    """Find a nose without an opening."""
    if not facts.project.nose.openings:
        yield Finding(
            severity=Severity.SERIOUS,
            text="The nose has no opening, so no ram air reaches the pack: draw the grille opening.",
            source=COMPUTED,
        )


def radiator_missing(facts: Facts) -> Iterator[Finding]:
    """Find a pack without a radiator."""
    if radiator(facts.project) is None:
        yield Finding(
            severity=Severity.SERIOUS,
            text="The pack has no radiator, so nothing takes the engine's heat: put one behind the opening.",
            source=COMPUTED,
        )


def second_radiator(facts: Facts) -> Iterator[Finding]:
    """Find radiators beyond the one the model counts."""
    first, *others = cores(facts.project, CoreRole.RADIATOR) or (None,)
    if first is None:
        return
    for other in others:
        yield Finding(
            severity=Severity.WARNING,
            text=f"{quoted(other)} is a second radiator: only {quoted(first)} is counted as the engine's, and this one only takes its air. "
            "Call it a cooler if it cools something else, or remove it.",
            parts=(other.id,),
            source=COMPUTED,
        )


def charge_air_cooler_missing(facts: Facts) -> Iterator[Finding]:
    """Find an engine with charge air and no cooler for it."""
    if facts.project.engine.charge_flow_kg_s is not None and not cores(facts.project, CoreRole.CHARGE_AIR_COOLER):
        yield Finding(
            severity=Severity.WARNING,
            text="The engine sheet gives a charge-air flow, but the pack has no charge-air cooler: add one, because it costs the radiator "
            "air and degrees.",
            source=COMPUTED,
        )


def leans_too_far(facts: Facts) -> Iterator[Finding]:
    """Find parts that lean so far that they do not bleed or drain well."""
    for part in facts.project.parts:
        tilt_deg = abs(part.placement.tilt_deg)
        if tilt_deg > TILT_MOST_DEG:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{quoted(part)} leans {tilt_deg:.0f}°, more than {TILT_MOST_DEG:.0f}°: set it steeper, or see to it that vent and "
                "filler stay its highest points.",
                parts=(part.id,),
                source=FROM_MEMORY,
                mend=Mend.STEEPER,
            )


_OUTLINE_WORDS: Final = {
    ProblemKind.CROSSES_ITSELF: "The outline of {name} crosses itself, and every part it encloses is counted as inside: "
    "put its corners in order.",
    ProblemKind.NO_AREA: "The outline of {name} encloses no area, so it counts for nothing: pull its corners apart or remove it.",
    ProblemKind.RADIUS_TOO_LARGE: "{places} of the rounded corners of {name} have no room between their sides and are drawn and "
    "counted smaller: make the radius smaller or the sides longer.",
}


_OUTLINE_MENDS: Final = {
    ProblemKind.NO_AREA: Mend.REMOVE_OUTLINE,
    ProblemKind.RADIUS_TOO_LARGE: Mend.SMALLER_RADII,
}


def outlines_that_cannot_be_meant(facts: Facts) -> Iterator[Finding]:
    """Find outlines of the nose that cross themselves, enclose nothing, or are rounder than their sides allow."""
    nose = facts.project.nose
    names = {opening.id: f"“{opening.name}”" for opening in nose.openings}
    names |= {obstruction.id: f"“{obstruction.name}”" for obstruction in nose.obstructions}
    for problem in nose_problems(nose):
        name = names.get(problem.subject, "the support window")
        yield Finding(
            severity=Severity.WARNING,
            text=_OUTLINE_WORDS[problem.kind].format(name=name, places=problem.places),
            parts=(problem.subject,) if problem.subject in names else (),
            source=COMPUTED,
            mend=_OUTLINE_MENDS.get(problem.kind) if problem.subject in names else None,
        )


RULES: tuple[Rule, ...] = (
    no_opening,
    radiator_missing,
    second_radiator,
    charge_air_cooler_missing,
    leans_too_far,
    outlines_that_cannot_be_meant,
)
