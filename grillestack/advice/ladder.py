"""What to change first: changes of this very pack, each assessed, the one that buys most degrees on top."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from grillestack.advice.change import Candidate, Situation
from grillestack.advice.changes import CHANGES
from grillestack.advice.side_effects import side_effects
from grillestack.advice.trial import LEAST_WORTH_K, Trial, best_of, case_of
from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment, CaseResult, Verdict
from grillestack.model.parts import Part
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

# A trial agrees with the settled assessment to far better than this; near the bound the settled one decides.
_TRIAL_SLACK_K: Final = 0.02
# Of the whole work about this share is trials, the rest the settled assessments of what they found.
_TRIALS_FRAC: Final = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One change that is worth it.

    `buys_k` is what the hottest day of the ladder's duty case gains; `None` means that it had none and has one now.
    `verdict_reason` says what the pack stands after it, `side_effects` what else the change brings; `spoils` whether one of
    these is over a limit.
    """

    title: str
    words: str
    project: Project
    parts: tuple[str, ...]
    buys_k: float | None
    hottest_before_degc: float | None
    hottest_after_degc: float
    verdict_after: Verdict
    verdict_reason: str
    side_effects: tuple[str, ...]
    spoils: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """The rungs of one duty case, most degrees first but what spoils something last, and how many kinds of change are left out.

    `too_little_count` buy less than 0.2 K, `harmful_count` cost another duty case its day. `reason` says why there is no
    rung, and is empty where there are some.
    """

    case_id: str | None
    case_name: str
    rungs: tuple[Rung, ...]
    too_little_count: int
    harmful_count: int
    reason: str


def ladder(
    project: Project,
    catalogue: Sequence[Part],
    progress: Callable[[float], bool] = lambda _share: True,
    *,
    case_id: str | None = None,
    units: UnitSystem = UnitSystem.METRIC,
) -> Ladder | None:
    """Return what to change first, or nothing if cancelled.

    Parameters
    ----------
    catalogue
        The parts that can be had.
    progress
        Told the share done; answers whether to go on.
    case_id
        The duty case whose degrees count; the deciding one if not said.
    """
    base = assess(project)
    case = base.deciding_case if case_id is None else case_of(base, case_id)
    if case is None or Verdict.UNKNOWN in (case.verdict, base.verdict):
        return _without_rungs(base, case)
    situation = Situation(project=project, depth=base.depth, catalogue=catalogue, units=units)
    candidates = list(_offered(situation))
    trials: dict[str, list[Trial]] = {}
    for number, candidate in enumerate(candidates):
        if not progress(_TRIALS_FRAC * number / len(candidates)):
            return None
        trials.setdefault(candidate.kind, []).append(Trial(candidate, base, case, assess(candidate.project, base)))
    rungs: list[Rung] = []
    harmful_count = 0
    for number, of_one_kind in enumerate(trials.values()):
        if not progress(_TRIALS_FRAC + (1.0 - _TRIALS_FRAC) * number / len(trials)):
            return None
        best = best_of(of_one_kind)
        if best.worth_k >= LEAST_WORTH_K - _TRIAL_SLACK_K and not best.harmful:
            best = Trial(best.candidate, base, case, assess(best.candidate.project))
        if best.hottest_degc is not None and best.worth_k >= LEAST_WORTH_K:
            if best.harmful:
                harmful_count += 1
            else:
                rungs.append(_rung(best, best.hottest_degc, units))
    if not progress(1.0):
        return None
    return Ladder(
        case_id=case.case_id,
        case_name=case.name,
        rungs=tuple(sorted(rungs, key=_order)),
        too_little_count=len(trials) - harmful_count - len(rungs),
        harmful_count=harmful_count,
        reason="" if rungs else _why_no_rung(case, units),
    )


def _offered(situation: Situation) -> Iterator[Candidate]:
    for change in CHANGES:
        try:
            yield from change(situation)
        except ModelError:
            # It leads out of what a document may hold, far beyond any vehicle: no change to offer.
            continue


def _order(rung: Rung) -> tuple[bool, float, float]:
    """Return what sorts rungs: what spoils something last, a hottest day where there was none first, then degrees."""
    return rung.spoils, -math.inf if rung.buys_k is None else -rung.buys_k, -rung.hottest_after_degc


def _rung(trial: Trial, hottest_degc: float, units: UnitSystem) -> Rung:
    effects = side_effects(trial.base, trial.after, units)
    return Rung(
        title=trial.candidate.title,
        words=trial.candidate.words,
        project=trial.candidate.project,
        parts=trial.candidate.parts,
        buys_k=trial.buys_k,
        hottest_before_degc=trial.case.limiting_ambient_degc,
        hottest_after_degc=hottest_degc,
        verdict_after=trial.after.verdict,
        verdict_reason=_verdict_reason(trial, units),
        side_effects=tuple(effect.text for effect in effects),
        spoils=any(effect.spoils for effect in effects),
    )


def _verdict_reason(trial: Trial, units: UnitSystem) -> str:
    """Return what then decides, in a sentence."""
    deciding = trial.after.deciding_case
    if deciding is None:
        return ""
    hottest, margin_k = deciding.limiting_ambient_degc, deciding.margin_k
    if hottest is None or margin_k is None:
        return f"{deciding.name} then decides, and has no hottest day."
    stands = f"stands {show_quantity(hottest, Dimension.TEMPERATURE, units)}"
    margin = show_quantity(abs(margin_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    side = "above" if margin_k >= 0 else "below"
    if deciding.case_id == trial.case.case_id:
        return f"{deciding.name} then {stands}, {margin} {side} the design day."
    return f"{deciding.name} then decides: it {stands}, {margin} {side} its design day."


def _without_rungs(base: Assessment, case: CaseResult | None) -> Ladder:
    """Return the ladder of a pack that cannot be judged."""
    reasons = [reason for one in base.cases for reason in one.reasons]
    return Ladder(
        case_id=None if case is None else case.case_id,
        case_name="" if case is None else case.name,
        rungs=(),
        too_little_count=0,
        harmful_count=0,
        reason=reasons[0] if reasons else "The pack cannot be judged, so no change of it can.",
    )


def _why_no_rung(case: CaseResult, units: UnitSystem) -> str:
    if case.limiting_ambient_degc is None:
        return f"No single change gives {case.name} a hottest day."
    least = show_quantity(LEAST_WORTH_K, Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"No single change buys {case.name} {least} or more."
