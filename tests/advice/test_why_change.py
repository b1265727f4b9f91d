"""What the gain of a change rests on."""

from __future__ import annotations

from dataclasses import replace

from grillestack.advice.ladder import Rung
from grillestack.advice.why_change import why_gain
from grillestack.assess.result import Verdict
from grillestack.model.project import Project

RUNG = Rung(
    title="Close the edges",
    words="",
    project=Project(),
    parts=(),
    buys_k=2.5,
    hottest_before_degc=36.0,
    hottest_after_degc=38.5,
    verdict_after=Verdict.CLOSE,
    verdict_reason="",
    side_effects=(),
    spoils=False,
)


def test_a_gain_shows_both_days_that_it_lies_between():
    found = why_gain(RUNG, "Grade pull")
    assert found.quantity.value == 2.5
    assert [one.quantity.value for one in found.inputs] == [36.0, 38.5]


def test_a_first_day_is_shown_as_a_day_and_what_was_there_as_no_day():
    found = why_gain(replace(RUNG, buys_k=None, hottest_before_degc=None), "Grade pull")
    assert found.quantity.value == 38.5
    assert found.inputs[0].quantity.words == "no day"
