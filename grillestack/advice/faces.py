"""What keeps fresh air from the faces: other cores, tanks, the nose, a shroud too small or too large for its fans."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.rule import FROM_MEMORY, PUBLISHED, Facts, Rule, percent
from grillestack.assess.result import Finding, Severity
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores, fans, shrouds

COVERED_WHOLE_FRAC = 0.95
OFF_OPENING_MOST_FRAC = 0.05
UNSHROUDED_MOST_FRAC = 0.15
SHROUD_ESSENTIAL_BELOW_FRAC = 0.7
SWEPT_LEAST_FRAC = 0.4


def whole_radiator_covered(facts: Facts) -> Iterator[Finding]:
    """Find a radiator of which nearly everything stands behind other cores."""
    face = facts.assessment.radiator
    if face is None or face.behind_mm2 < COVERED_WHOLE_FRAC * face.core_mm2:
        return
    ahead = [
        core
        for core in cores(facts.project)
        if core.role is not CoreRole.RADIATOR and core.placement.x_mm < facts.project.part(face.part_id).placement.x_mm
    ]
    names = " and ".join(f"“{core.name}”" for core in ahead)
    yield Finding(
        severity=Severity.WARNING,
        text=f"{percent(face.behind_mm2 / face.core_mm2)} of {facts.named(face.part_id)} stands behind {names or 'other cores'} and sees "
        "warm air only: lower, narrow or shift what stands ahead, so that part of the radiator sees fresh air.",
        parts=(face.part_id, *(core.id for core in ahead)),
        source=FROM_MEMORY,
    )


def core_off_the_opening(facts: Facts) -> Iterator[Finding]:
    """Find cores that stand partly beside the opening or behind something solid."""
    for face in facts.assessment.faces.values():
        if face.off_opening_mm2 > OFF_OPENING_MOST_FRAC * face.core_mm2 and facts.project.nose.openings:
            yield Finding(
                severity=Severity.WARNING,
                text=f"{facts.area(face.off_opening_mm2)} of {facts.named(face.part_id)} "
                f"({percent(face.off_opening_mm2 / face.core_mm2)}) lie beside the opening or in the shadow of something solid: "
                "move the core before the opening, or open the nose there.",
                parts=(face.part_id,),
                source=FROM_MEMORY,
            )


def radiator_without_shroud(facts: Facts) -> Iterator[Finding]:
    """Find a radiator that fans sweep in part, and that a shroud covers too little."""
    face = facts.assessment.radiator
    if face is None or not fans(facts.project):
        return
    open_frac = face.unshrouded_mm2 / face.core_mm2
    swept_frac = 1 - face.unswept_mm2 / face.core_mm2
    if open_frac <= UNSHROUDED_MOST_FRAC:
        return
    essential = (
        f"; the fans sweep {percent(swept_frac)} of the core, and under {percent(SHROUD_ESSENTIAL_BELOW_FRAC)} a shroud is essential"
        if swept_frac < SHROUD_ESSENTIAL_BELOW_FRAC
        else ""
    )
    yield Finding(
        severity=Severity.WARNING,
        text=f"{percent(open_frac)} of {facts.named(face.part_id)} have no shroud behind them, so the fans draw past the core there"
        f"{essential}: lead a shroud over the whole core.",
        parts=(face.part_id, *(shroud.id for shroud in shrouds(facts.project))),
        source=PUBLISHED,
    )


def fans_sweep_too_little(facts: Facts) -> Iterator[Finding]:
    """Find fans that are small for the core, shroud or not."""
    face = facts.assessment.radiator
    if face is None or not fans(facts.project):
        return
    swept_frac = 1 - face.unswept_mm2 / face.core_mm2
    if swept_frac < SWEPT_LEAST_FRAC:
        yield Finding(
            severity=Severity.NOTE,
            text=f"The fans sweep {percent(swept_frac)} of {facts.named(face.part_id)}; 40 to 60 % is usual. "
            "A larger fan, or two, spread the air better.",
            parts=tuple(fan.id for fan in fans(facts.project)),
            source=PUBLISHED,
        )


RULES: tuple[Rule, ...] = (
    whole_radiator_covered,
    core_off_the_opening,
    radiator_without_shroud,
    fans_sweep_too_little,
)
