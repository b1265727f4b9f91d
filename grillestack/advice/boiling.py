"""Does the coolant stay liquid: limit and top tank held against the boiling point under the cap, at the case's altitude."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.advice.rule import FROM_MEMORY, Facts, Rule
from grillestack.assess.asked import AskedCase, asked_cases, coolant_of
from grillestack.assess.result import Finding, Severity
from grillestack.model.project import radiator
from grillestack.physics.air import pressure_at_altitude_pa
from grillestack.physics.coolant import boiling_degc

USUAL_CAP_PA = 1e5  # common practice, from memory: caps of road vehicles hold about 1 bar
# Common practice, from memory: the metal round the cylinders is hotter than the top tank, so coolant boils there first.
LEAST_RESERVE_K = 5.0


@dataclass(frozen=True, slots=True)
class _Reserve:
    """How far one temperature of one case stays below boiling."""

    asked: AskedCase
    what: str
    hot_degc: float
    boils_degc: float

    @property
    def reserve_k(self) -> float:
        return self.boils_degc - self.hot_degc


def coolant_near_boiling(facts: Facts) -> Iterator[Finding]:
    """Find the duty case in which the top tank's limit, or the top tank as computed, comes nearest to boiling under the cap."""
    cap_pa, cap = _cap(facts)
    nearest = min(_reserves(facts, cap_pa), key=lambda one: one.reserve_k, default=None)
    if nearest is None or nearest.reserve_k >= LEAST_RESERVE_K:
        return
    core, boils = radiator(facts.project), facts.temperature(nearest.boils_degc)
    by = (
        f"{facts.difference(nearest.reserve_k)} under the {boils} at which this coolant boils"
        if nearest.reserve_k > 0.0
        else f"{facts.difference(-nearest.reserve_k)} over the {boils} at which this coolant boils"
    )
    yield Finding(
        severity=Severity.WARNING if nearest.reserve_k > 0.0 else Severity.SERIOUS,
        text=f"{nearest.asked.case.name}: {nearest.what} of {facts.temperature(nearest.hot_degc)} is {by} "
        f"{_where(facts, nearest.asked.altitude_m)} under {cap}. Keep at least {facts.difference(LEAST_RESERVE_K)}: a cooler top "
        "tank, or a cap of more pressure if radiator, hoses and heater are rated for it. Never open a hot system.",
        parts=() if core is None else (core.id,),
        source=FROM_MEMORY,
    )


def _cap(facts: Facts) -> tuple[float, str]:
    core = radiator(facts.project)
    rating_pa = None if core is None else core.pressure_rating_pa
    if rating_pa is not None and rating_pa < USUAL_CAP_PA:
        return rating_pa, f"the {facts.pressure(rating_pa)} that the radiator is rated for"
    return USUAL_CAP_PA, f"a cap of {facts.pressure(USUAL_CAP_PA)}, as usual"


def _where(facts: Facts, altitude_m: float) -> str:
    return "at sea level" if altitude_m == 0.0 else f"{facts.altitude(altitude_m)} above the sea"


def _reserves(facts: Facts, cap_pa: float) -> Iterator[_Reserve]:
    coolant = coolant_of(facts.project)
    results = {case.case_id: case for case in facts.assessment.cases}
    for asked in asked_cases(facts.project):
        boils = float(boiling_degc(coolant, pressure_at_altitude_pa(asked.altitude_m) + cap_pa))
        yield _Reserve(asked, "the top tank's limit", asked.top_tank_limit_degc, boils)
        result = results.get(asked.case.id)
        if result is not None and result.top_tank_degc is not None:
            yield _Reserve(asked, "the top tank", result.top_tank_degc, boils)


RULES: tuple[Rule, ...] = (coolant_near_boiling,)
