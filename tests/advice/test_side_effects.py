"""What else a change does."""

from __future__ import annotations

import pytest

from grillestack.advice.side_effects import costs_another_case_its_day, side_effects
from grillestack.assess.result import Verdict
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

GOOD = example.passing()  # charge air 61 °C of 75 °C, loss 6.2 of 13.5 kPa, condensing at 58 °C


def _effects(before, after):
    return [(effect.text, effect.spoils) for effect in side_effects(before, after, UnitSystem.METRIC)]


def _charge(out_degc: float):
    return example.with_case(GOOD, charge_out_degc=out_degc)


def test_a_pack_compared_with_itself_has_no_side_effects():
    for pack in (GOOD, example.failing(), example.unknown()):
        assert _effects(pack, pack) == []


@pytest.mark.parametrize(
    ("before_degc", "after_degc", "words", "spoils"),
    [
        (61.0, 79.0, "also brings the charge air 4.0 K over its limit (Grade pull)", True),
        (79.0, 82.0, "also takes the charge air further over its limit, by 7.0 K now (Grade pull)", True),
        (79.0, 70.0, "also brings the charge air back within its limit", False),
        (61.0, 73.5, "also brings the charge air within 1.5 K of its limit (Grade pull)", False),
    ],
)
def test_charge_air_that_passes_its_limit_is_told(before_degc, after_degc, words, spoils):
    assert _effects(_charge(before_degc), _charge(after_degc)) == [(words, spoils)]


@pytest.mark.parametrize(("before_degc", "after_degc"), [(61.0, 71.0), (73.0, 74.0), (79.0, 78.0), (79.0, 79.05)])
def test_what_changes_no_verdict_of_the_charge_air_is_not_told(before_degc, after_degc):
    assert _effects(_charge(before_degc), _charge(after_degc)) == []


def test_pressure_loss_and_condenser_are_told_too():
    lossy = example.with_case(GOOD, charge_loss_pa=15_000.0)
    assert _effects(GOOD, lossy) == [("also brings the charge pressure loss 1.5 kPa over its limit (Grade pull)", True)]
    hot = example.with_case(GOOD, 4, condensing_degc=81.0, limiting_ambient_degc=47.0)
    assert _effects(GOOD, hot) == [("also brings the condenser 6.0 K over its limit (Idle with A/C)", True)]


def test_the_worst_case_is_the_one_that_is_told():
    two = example.with_case(_charge(77.0), 3, charge_out_degc=79.0, limiting_ambient_degc=51.0)
    assert _effects(GOOD, two) == [("also brings the charge air 4.0 K over its limit (Motorway)", True)]


def test_a_figure_that_was_not_known_before_counts_as_within_its_limit():
    blind = example.with_case(GOOD)
    for number in (1, 2, 3, 4):
        blind = example.with_case(blind, number, charge_out_degc=None)
    assert _effects(blind, _charge(79.0))[0][1]


@pytest.mark.parametrize(
    ("before_degc", "after_degc", "costs"),
    [
        (45.0, 40.0, False),
        (45.0, 37.0, True),
        (37.0, 36.0, True),
        (37.0, 37.5, False),
        (45.0, None, True),
        (None, None, False),
    ],
)
def test_another_case_that_misses_its_design_day_is_harm(before_degc, after_degc, costs):
    before = example.with_case(GOOD, 2, limiting_ambient_degc=before_degc)
    after = example.with_case(GOOD, 2, Verdict.FAIL, limiting_ambient_degc=after_degc)
    assert costs_another_case_its_day(before, after, "case-1") == costs


def test_the_case_that_counts_is_no_other_case():
    after = example.with_case(GOOD, 1, Verdict.FAIL, limiting_ambient_degc=20.0)
    assert not costs_another_case_its_day(GOOD, after, "case-1")
    assert costs_another_case_its_day(GOOD, after, "case-2")
