"""A ladder in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.advice.ladder import Ladder, Rung
from grillestack.advice.ladder_words import left_out_in_words, rung_in_words
from grillestack.assess.result import Verdict
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

RUNG = Rung(
    title="Clean the cores",
    words="Washed from behind.",
    project=Project(),
    parts=(),
    buys_k=1.2,
    hottest_before_degc=36.0,
    hottest_after_degc=37.2,
    verdict_after=Verdict.FAIL,
    verdict_reason="",
    side_effects=(),
    spoils=False,
)
LADDER = Ladder(case_id="case-1", case_name="Crawl", rungs=(RUNG,), too_little_count=0, harmful_count=0, reason="")


def test_a_rung_is_its_title_and_its_degrees():
    assert rung_in_words(RUNG) == "Clean the cores: buys 1.2 K."
    # By hand: 1.2 K are 2.16 °F.
    assert rung_in_words(RUNG, UnitSystem.INCH) == "Clean the cores: buys 2.2 °F."


def test_a_rung_tells_what_else_it_brings():
    rung = replace(RUNG, side_effects=("also does this", "also does that"))
    assert rung_in_words(rung) == "Clean the cores: buys 1.2 K, also does this, also does that."


def test_a_first_hottest_day_is_no_number_of_degrees():
    rung = replace(RUNG, buys_k=None, hottest_before_degc=None, hottest_after_degc=-5.0)
    assert rung_in_words(rung) == "Clean the cores: gives a hottest day of -5 °C where there is none."


@pytest.mark.parametrize(
    ("too_little", "harmful", "words"),
    [
        (0, 0, ""),
        (1, 0, "1 other change tried would buy less than 0.2 K."),
        (4, 0, "4 other changes tried would buy less than 0.2 K."),
        (0, 1, "1 other change would cost another duty case its design day."),
        (
            2,
            3,
            "2 other changes tried would buy less than 0.2 K. 3 other changes would cost another duty case its design day.",
        ),
    ],
)
def test_what_is_left_out_is_counted(too_little, harmful, words):
    assert left_out_in_words(replace(LADDER, too_little_count=too_little, harmful_count=harmful)) == words
