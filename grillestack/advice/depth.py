"""Is there room: gaps in the pack, room around it, and what runs into what."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.rule import COMPUTED, FROM_MEMORY, PUBLISHED, Facts, Rule, quoted
from grillestack.assess.result import Finding, Mend, Severity
from grillestack.geometry.depth import BONNET_LINE, GRILLE_PLANE, PULLEY_PLANE, Clearance, Gap
from grillestack.geometry.fan_rims import passages
from grillestack.model.parts import Core, Fan
from grillestack.model.project import shrouds

GAP_LEAST_MM = 10.0
GAP_MOST_MM = 25.0
CORE_TO_FAN_LEAST_MM = 13.0
PULLEY_LEAST_MM = 25.0
BONNET_LEAST_MM = 20.0
OBSTRUCTION_LEAST_MM = 25.0


def same_space(facts: Facts) -> Iterator[Finding]:
    """Find parts that are in the same space as another part or an obstruction."""
    for overlap in facts.assessment.depth.overlaps:
        first, second = facts.named(overlap.part_id), facts.named(overlap.other_id)
        yield Finding(
            severity=Severity.SERIOUS,
            text=f"{first} and {second} are in the same space, {facts.length(overlap.depth_mm)} deep ({overlap.kind}): "
            "move one of them.",
            parts=(overlap.part_id, overlap.other_id),
            source=COMPUTED,
        )


def core_gap_too_small(facts: Facts) -> Iterator[Finding]:
    """Find cores that stand too close to clean between them."""
    for gap in _gaps_between_cores(facts):
        if gap.gap_mm < GAP_LEAST_MM and not _overlap(facts, gap):
            yield _gap_finding(
                facts,
                gap,
                f"{_apart(facts, gap.gap_mm)}: keep at least {facts.length(GAP_LEAST_MM)} between cores, or they cannot be cleaned "
                "and chafe.",
                FROM_MEMORY,
                mend=Mend.WIDEN_GAP,
            )


def core_gap_too_large(facts: Facts) -> Iterator[Finding]:
    """Find cores that stand so far apart that air goes round the rear one."""
    for gap in _gaps_between_cores(facts):
        if gap.gap_mm > GAP_MOST_MM:
            yield _gap_finding(
                facts,
                gap,
                f"{_apart(facts, gap.gap_mm)}, more than {facts.length(GAP_MOST_MM)}: close the edges between them, "
                "or air goes round the rear one.",
                FROM_MEMORY,
                severity=Severity.NOTE,
                mend=Mend.SEAL,
            )


def fan_against_fins(facts: Facts) -> Iterator[Finding]:
    """Find fans so close to a core that they draw through a ring only, or touch the fins."""
    for gap in facts.assessment.depth.gaps:
        kinds = {type(facts.project.part(part_id)) for part_id in (gap.front_id, gap.rear_id)}
        if kinds == {Core, Fan} and gap.gap_mm < CORE_TO_FAN_LEAST_MM and not _overlap(facts, gap):
            yield _gap_finding(
                facts,
                gap,
                f"{_apart(facts, gap.gap_mm)}: keep at least {facts.length(CORE_TO_FAN_LEAST_MM)} between fan and fins, "
                f"{facts.length(25.0)} to {facts.length(50.0)} is better.",
                PUBLISHED,
                mend=Mend.FROM_FINS,
            )


def shallow_shroud(facts: Facts) -> Iterator[Finding]:
    """Find shrouds so shallow that what no fan sweeps gets little air; a fan close to the fins is said by itself."""
    close = {gap.rear_id for gap in facts.assessment.depth.gaps if gap.gap_mm < CORE_TO_FAN_LEAST_MM}
    if any(isinstance(facts.project.part(part_id), Fan) for part_id in close):
        return
    for shroud, way in zip(shrouds(facts.project), passages(facts.project), strict=True):
        depth_mm = way.mean_depth_mm
        if depth_mm is not None and depth_mm < CORE_TO_FAN_LEAST_MM:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{quoted(shroud)} leaves {facts.length(depth_mm)} on average between the fins and its plate or the fan's "
                f"ring, so what no fan sweeps gets little air: take a deeper shroud, "
                f"{facts.length(25.0)} to {facts.length(50.0)} is better.",
                parts=(shroud.id,),
                source=PUBLISHED,
            )


def pulley_too_near(facts: Facts) -> Iterator[Finding]:
    """Find parts with too little room to the engine's foremost pulley."""
    for room in _rooms(facts, PULLEY_PLANE, PULLEY_LEAST_MM):
        yield _room_finding(
            facts,
            room,
            "the pulley",
            PULLEY_LEAST_MM,
            "Move the pack forward or take a shallower fan, shroud or core.",
            mend=Mend.FORWARD,
        )


def bonnet_too_near(facts: Facts) -> Iterator[Finding]:
    """Find parts with too little room under the bonnet."""
    for room in _rooms(facts, BONNET_LINE, BONNET_LEAST_MM):
        yield _room_finding(
            facts, room, "the bonnet line", BONNET_LEAST_MM, "Lower it, lean it or move it.", mend=Mend.LOWER
        )


def ahead_of_the_grille(facts: Facts) -> Iterator[Finding]:
    """Find parts that stand out of the grille."""
    for room in _rooms(facts, GRILLE_PLANE, 0.0):
        yield Finding(
            severity=Severity.SERIOUS,
            text=f"{facts.named(room.part_id)} stands {facts.length(-room.clearance_mm)} ahead of the grille: move it rearward.",
            parts=(room.part_id,),
            source=COMPUTED,
            mend=Mend.REARWARD,
        )


def obstruction_too_near(facts: Facts) -> Iterator[Finding]:
    """Find parts with too little room to something solid in the nose."""
    for obstruction in facts.project.nose.obstructions:
        for room in _rooms(facts, obstruction.id, OBSTRUCTION_LEAST_MM):
            pair = {room.part_id, obstruction.id}
            if all({o.part_id, o.other_id} != pair for o in facts.assessment.depth.overlaps):
                yield _room_finding(
                    facts, room, f"“{obstruction.name}”", OBSTRUCTION_LEAST_MM, "Move it: a nose works and shakes."
                )


RULES: tuple[Rule, ...] = (
    same_space,
    ahead_of_the_grille,
    pulley_too_near,
    bonnet_too_near,
    fan_against_fins,
    shallow_shroud,
    core_gap_too_small,
    obstruction_too_near,
    core_gap_too_large,
)


def _gaps_between_cores(facts: Facts) -> Iterator[Gap]:
    for gap in facts.assessment.depth.gaps:
        if all(isinstance(facts.project.part(part_id), Core) for part_id in (gap.front_id, gap.rear_id)):
            yield gap


def _overlap(facts: Facts, gap: Gap) -> bool:
    """Return whether the two are in the same space, which is said elsewhere."""
    pair = {gap.front_id, gap.rear_id}
    return any({o.part_id, o.other_id} == pair for o in facts.assessment.depth.overlaps)


def _gap_finding(
    facts: Facts, gap: Gap, text: str, source: str, *, mend: Mend, severity: Severity = Severity.WARNING
) -> Finding:
    front, rear = facts.project.part(gap.front_id), facts.project.part(gap.rear_id)
    return Finding(
        severity=severity,
        text=f"{quoted(front)} and {quoted(rear)} {text}",
        parts=(gap.front_id, gap.rear_id),
        source=source,
        mend=mend,
    )


def _rooms(facts: Facts, to: str, least_mm: float) -> Iterator[Clearance]:
    for clearance in facts.assessment.depth.clearances:
        if clearance.to == to and clearance.clearance_mm < least_mm:
            yield clearance


def _room_finding(
    facts: Facts, room: Clearance, what: str, least_mm: float, remedy: str, *, mend: Mend | None = None
) -> Finding:
    name = facts.named(room.part_id)
    if room.clearance_mm < 0:
        text = f"{name} reaches {facts.length(-room.clearance_mm)} into the room of {what}: {remedy[0].lower()}{remedy[1:]}"
    else:
        text = (
            f"{name} leaves {facts.length(room.clearance_mm)} to {what}, less than {facts.length(least_mm)}. {remedy}"
        )
    return Finding(
        severity=Severity.SERIOUS if room.clearance_mm < 0 else Severity.WARNING,
        text=text,
        parts=(room.part_id,),
        source=FROM_MEMORY,
        mend=mend,
    )


def _apart(facts: Facts, gap_mm: float) -> str:
    if gap_mm > 0:
        return f"are {facts.length(gap_mm)} apart"
    return "touch" if gap_mm == 0 else f"reach {facts.length(-gap_mm)} into each other"
