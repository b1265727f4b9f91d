"""What in this pack can hurt someone: one short note for each danger that is really there."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.rule import FROM_MEMORY, NO_SOURCE, Facts, Rule
from grillestack.assess.result import Finding, Severity
from grillestack.model.parts import CoreRole, TubeFluid
from grillestack.model.project import cores, fans


def hot_coolant_under_pressure(facts: Facts) -> Iterator[Finding]:
    """Warn of scalding and of the poison, if there is a radiator."""
    parts = _ids(facts, CoreRole.RADIATOR)
    if parts:
        yield _caution(
            "scalding coolant",
            "Hot coolant stands under pressure and scalds: open the cap only on a cold engine.",
            parts,
        )
        yield _caution(
            "poisonous coolant",
            "Coolant is poisonous to people and animals: catch it, keep it covered and hand it in after local rules.",
            parts,
        )


def fans_start_by_themselves(facts: Facts) -> Iterator[Finding]:
    """Warn of fans that start with the engine off, and of wires without a fuse, if there are electric fans."""
    parts = tuple(fan.id for fan in fans(facts.project))
    if not parts:
        return
    yield _caution(
        "fans that start by themselves",
        "Electric fans start by themselves, also with the engine off: disconnect them before hands or tools go near.",
        parts,
    )
    amps = [fan.running_current_a for fan in fans(facts.project) if fan.running_current_a is not None]
    draw = f" (the largest here draws {max(amps):.0f} A)" if amps else ""
    yield Finding(
        severity=Severity.NOTE,
        danger="wires without a fuse",
        text=f"Fuse each fan close to the battery at 1.25 to 1.5 times its running current{draw} and size the wire for the fuse: "
        "an undersized wire burns.",
        parts=parts,
        source=FROM_MEMORY,
    )


def refrigerant_for_licensed_people(facts: Facts) -> Iterator[Finding]:
    """Warn of refrigerant, if there is a condenser."""
    parts = _ids(facts, CoreRole.CONDENSER)
    if parts:
        yield _caution(
            "refrigerant",
            "Refrigerant may be drained and filled by licensed people only: have it taken out before the condenser is moved.",
            parts,
        )


def hot_charge_pipes(facts: Facts) -> Iterator[Finding]:
    """Warn of hot charge pipes, if there is a charge-air cooler."""
    parts = _ids(facts, CoreRole.CHARGE_AIR_COOLER)
    if parts:
        yield _caution(
            "hot charge pipes",
            "Charge pipes are hot enough to burn skin and wiring: keep them clear of wires and hoses and guard them.",
            parts,
        )


def hot_oil(facts: Facts) -> Iterator[Finding]:
    """Warn of oil lines, if oil runs through a further cooler."""
    parts = tuple(core.id for core in cores(facts.project, CoreRole.COOLER) if core.tube_fluid is TubeFluid.OIL)
    if parts:
        yield _caution(
            "hot oil",
            "Oil runs hot and under pressure, burns skin and takes fire on hot exhaust parts: use lines and fittings rated for this oil, "
            "route them clear of the exhaust, and follow the gearbox or steering maker.",
            parts,
        )


def cutting_the_front_structure(facts: Facts) -> Iterator[Finding]:
    """Warn of cutting what carries a crash, if the nose has obstructions or a support plate that tempt one to."""
    nose = facts.project.nose
    if nose.obstructions or nose.support_window is not None:
        yield _caution(
            "crash structure",
            "Bumper, beam and core support may carry the crash: do not cut or move them without a licensed engineer and the local codes.",
            tuple(o.id for o in nose.obstructions),
        )


def lamps_and_plate(facts: Facts) -> Iterator[Finding]:
    """Remind of what must stay visible at the front, if an opening was drawn."""
    if facts.project.nose.openings:
        yield _caution(
            "lamps and plate",
            "Lamps, number plate and their places are a matter of law: check the local codes before the opening is changed.",
            tuple(o.id for o in facts.project.nose.openings),
        )


def verify_by_test(facts: Facts) -> Iterator[Finding]:
    """Say what an estimate is for, as soon as there is one."""
    if facts.assessment.cases and facts.project.parts:
        yield _caution(
            "estimates are no proof",
            "These estimates are for choosing and building, not a proof: verify by test and follow the engine maker's installation limits.",
            (),
        )


RULES: tuple[Rule, ...] = (
    hot_coolant_under_pressure,
    fans_start_by_themselves,
    refrigerant_for_licensed_people,
    hot_charge_pipes,
    hot_oil,
    cutting_the_front_structure,
    lamps_and_plate,
    verify_by_test,
)


def _caution(danger: str, text: str, parts: tuple[str, ...]) -> Finding:
    return Finding(severity=Severity.NOTE, text=text, parts=parts, source=NO_SOURCE, danger=danger)


def _ids(facts: Facts, role: CoreRole) -> tuple[str, ...]:
    return tuple(core.id for core in cores(facts.project, role))
