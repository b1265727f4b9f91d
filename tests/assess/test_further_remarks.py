"""What is said of further coolers."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.result import Severity
from grillestack.model.parts import TubeFluid
from tests.assess.test_further_coolers import BARE, LOW, OIL, pack_with


def _said(cooler, x_mm: float = 90.0):
    remarks = assess(pack_with(cooler, x_mm)).remarks
    return [one for one in remarks if cooler.name in one.text and "only the type" not in one.text]


def test_a_cooler_of_which_all_is_typed_is_not_spoken_of():
    assert not _said(OIL)
    assert not _said(LOW)
    assert not _said(replace(BARE, given_heat_w=4_000.0))


def test_what_is_missing_is_named_with_the_two_ways_to_have_it():
    (remark,) = _said(BARE)
    assert remark.severity is Severity.NOTE
    assert remark.text == (
        "What “Oil cooler” gives off is not known, so it warms no air here: type its heat, "
        "or what flows through it, how hot it comes in and how much."
    )


@pytest.mark.parametrize(
    ("missing", "words"),
    [
        ({"tube_fluid": None}, "type its heat, or what flows through it."),
        ({"tube_inlet_degc": None}, "type its heat, or how hot it comes in."),
        (
            {"tube_flow_m3_s": None, "tube_inlet_degc": None},
            "type its heat, or how hot it comes in and how much flows.",
        ),
    ],
)
def test_what_is_typed_already_is_not_asked_for_again(missing, words):
    (remark,) = _said(replace(OIL, **missing))
    assert remark.text.endswith(words)


def test_a_typed_heat_beside_an_inlet_temperature_wins_and_that_is_said():
    (remark,) = _said(replace(OIL, given_heat_w=4_000.0))
    assert "the heat is used" in remark.text
    assert "Remove the heat" in remark.text


@pytest.mark.parametrize(("liquid", "inlet_degc", "words"), [
    (TubeFluid.OIL, 190.0, "oil are known from -20 to 160 °C"),
    (TubeFluid.COOLANT, 150.0, "coolant are known from -10 to 130 °C"),
])  # fmt: skip
def test_what_comes_in_outside_the_known_properties_is_said(liquid, inlet_degc, words):
    (remark,) = _said(replace(OIL, tube_fluid=liquid, tube_inlet_degc=inlet_degc))
    assert words in remark.text
    assert "check the inlet temperature" in remark.text


def test_a_cooler_that_is_warmed_is_told_with_its_duty_cases():
    remark = _said(replace(LOW, tube_inlet_degc=40.0), 250.0)[0]
    assert remark.severity is Severity.WARNING
    assert "In “Warm day”" in remark.text
    assert "warmed, not cooled" in remark.text
