"""Figures of a duty case in words."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.panels.duty_figures import duty_figures, hottest_day_words, top_tank_words
from grillestack.assess.result import Verdict
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH


def test_every_figure_has_its_unit():
    figures = dict(duty_figures(example.case(), example.project(), METRIC))
    assert figures["Air through radiator"] == "1.234 kg/s"
    assert figures["Charge loss, core"] == "6.2 of 13.5 kPa"
    assert figures["Air drawn round again"] == "0 %"


def test_units_follow():
    # 95 kW are 5403 BTU/min, 61 °C are 141.8 °F, 75 °C are 167 °F
    figures = dict(duty_figures(example.case(), example.project(), INCH))
    assert figures["Heat to shed"] == "5403 BTU/min"
    assert figures["Charge air out"] == "142 of 167 °F"


def test_a_core_that_is_not_there_is_not_called_unknown():
    bare = replace(example.project(), parts=(example.RADIATOR,))
    case = example.case(charge_out_degc=None, charge_loss_pa=None, condensing_degc=None)
    figures = dict(duty_figures(case, bare, METRIC))
    assert figures["Charge air out"] == figures["Condensing"] == "none in the pack"
    assert dict(duty_figures(case, example.project(), METRIC))["Charge air out"] == "not known, limit 75 °C"


def test_labels_are_the_same_whatever_is_known():
    known = [label for label, _ in duty_figures(example.case(), example.project(), METRIC)]
    unknown = [label for label, _ in duty_figures(example.unknown().cases[0], example.project(), METRIC)]
    assert known == unknown


def test_no_day_at_all_is_told_from_a_day_nobody_knows():
    assert hottest_day_words(example.case(1, Verdict.FAIL, limiting_ambient_degc=None), METRIC) == "no day"
    assert hottest_day_words(example.case(1, Verdict.UNKNOWN, limiting_ambient_degc=None), METRIC) == "not known"
    assert hottest_day_words(None, METRIC) == "not known"


def test_top_tank_stands_against_its_limit():
    assert top_tank_words(example.case(top_tank_degc=111.6), METRIC) == "112 of 107 °C"
    assert top_tank_words(example.case(top_tank_degc=None), METRIC) == "not known"
