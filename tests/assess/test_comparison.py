"""How the figures of a comparison read: signs, limits, and what no number can say."""

from __future__ import annotations

from dataclasses import replace as change

import pytest

from grillestack.assess.compare import comparison_of
from grillestack.assess.comparison import Amount, Figure
from grillestack.assess.result import Verdict
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from tests.advice import example_assessments as example

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH


def figure(dimension: Dimension, other: float | None, in_hand: float | None) -> Figure:
    difference = None if other is None or in_hand is None else in_hand - other
    return Figure(
        label="x",
        dimension=dimension,
        other=Amount(value=other),
        in_hand=Amount(value=in_hand),
        difference=difference,
    )


@pytest.mark.parametrize(
    ("dimension", "other", "in_hand", "units", "words"),
    [
        (Dimension.TEMPERATURE, 35.0, 38.5, METRIC, "+3.5 K"),
        # 3.5 K are 3.5 × 1.8 = 6.3 Fahrenheit degrees; the 32 of the scale's nought may not come in.
        (Dimension.TEMPERATURE, 35.0, 38.5, INCH, "+6.3 °F"),
        (Dimension.TEMPERATURE, 38.5, 35.0, METRIC, "-3.5 K"),
        (Dimension.AREA, 10_000.0, 5_000.0, METRIC, "-50 cm²"),
        (Dimension.LENGTH, 100.0, 125.4, INCH, "+1 in"),
        (Dimension.MASS, 5.0, 5.0, METRIC, "same"),
        (Dimension.TEMPERATURE, 35.0, 35.0 + 1e-9, METRIC, "same"),
        (Dimension.MASS, None, 5.0, METRIC, ""),
    ],
)
def test_a_difference_is_that_of_the_layout_in_hand_from_the_other(dimension, other, in_hand, units, words):
    assert figure(dimension, other, in_hand).difference_words(units) == words


def test_words_that_are_equal_are_the_same_and_unknown_ones_are_not():
    def of(other: Amount, in_hand: Amount) -> Figure:
        return Figure(label="x", dimension=Dimension.AREA, other=other, in_hand=in_hand, difference=None)

    assert of(Amount(words="fail"), Amount(words="fail")).difference_words(METRIC) == "same"
    assert of(Amount(words="fail"), Amount(words="pass")).difference_words(METRIC) == ""
    assert of(Amount(), Amount()).difference_words(METRIC) == ""


def test_a_figure_over_its_limit_says_so_and_one_at_it_does_not():
    over = Amount(value=81.0, limit=75.0)
    assert over.shown(Dimension.TEMPERATURE, METRIC) == "81 °C, over 75 °C"
    assert change(over, value=75.0).shown(Dimension.TEMPERATURE, METRIC) == "75 °C"
    assert change(over, limit=None).shown(Dimension.TEMPERATURE, METRIC) == "81 °C"


def test_a_margin_carries_its_sign():
    assert Amount(value=2.0).shown(Dimension.TEMPERATURE_DIFFERENCE, METRIC) == "+2.0 K"
    assert Amount(value=-2.0).shown(Dimension.TEMPERATURE_DIFFERENCE, METRIC) == "-2.0 K"


def named(assessment, name):
    return example.with_project(assessment, variant_name=name)


def headline(other, in_hand, units=METRIC):
    return comparison_of(named(other, "A"), named(in_hand, "B")).headline(units)


def no_day():
    good = example.failing()
    case = change(good.cases[0], limiting_ambient_degc=None)
    return change(good, deciding_case=case, cases=(case, *good.cases[1:]))


def test_the_headline_says_which_stands_the_hotter_day_and_which_passes():
    good, bad = example.passing(), example.failing()
    # By hand: 43.2 − 33.1 = 10.1 K.
    assert headline(bad, good) == "“B” stands a day 10.1 K hotter than “A”; “A” fails, “B” passes."
    assert headline(good, bad) == "“B” stands a day 10.1 K cooler than “A”; “A” passes, “B” fails."
    assert headline(good, good) == "“B” stands as hot a day as “A”; both pass."
    assert headline(good, example.close()).endswith("“A” passes, “B” is close.")


def test_the_headline_says_where_no_day_is_cold_enough_or_nothing_is_known():
    good = example.passing()
    assert headline(no_day(), good) == "No day is cold enough for “A”; “A” fails, “B” passes."
    assert headline(no_day(), no_day()) == "No day is cold enough for “A” or for “B”; both fail."
    assert headline(example.unknown(), good) == (
        "Which of the two stands the hotter day is not known, as the hottest day of “A” is not; "
        "“A” cannot be judged yet, “B” passes."
    )


@pytest.mark.parametrize("verdict", list(Verdict))
def test_every_verdict_has_its_words(verdict):
    good = change(example.passing(), verdict=verdict)
    assert headline(good, good).endswith((" pass.", " are close.", " fail.", " judged yet."))
