"""Rules about media that come out too hot. Limits: common practice, no source, unless named."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.advice import heat
from grillestack.assess.result import Severity, Verdict
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def test_a_case_short_of_the_design_day_says_by_how_much():
    pack = example.with_case(example.passing(), verdict=Verdict.FAIL, limiting_ambient_degc=33.1)
    (finding,) = found_by(heat.hottest_day_below_design_day, pack)
    assert finding.severity is Severity.SERIOUS
    assert finding.text.startswith("Grade pull: the hottest day is 33 °C, 4.9 K below the design day of 38 °C.")
    assert finding.parts == ("radiator-1",)


def test_a_margin_of_up_to_three_kelvin_is_a_warning_as_the_verdict_has_it():
    near = example.with_case(example.passing(), limiting_ambient_degc=40.9)
    (finding,) = found_by(heat.hottest_day_below_design_day, near)
    assert finding.severity is Severity.WARNING
    assert "only 2.9 K above" in finding.text
    assert found_by(heat.hottest_day_below_design_day, example.with_case(near, limiting_ambient_degc=41.1)) == []


def test_at_speed_the_remedy_is_no_fan():
    fast = example.with_case(example.passing(), 3, limiting_ambient_degc=30.0)
    slow = example.with_case(example.passing(), 2, limiting_ambient_degc=30.0)
    assert "a fan does little" in found_by(heat.hottest_day_below_design_day, fast)[0].text
    assert "by fan and shroud" in found_by(heat.hottest_day_below_design_day, slow)[0].text


def test_a_failing_case_without_any_hottest_day_is_said_but_a_case_without_target_is_not():
    pack = example.with_case(example.passing(), verdict=Verdict.FAIL, limiting_ambient_degc=None)
    (finding,) = found_by(heat.no_hottest_day, pack)
    assert "on any day" in finding.text
    assert found_by(heat.no_hottest_day, example.unknown()) == []
    said = example.with_case(
        pack, verdict=Verdict.FAIL, limiting_ambient_degc=None, reasons=("There is no hottest day.",)
    )
    assert found_by(heat.no_hottest_day, said) == []


def test_charge_air_over_its_limit_is_serious_and_near_it_a_warning():
    over = example.with_case(example.passing(), charge_out_degc=81.0)
    near = example.with_case(example.passing(), charge_out_degc=73.0)
    (serious,), (warning,) = found_by(heat.charge_air_too_hot, over), found_by(heat.charge_air_too_hot, near)
    assert serious.severity is Severity.SERIOUS
    assert "6.0 K over the limit of 75 °C" in serious.text
    assert serious.parts == ("charge-air-cooler-1",)
    assert warning.severity is Severity.WARNING
    assert "only 2.0 K under the limit" in warning.text


def test_charge_air_at_its_limit_or_three_kelvin_under_it():
    at = example.with_case(example.passing(), charge_out_degc=75.0)
    assert found_by(heat.charge_air_too_hot, at)[0].severity is Severity.WARNING
    assert found_by(heat.charge_air_too_hot, example.with_case(at, charge_out_degc=72.0)) == []


def test_only_the_hottest_charge_air_is_spoken_of():
    pack = example.with_case(example.with_case(example.passing(), 1, charge_out_degc=78.0), 3, charge_out_degc=84.0)
    (finding,) = found_by(heat.charge_air_too_hot, pack)
    assert finding.text.startswith("Motorway: ")


def test_a_charge_flow_from_the_rated_power_is_called_an_estimate():
    good = example.passing()
    assert found_by(heat.charge_flow_estimated, good) == []
    guessed = example.with_project(
        good, engine=replace(good.project.engine, charge_flow_kg_s=None, rated_power_w=1.5e5)
    )
    (finding,) = found_by(heat.charge_flow_estimated, guessed)
    assert finding.parts == ("charge-air-cooler-1",)


def test_charge_loss_over_its_limit_says_that_pipes_are_not_counted():
    pack = example.with_case(example.passing(), charge_loss_pa=14_200.0)
    (finding,) = found_by(heat.charge_loss_too_high, pack)
    assert "14.2 kPa" in finding.text
    assert "13.5 kPa" in finding.text
    assert "pipes are not counted" in finding.text
    assert found_by(heat.pipes_not_counted, pack) == []
    assert found_by(heat.charge_loss_too_high, example.passing()) == []
    assert len(found_by(heat.pipes_not_counted, example.passing())) == 1


def test_condensing_over_75_degrees_warns_of_the_cut_out():
    pack = example.with_case(example.passing(), 4, condensing_degc=81.0)
    (finding,) = found_by(heat.condensing_too_hot, pack)
    assert finding.text.startswith("Idle with A/C: the condenser would condense at 81 °C")
    assert found_by(heat.condensing_too_hot, example.with_case(pack, 4, condensing_degc=75.0)) == []


def test_a_heat_target_from_the_rated_power_is_called_an_estimate():
    good = example.passing()
    assert found_by(heat.heat_target_estimated, good) == []
    guessed = example.with_project(
        good, engine=replace(good.project.engine, heat_to_coolant_w=None, rated_power_w=1.5e5)
    )
    assert "estimated from the engine's rated power" in found_by(heat.heat_target_estimated, guessed)[0].text


def test_without_any_figure_no_rule_speaks_of_heat():
    pack = example.unknown()
    for rule in (heat.hottest_day_below_design_day, heat.no_hottest_day, heat.heat_target_estimated):
        assert found_by(rule, pack) == []
