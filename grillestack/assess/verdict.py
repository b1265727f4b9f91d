"""Whether a case, and a pack, passes."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Final

from grillestack.assess.result import CaseResult, Verdict

CLOSE_MARGIN_K: Final = 3.0
CLOSE_CHARGE_K: Final = 3.0
# A known fail beats not knowing, and not knowing beats being close.
_WORST_FIRST: Final = (Verdict.FAIL, Verdict.UNKNOWN, Verdict.CLOSE, Verdict.PASS)


def case_verdict(case: CaseResult, *, settled: bool) -> CaseResult:
    """Return the case with its verdict; `settled` says whether the solver found what it was asked."""
    return dataclasses.replace(case, verdict=_judged(case, settled=settled))


def pack_verdict(cases: Sequence[CaseResult]) -> Verdict:
    """Return the verdict over all duty cases."""
    if not cases:
        return Verdict.UNKNOWN
    return min((case.verdict for case in cases), key=_WORST_FIRST.index)


def deciding_case(cases: Sequence[CaseResult]) -> CaseResult | None:
    """Return the case with the smallest margin, the first on ties; no hottest day at all is the smallest margin."""
    judged = [case for case in cases if case.verdict is not Verdict.UNKNOWN]
    if not judged:
        return None
    return min(judged, key=lambda case: float("-inf") if case.margin_k is None else case.margin_k)


def _judged(case: CaseResult, *, settled: bool) -> Verdict:
    hot = _over(case.charge_out_degc, case.charge_out_limit_degc)
    lossy = _over(case.charge_loss_pa, case.charge_loss_limit_pa)
    stuck = case.charge_out_degc is not None and case.charge_loss_pa is None
    margin = case.margin_k
    if hot or lossy or stuck or (margin is not None and margin < 0.0):
        return Verdict.FAIL
    if not settled:
        return Verdict.UNKNOWN
    if margin is None:
        return Verdict.FAIL
    if margin <= CLOSE_MARGIN_K or _over(case.charge_out_degc, case.charge_out_limit_degc, CLOSE_CHARGE_K):
        return Verdict.CLOSE
    return Verdict.PASS


def _over(value: float | None, limit: float | None, within: float = 0.0) -> bool:
    return value is not None and limit is not None and value > limit - within
