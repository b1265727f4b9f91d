"""The rules of the verdict, case by case."""

from __future__ import annotations

import pytest

from grillestack.assess.result import CaseResult, Verdict
from grillestack.assess.verdict import case_verdict, deciding_case, pack_verdict


def _case(name: str = "Case", limiting: float | None = 45.0, **given: object) -> CaseResult:
    return CaseResult(
        case_id=name.lower(),
        name=name,
        verdict=Verdict.UNKNOWN,
        heat_target_w=50_000.0,
        limiting_ambient_degc=limiting,
        design_ambient_degc=38.0,
        charge_out_limit_degc=75.0,
        charge_loss_limit_pa=13_500.0,
        **given,
    )


@pytest.mark.parametrize(
    ("limiting", "verdict"),
    [
        (37.99, Verdict.FAIL),
        (38.0, Verdict.CLOSE),
        (41.0, Verdict.CLOSE),
        (41.01, Verdict.PASS),
        (None, Verdict.FAIL),
    ],
)
def test_margin_below_zero_fails_and_up_to_three_kelvin_is_close(limiting, verdict):
    assert case_verdict(_case(limiting=limiting), settled=True).verdict is verdict


@pytest.mark.parametrize(
    ("charge_out", "loss", "verdict"),
    [
        (60.0, 8_000.0, Verdict.PASS),
        (72.5, 8_000.0, Verdict.CLOSE),
        (75.0, 8_000.0, Verdict.CLOSE),
        (75.1, 8_000.0, Verdict.FAIL),
        (60.0, 13_600.0, Verdict.FAIL),
        (60.0, None, Verdict.FAIL),
    ],
)
def test_charge_air_over_its_limits_fails(charge_out, loss, verdict):
    case = _case(charge_out_degc=charge_out, charge_loss_pa=loss)
    assert case_verdict(case, settled=True).verdict is verdict


def test_what_did_not_settle_is_not_known_unless_it_fails_anyway():
    assert case_verdict(_case(limiting=None), settled=False).verdict is Verdict.UNKNOWN
    hot = _case(limiting=None, charge_out_degc=90.0, charge_loss_pa=100.0)
    assert case_verdict(hot, settled=False).verdict is Verdict.FAIL


def _judged(*verdicts: Verdict) -> list[CaseResult]:
    return [CaseResult(case_id=str(n), name=str(n), verdict=verdict) for n, verdict in enumerate(verdicts)]


def test_a_known_fail_beats_unknown_and_unknown_beats_close():
    assert pack_verdict(_judged(Verdict.PASS, Verdict.UNKNOWN, Verdict.FAIL)) is Verdict.FAIL
    assert pack_verdict(_judged(Verdict.PASS, Verdict.UNKNOWN, Verdict.CLOSE)) is Verdict.UNKNOWN
    assert pack_verdict(_judged(Verdict.PASS, Verdict.CLOSE)) is Verdict.CLOSE
    assert pack_verdict(_judged(Verdict.PASS, Verdict.PASS)) is Verdict.PASS
    assert pack_verdict([]) is Verdict.UNKNOWN


def test_deciding_case_has_the_smallest_margin_and_is_the_first_on_ties():
    cases = [
        case_verdict(_case(name, limiting), settled=True) for name, limiting in (("A", 45.0), ("B", 40.0), ("C", 40.0))
    ]
    assert deciding_case(cases).name == "B"


def test_a_case_without_any_hottest_day_decides():
    cases = [case_verdict(_case(name, limiting), settled=True) for name, limiting in (("A", 20.0), ("B", None))]
    assert deciding_case(cases).name == "B"


def test_an_unknown_case_does_not_decide():
    known = case_verdict(_case("Known", 50.0), settled=True)
    assert deciding_case([CaseResult(case_id="u", name="U", verdict=Verdict.UNKNOWN), known]) is known
