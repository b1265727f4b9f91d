"""What a part costs the pack: the pack assessed with it, beside the pack with its slot empty."""

from __future__ import annotations

from grillestack.assess.result import Assessment, CaseResult
from grillestack.fit.result import Cost


def cost_of(empty: Assessment, after: Assessment) -> Cost:
    """Return what the pack does with the part; `empty` is the assessment with nothing in the slot."""
    deciding = after.deciding_case
    now, before = after.radiator, empty.radiator
    lost = None if now is None or before is None else before.exposed_mm2 - now.exposed_mm2
    if now is not None and before is None:
        # The slot is the radiator's own: what it lacks of its core's face is what is lost.
        lost = now.core_mm2 - now.exposed_mm2
    warmest = max((case for case in after.cases if case.charge_out_degc is not None), key=_over_k, default=None)
    tightest = max((case for case in after.cases if case.charge_loss_pa is not None), key=_over_pa, default=None)
    return Cost(
        verdict=after.verdict,
        hottest_degc=None if deciding is None else deciding.limiting_ambient_degc,
        margin_k=None if deciding is None else deciding.margin_k,
        face_mm2=None if now is None else now.core_mm2,
        face_lost_mm2=lost,
        tanks_mm2=None if now is None else now.blocked_mm2 - (0.0 if before is None else before.blocked_mm2),
        charge_out_degc=None if warmest is None else warmest.charge_out_degc,
        charge_out_limit_degc=None if warmest is None else warmest.charge_out_limit_degc,
        charge_loss_pa=None if tightest is None else tightest.charge_loss_pa,
        charge_loss_limit_pa=None if tightest is None else tightest.charge_loss_limit_pa,
    )


def _over_k(case: CaseResult) -> float:
    return (case.charge_out_degc or 0.0) - (case.charge_out_limit_degc or 0.0)


def _over_pa(case: CaseResult) -> float:
    return (case.charge_loss_pa or 0.0) - (case.charge_loss_limit_pa or 0.0)
