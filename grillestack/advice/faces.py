"""What keeps fresh air from the faces: other cores, tanks, the nose, a shroud too small or too large for its fans."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.rule import COMPUTED, FROM_MEMORY, PUBLISHED, Facts, Rule, percent
from grillestack.assess.result import Finding, Mend, Severity
from grillestack.geometry.exposure import CoreFace
from grillestack.geometry.overlay import SUPPORT_PLATE
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores, fans, shrouds

COVERED_WHOLE_FRAC = 0.95
BLOCKED_LEAST_FRAC = 0.002
BLOCKED_MUCH_FRAC = 0.02
UNCOVERED_MOST_FRAC = 0.05
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


def tank_over_core(facts: Facts) -> Iterator[Finding]:
    """Find tanks, plates and frames that keep all air from a part of another core."""
    for face in facts.assessment.faces.values():
        if face.blocked_mm2 < BLOCKED_LEAST_FRAC * face.core_mm2:
            continue
        blocked_mm2: dict[str, float] = {}
        for zone in face.zones:
            for blocker in zone.blocked_by:
                blocked_mm2[blocker] = blocked_mm2.get(blocker, 0.0) + zone.area_mm2
        for blocker, area_mm2 in blocked_mm2.items():
            share = area_mm2 / face.core_mm2
            if share >= BLOCKED_LEAST_FRAC:
                yield _blocked_finding(facts, face, blocker, area_mm2)


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
        mend=Mend.SHROUD,
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


def opening_uncovered(facts: Facts) -> Iterator[Finding]:
    """Find an opening of which a part leads past the pack."""
    face = next(iter(facts.assessment.faces.values()), None)
    if face is None or facts.project.environment.opening_closed_off:
        return
    measures = face.overlay.measures
    uncovered_mm2 = measures.uncovered_opening_mm2
    if uncovered_mm2 > UNCOVERED_MOST_FRAC * sum(measures.opening_area_mm2):
        yield Finding(
            severity=Severity.WARNING,
            text=f"{facts.area(uncovered_mm2)} of the air's way from the opening lead past the pack, with no core behind: "
            "close them off, or set a core there.",
            parts=tuple(opening.id for opening in facts.project.nose.openings),
            source=FROM_MEMORY,
            mend=Mend.SEAL,
        )


RULES: tuple[Rule, ...] = (
    tank_over_core,
    whole_radiator_covered,
    core_off_the_opening,
    opening_uncovered,
    radiator_without_shroud,
    fans_sweep_too_little,
)


def _blocked_finding(facts: Facts, face: CoreFace, blocker: str, area_mm2: float) -> Finding:
    share = area_mm2 / face.core_mm2
    lost = f"{facts.area(area_mm2)} ({percent(share)}) of the core of {facts.named(face.part_id)}"
    if blocker == SUPPORT_PLATE:
        text = f"The core support outside its window covers {lost}, and no air passes there: move the core into the window."
        parts: tuple[str, ...] = (face.part_id,)
    else:
        text = f"Tanks or plates of {facts.named(blocker)} cover {lost}, and no air passes there: move or turn one of the two."
        parts = (blocker, face.part_id)
    return Finding(
        severity=Severity.WARNING if share >= BLOCKED_MUCH_FRAC else Severity.NOTE,
        text=text,
        parts=parts,
        source=COMPUTED,
    )
