"""The further answers in words and figures; expected figures are sums done by hand from the invented answers."""

import dataclasses
import itertools

import pytest

from grillestack.advice.ladder import Ladder, Rung
from grillestack.app.panels import further_words as words
from grillestack.assess.over_time import Cooling, OverTime, TimePoint
from grillestack.assess.result import Verdict
from grillestack.assess.waterfall import Waterfall, WaterfallStep
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from tests.app.workers.made import band

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH


def steps(*days_degc):
    names = ("Opening and grille", "Condenser", "Leaks")
    pairs = itertools.pairwise(days_degc)
    return Waterfall(
        case_name="Grade pull",
        start_degc=days_degc[0],
        steps=tuple(
            WaterfallStep(name=name, before_degc=before, after_degc=after)
            for name, (before, after) in zip(names, pairs, strict=True)
        ),
    )


def course(**changed):
    usual = OverTime(
        from_case_name="Motorway",
        to_case_name="Grade pull",
        start_degc=88.0,
        steady_degc=110.0,
        limit_degc=107.0,
        thermostat_degc=88.0,
        time_to_limit_s=338.4,
        points=tuple(TimePoint(60.0 * n, 88.0 + 2.0 * n) for n in range(11)),
        cooling=None,
        capacity_j_per_k=1e5,
        basis=(),
        notes=(),
    )
    return dataclasses.replace(usual, **changed)


def rung(buys_k=6.4, *, spoils=False, title="Leave out the condenser"):
    return Rung(
        title=title,
        words="Refrigerant is for licensed people only.",
        project=Project(),
        parts=("condenser-1",),
        buys_k=buys_k,
        hottest_before_degc=None if buys_k is None else 38.0,
        hottest_after_degc=44.4,
        verdict_after=Verdict.PASS,
        verdict_reason="Grade pull then stands 44 °C, 6.4 K above the design day.",
        side_effects=("also brings the charge air 2.0 K over its limit",) if spoils else (),
        spoils=spoils,
    )


def rungs(*found, too_little=0, harmful=0, reason=""):
    return Ladder(
        case_id="case-1",
        case_name="Grade pull",
        rungs=found,
        too_little_count=too_little,
        harmful_count=harmful,
        reason=reason,
    )


def test_band_in_whole_degrees_and_in_those_of_the_other_system():
    assert words.band_words(band(40.0), METRIC) == "36–45"
    # 36 °C = 96.8 °F, 45 °C = 113 °F
    assert words.band_words(band(40.0), INCH) == "97–113"


def test_band_whose_low_end_has_no_day_says_so():
    assert words.band_words(dataclasses.replace(band(), p10_degc=None), METRIC) == "no day – 45"


@pytest.mark.parametrize(
    ("share_frac", "said"),
    [(0.64, "64 %"), (0.0, "none"), (0.004, "under 1 %"), (0.995, "over 99 %"), (1.0, "over 99 %"), (0.5, "50 %")],
)
def test_chance_is_never_called_sure(share_frac, said):
    assert words.chance_words(dataclasses.replace(band(), meets_design_day_frac=share_frac)) == said


def test_sureness_names_band_unit_and_chance():
    said = words.sureness_words(band(), METRIC)
    assert "1000 packs" in said
    assert "36–45 °C" in said
    assert "64 %" in said


def test_waterfall_in_words_adds_up():
    # 60.0 − 1.5 − 20.0 + 0.5 = 39.0
    said = words.degrees_words(steps(60.0, 58.5, 38.5, 39.0), METRIC)
    assert said == (
        "The radiator alone in an open nose would stand a day of 60 °C. 1.5 K go to opening and grille. 20.0 K go to condenser. "
        "0.5 K come back from leaks. That leaves 39 °C, the pack as it stands."
    )


def test_waterfall_in_words_names_what_costs_nothing_and_what_has_no_answer():
    said = words.degrees_words(steps(60.0, 60.0, None, None), METRIC)
    assert "Nothing goes to opening and grille." in said
    assert "For condenser there is no answer. For leaks there is no answer." in said
    assert said.endswith("The pack as it stands has no hottest day.")
    assert words.degrees_words(steps(None, None, None, None), METRIC).startswith("Even the radiator alone")


def test_what_all_steps_do_together():
    assert words.lost_words(steps(60.0, 58.5, 38.5, 39.0), METRIC) == "−21.0 K in all"
    # 21 K are 37.8 °F
    assert words.lost_words(steps(60.0, 58.5, 38.5, 39.0), INCH) == "−37.8 °F in all"
    assert words.lost_words(steps(60.0, 58.5, 38.5, None), METRIC) == "no day"


def test_steps_carry_their_sign():
    found = steps(60.0, 58.5, 58.52, 59.0)
    assert [words.step_words(step, METRIC) for step in found.steps] == ["−1.5 K", "nothing", "+0.48 K"]


def test_best_change_is_one_that_spoils_nothing():
    assert words.best_words(rungs(rung(2.0), rung(9.0, spoils=True)), METRIC) == "best +2.0 K"
    assert words.best_words(rungs(rung(9.0, spoils=True)), METRIC) == "each brings something over its limit"
    assert words.best_words(rungs(reason="No single change."), METRIC) == "nothing found"
    assert words.best_words(rungs(rung(None)), METRIC) == "best to 44 °C"


def test_what_is_left_out_is_counted():
    assert words.left_out_words(rungs(too_little=1, harmful=2)) == (
        "1 other change tried would buy too little to count. 2 other changes would cost another duty case its design day."
    )
    assert words.left_out_words(rungs()) == ""


@pytest.mark.parametrize(
    ("seconds_s", "said"),
    [
        (11.3, "11 s"),
        (59.6, "1 min"),
        (338.4, "5 min 40 s"),
        (594.0, "9 min 50 s"),
        (596.0, "10 min"),
        (9000.0, "2.5 h"),
    ],
)
def test_times_are_told_as_one_would_tell_them(seconds_s, said):
    assert words.duration_words(seconds_s) == said


def test_course_that_reaches_the_limit_and_one_that_does_not():
    assert words.over_time_words(course(), METRIC) == (
        "The coolant starts at 88 °C and reaches its limit of 107 °C after 5 min 40 s."
    )
    assert words.limit_reached_words(course()) == "limit after 5 min 40 s"
    spared = course(steady_degc=100.7, time_to_limit_s=None)
    assert words.over_time_words(spared, METRIC) == (
        "The coolant starts at 88 °C and settles at 101 °C: the limit of 107 °C is never reached, 6.3 K are to spare."
    )
    assert words.limit_reached_words(spared) == "limit never reached"


def test_course_that_begins_at_the_limit():
    there = course(start_degc=108.0, time_to_limit_s=0.0)
    assert "stands at 108 °C before the load comes" in words.over_time_words(there, METRIC)
    lost = course(start_degc=None, time_to_limit_s=0.0, points=())
    assert "Motorway by itself never settles" in words.over_time_words(lost, METRIC)
    assert words.limit_reached_words(lost) == "at the limit from the start"


def test_course_tells_how_it_cools_afterwards():
    cooling = Cooling(
        case_name="Idle with A/C",
        begin_degc=107.0,
        end_degc=88.0,
        half_s=61.0,
        sixty_three_s=80.0,
        fan_on_degc=95.0,
        fan_on_s=50.8,
        points=(),
    )
    said = words.over_time_words(course(cooling=cooling), METRIC)
    assert said.endswith(
        "Then, in Idle with A/C, it falls from 107 °C to 95 °C, where a fan switch usually closes, within 51 s."
    )
    never = dataclasses.replace(cooling, fan_on_s=None)
    assert words.over_time_words(course(cooling=never), METRIC).endswith("it never falls to 95 °C.")


def test_a_figure_stays_with_its_unit():
    assert words.kept_together("5.6 K and 44 °C, 3 % of 12 mm; 2 others") == (
        "5.6\u00a0K and 44\u00a0°C, 3\u00a0% of 12\u00a0mm; 2\u00a0others"
    )
