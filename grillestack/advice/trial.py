"""One changed project tried out: what it buys one duty case, and whether it does harm."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from grillestack.advice.change import Candidate
from grillestack.advice.side_effects import costs_another_case_its_day, side_effects
from grillestack.assess.result import Assessment, CaseResult, Verdict
from grillestack.units.display import UnitSystem

LEAST_WORTH_K: Final = 0.2
# A hottest day where there was none stands above any number of degrees.
_BEYOND_DEGREES_K: Final = 1e6


class Trial:
    """One candidate, assessed; short-lived. `buys_k` is `None` where there is or was no hottest day."""

    def __init__(self, candidate: Candidate, base: Assessment, case: CaseResult, after: Assessment) -> None:
        self.candidate, self.base, self.case, self.after = candidate, base, case, after
        now = case_of(after, case.case_id)
        self.hottest_degc = None if now is None else now.limiting_ambient_degc
        before_degc = case.limiting_ambient_degc
        self.buys_k = None if before_degc is None or self.hottest_degc is None else self.hottest_degc - before_degc
        self.harmful = after.verdict is Verdict.UNKNOWN or costs_another_case_its_day(base, after, case.case_id)
        self.spoils = any(effect.spoils for effect in side_effects(base, after, UnitSystem.METRIC))

    @property
    def worth_k(self) -> float:
        """Return what orders trials: degrees; a hottest day where there was none beats them all."""
        if self.hottest_degc is None:
            return -math.inf
        return _BEYOND_DEGREES_K + self.hottest_degc if self.buys_k is None else self.buys_k


def best_of(trials: Iterable[Trial]) -> Trial:
    """Return the trial that buys most; one that spoils or harms something only where no better one is worth it."""

    def rank(trial: Trial) -> tuple[bool, bool, float]:
        worth_it = trial.worth_k >= LEAST_WORTH_K
        return worth_it and not trial.harmful, worth_it and not trial.spoils, trial.worth_k

    return max(trials, key=rank)


def case_of(assessment: Assessment, case_id: str) -> CaseResult | None:
    """Return what an assessment says of one duty case."""
    return next((case for case in assessment.cases if case.case_id == case_id), None)
