"""Is there something that moves the air, and does the air go where it should."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.faces import opening_uncovered
from grillestack.advice.rule import COMPUTED, FROM_MEMORY, Facts, Rule, percent, quoted
from grillestack.assess.result import CaseResult, Finding, Mend, Severity
from grillestack.geometry.fan_places import FanDuty, fan_duties, fans_in_shrouds
from grillestack.geometry.projection import project_part
from grillestack.model.engine import Seal
from grillestack.model.parts import Fan, Shroud
from grillestack.model.project import cores, fans, radiator, shrouds

RECIRCULATED_MOST_FRAC = 0.10
BYPASSED_MOST_FRAC = 0.10


def no_fan(facts: Facts) -> Iterator[Finding]:
    """Find a pack that stands still without a fan."""
    if radiator(facts.project) is not None and not fans(facts.project):
        yield Finding(
            severity=Severity.SERIOUS,
            text="The pack has no fan, so hardly any air goes through it standing still or crawling: add one.",
            source=COMPUTED,
        )


def fan_without_curve(facts: Facts) -> Iterator[Finding]:
    """Find fans of which only the free flow, or nothing, is known."""
    for fan in fans(facts.project):
        if fan.curve:
            continue
        severity = Severity.WARNING
        text = (
            f"{quoted(fan)} has no curve, only a free flow, and in a pack it moves far less than free: ask its maker for flow against "
            "pressure and type it in."
        )
        if fan.free_flow_m3_s is None:
            severity = Severity.SERIOUS
            text = f"{quoted(fan)} has neither a curve nor a free flow, so what it moves is not known: type its curve."
        yield Finding(severity=severity, text=text, parts=(fan.id,), source=FROM_MEMORY)


def fan_outside_shrouds(facts: Facts) -> Iterator[Finding]:
    """Find fans behind the pack that draw through no more than their own ring."""
    for fan, duty, _shroud in _placed_fans(facts):
        if duty is FanDuty.PULLER:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{quoted(fan)} stands in no shroud and cools only the ring ahead of its blades: give it a shroud over the core.",
                parts=(fan.id,),
                source=FROM_MEMORY,
            )


def fan_between_cores(facts: Facts) -> Iterator[Finding]:
    """Find fans that stand in the middle of the pack."""
    for fan, duty, _shroud in _placed_fans(facts):
        if duty is FanDuty.BETWEEN_CORES:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{quoted(fan)} stands between two cores, where its flow cannot be foretold: put it ahead of the pack or behind it.",
                parts=(fan.id,),
                source=COMPUTED,
            )


def shroud_without_fan(facts: Facts) -> Iterator[Finding]:
    """Find shrouds that no fan stands in."""
    used = {shroud.id for _fan, _duty, shroud in _placed_fans(facts) if shroud is not None}
    for shroud in shrouds(facts.project):
        if shroud.id not in used:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{quoted(shroud)} has no fan in it, so it only hinders the air: put a fan in it or take it out.",
                parts=(shroud.id,),
                source=FROM_MEMORY,
                mend=Mend.TAKE_OUT,
            )


def pusher_and_puller(facts: Facts) -> Iterator[Finding]:
    """Find fans on both sides of the pack."""
    placed = list(_placed_fans(facts))
    pushers = [fan for fan, duty, _shroud in placed if duty is FanDuty.PUSHER]
    pullers = [fan for fan, duty, _shroud in placed if duty in (FanDuty.PULLER, FanDuty.IN_SHROUD)]
    if pushers and pullers:
        yield Finding(
            severity=Severity.NOTE,
            text=f"{quoted(pushers[0])} pushes while {quoted(pullers[0])} pulls: the one ahead also stands in the way of the air at speed. "
            "Pulling fans in a shroud usually do better alone.",
            parts=tuple(fan.id for fan in (*pushers, *pullers)),
            source=FROM_MEMORY,
        )


def air_drawn_round_again(facts: Facts) -> Iterator[Finding]:
    """Find the standing duty case in which the fans draw most of their own hot air again."""
    standing = {duty.id for duty in facts.project.cases if duty.road_speed_m_s == 0}
    known = [(case, case.recirculated_frac) for case in facts.assessment.cases if case.case_id in standing]
    worst = _largest(known)
    if worst is None or worst[1] <= RECIRCULATED_MOST_FRAC:
        return
    remedy = "Close the edges between pack and nose"
    if facts.project.environment.seal is Seal.SEALED:
        remedy = "Look for the way it takes and close it"
    yield Finding(
        severity=Severity.WARNING,
        text=f"{worst[0].name}: {percent(worst[1])} of the air into the pack is hot air drawn round from behind it. {remedy}.",
        source=COMPUTED,
        mend=None if facts.project.environment.seal is Seal.SEALED else Mend.SEAL,
    )


def air_past_the_radiator(facts: Facts) -> Iterator[Finding]:
    """Find the duty case in which most air passes the radiator by."""
    worst = _largest([(case, case.bypassed_frac) for case in facts.assessment.cases])
    if worst is None or worst[1] <= BYPASSED_MOST_FRAC:
        return
    remedy = "Close the edges of the pack"
    if any(opening_uncovered(facts)):
        remedy += " and the part of the opening with no core behind it"
    yield Finding(
        severity=Severity.WARNING,
        text=f"{worst[0].name}: {percent(worst[1])} of the air that enters the nose passes the radiator by. {remedy}.",
        source=COMPUTED,
        mend=Mend.SEAL,
    )


RULES: tuple[Rule, ...] = (
    no_fan,
    fan_without_curve,
    fan_outside_shrouds,
    fan_between_cores,
    shroud_without_fan,
    air_drawn_round_again,
    air_past_the_radiator,
    pusher_and_puller,
)


def _placed_fans(facts: Facts) -> Iterator[tuple[Fan, FanDuty, Shroud | None]]:
    project = facts.project
    all_fans, all_shrouds = fans(project), shrouds(project)
    placed = [project_part(fan) for fan in all_fans]
    housed = fans_in_shrouds(placed, [project_part(shroud) for shroud in all_shrouds])
    duties = fan_duties(placed, housed, [project_part(core) for core in cores(project)])
    for fan, place, duty in zip(all_fans, housed, duties, strict=True):
        yield fan, duty, all_shrouds[place] if place >= 0 else None


def _largest(known: list[tuple[CaseResult, float | None]]) -> tuple[CaseResult, float] | None:
    return max(((case, share) for case, share in known if share is not None), key=lambda pair: pair[1], default=None)
