"""Typed texts that are refused: each kind of mistake with its own sentence."""

import math
import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension, QuantityError

LENGTH = "26 3/16 in or 665 mm"


def refusal(text, dimension=Dimension.LENGTH, default_unit=None):
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text, dimension, dimension.internal_unit if default_unit is None else default_unit)
    return str(refused.value)


@pytest.mark.parametrize("text", ["", "   ", "\u00a0\u202f\t\n", "\u200b"])
def test_an_empty_field_is_told_what_to_type(text):
    assert refusal(text) == f"Nothing is typed here: type a length, for example {LENGTH}."


@pytest.mark.parametrize("text", ["mm", "in", "wide", "five mm", "?", "-", "٣ mm", "⅟ in"])
def test_a_text_without_a_number_is_told_so(text):
    assert refusal(text) == f"“{text}” has no number in it: type a number and a unit, for example {LENGTH}."


@pytest.mark.parametrize("text", ["nan", "NaN mm", "inf", "-inf", "+Infinity in", "∞"])
def test_what_cannot_be_measured_is_told_so(text):
    assert refusal(text) == (
        f"“{text}” is not a number that can be measured: type a length in figures, for example {LENGTH}."
    )


@pytest.mark.parametrize("text", ["about 5 mm", "~5", "--5", "mm 5", "(5 mm)", "$5", "L5", "/4"])
def test_the_number_comes_first(text):
    assert refusal(text) == (
        f"“{text}” does not begin with a number: type the number first and then the unit, for example {LENGTH}."
    )


@pytest.mark.parametrize(
    "text",
    [
        "5+3",
        "26 - 3/16",
        "5*3 mm",
        "26.5.3",
        "26 3",
        "26 3/16 1/2",
        "1/2/3",
        "26.5 3/16",
        "600 x 450 mm",
        "600 mm x 450 mm",
        "26 in 5 mm",
        "665 mm +- 1",
        "2' - 3\"",
        "2' -3\"",
        "2.5' 3\"",
        "0x10",
        "5^2 mm",
    ],
)
def test_more_than_one_number_is_not_worked_out(text):
    assert refusal(text) == f"“{text}” holds more than one number: type one quantity only, for example {LENGTH}."


def test_a_vulgar_fraction_between_digits_is_more_than_one_number():
    assert refusal("½5") == f"“1/2 5” holds more than one number: type one quantity only, for example {LENGTH}."


@pytest.mark.parametrize(
    ("text", "tail", "understood"),
    [("665 mm wide", "wide", "665 mm"), ("26 3/16 in approx", "approx", "26 3/16 in"), ("5 ft or so", "or so", "5 ft")],
)
def test_words_after_a_quantity_are_named(text, tail, understood):
    assert refusal(text) == f"“{tail}” after “{understood}” is not understood: leave it out."


@pytest.mark.parametrize(
    ("text", "unit"), [("5 mmm", "mmm"), ("3 furlong", "furlong"), ("5e", "e"), ("26²", "²"), ("5 mm/", "mm/")]
)
def test_an_unknown_unit_is_named(text, unit):
    assert refusal(text) == (
        f"“{unit}” is not a unit known here: type a length with a usual unit, for example {LENGTH}."
    )


@pytest.mark.parametrize(
    ("text", "dimension", "sentence"),
    [
        ("54 kW", Dimension.LENGTH, f"“54 kW” is a power, but this field takes a length: type for example {LENGTH}."),
        ("5 ft2", Dimension.LENGTH, f"“5 ft2” is an area, but this field takes a length: type for example {LENGTH}."),
        (
            "210 F",
            Dimension.POWER,
            "“210 F” is a temperature, but this field takes a power: type for example 54 kW or 3200 BTU/min.",
        ),
        (
            "2' 3\"",
            Dimension.POWER,
            "“2' 3\"” is a length, but this field takes a power: type for example 54 kW or 3200 BTU/min.",
        ),
        (
            "12000 BTU",
            Dimension.POWER,
            "“12000 BTU” is an amount of heat, but this field takes a power: type for example 54 kW or 3200 BTU/min.",
        ),
        (
            "18 Δ°F",
            Dimension.TEMPERATURE,
            (
                "“18 Δ°F” is a temperature difference, but this field takes a temperature: "
                "type for example 99 °C or 210 °F."
            ),
        ),
        (
            "0.2 kg/s",
            Dimension.AIR_FLOW,
            "“0.2 kg/s” is a mass flow, but this field takes an air flow: type for example 0.95 m³/s or 2000 cfm.",
        ),
        (
            "14 %",
            Dimension.COUNT,
            "“14 %” is a share in percent, but this field takes a plain number: type for example 14.",
        ),
        ("5 mm", Dimension.FRACTION, "“5 mm” is a length, but this field takes a share: type for example 60 %."),
    ],
)
def test_a_wrong_dimension_is_told_what_was_given_and_what_was_expected(text, dimension, sentence):
    assert refusal(text, dimension) == sentence


@pytest.mark.parametrize(
    ("dimension", "example_text"),
    [(Dimension.TEMPERATURE, "99 °C or 210 °F"), (Dimension.TEMPERATURE_DIFFERENCE, "10 K or 18 °F")],
)
def test_degrees_of_which_scale_are_asked_for(dimension, example_text):
    assert refusal("99 deg", dimension) == f"“99 deg” does not say which degrees: type for example {example_text}."
    assert refusal("99°", dimension) == f"“99°” does not say which degrees: type for example {example_text}."


def test_commas_are_asked_about():
    assert refusal("26,5 mm") == "Did you mean 26.5 mm? Use a point as the decimal mark, not a comma."
    assert refusal("1,200 mm") == (
        "Did you mean 1200 mm or 1.200 mm? Write thousands without a comma, and use a point as the decimal mark."
    )
    assert refusal("26 mm,") == f"“26 mm,” has a comma in it: use a point as the decimal mark, for example {LENGTH}."


def test_thousands_marks_are_asked_about_and_never_read_as_feet():
    sentence = "Write the digits of a number without gaps or marks between them."
    assert refusal("1'000") == f"Did you mean 1000? {sentence}"
    assert refusal("1\u202f200 mm") == f"Did you mean 1200 mm? {sentence}"


def test_fractions_and_feet_have_their_own_sentences():
    assert refusal("26 3/0") == (
        "“26 3/0” has a fraction with 0 below the line: type the lower number too, for example 26 3/16."
    )
    assert refusal("26 19/16") == (
        "“26 19/16” has a fraction of one or more after a whole number: "
        "the upper number must be the smaller one, for example 26 3/16."
    )
    assert refusal("2' 3 mm") == (
        "“2' 3 mm” has something other than inches after the feet: type for example 2' 3 1/2\" or 2 ft 3 in."
    )
    assert refusal("2' 14\"") == (
        "“2' 14\"” has 12 inches or more after the feet: "
        "type it all in inches, for example 38 in, or in feet and fewer inches, for example 3' 2\"."
    )


def test_spellings_with_several_meanings_are_asked_about():
    assert refusal("5 Mpa", Dimension.PRESSURE) == (
        "Did you mean MPa or mPa? Capital and small letters make a difference in “Mpa”."
    )
    assert refusal("16 psig", Dimension.PRESSURE) == (
        "“psig” says where the counting starts: see whether the field means pressure above the outside air "
        "or from vacuum, and type it in plain psi."
    )
    assert refusal("3 tons", Dimension.POWER) == (
        "“tons” has several meanings: type a weight in kg or t and cooling in kW or BTU/h."
    )
    assert refusal("0.2 MBTU/h", Dimension.POWER) == (
        "“MBTU/h” is used for a thousand BTU and for a million: type BTU/h or kBTU/h."
    )


def test_a_bare_share_that_may_mean_two_things_is_asked_about():
    assert refusal("0.6", Dimension.FRACTION, "%") == (
        "Did you mean 60 % or 0.6 %? Type the % sign with a number of one or less."
    )
    assert refusal("1", Dimension.FRACTION, "%") == (
        "Did you mean 100 % or 1 %? Type the % sign with a number of one or less."
    )
    assert (
        refusal("60", Dimension.FRACTION, "") == "Did you mean 60 %? Type the % sign with it, or a share such as 0.6."
    )


@pytest.mark.parametrize("text", ["-274 °C", "-460 °F", "-1 K"])
def test_nothing_is_colder_than_absolute_zero(text):
    assert refusal(text, Dimension.TEMPERATURE) == (
        f"“{text}” is colder than anything can be (-273.15 °C): "
        "check the number and the unit, for example 99 °C or 210 °F."
    )


@pytest.mark.parametrize("text", ["1e400", "-1e999", "1e-400", "1e308 km"])
def test_what_no_float_can_hold_is_refused(text):
    assert refusal(text) == f"“{text}” is out of all measure for a length: check the number, for example {LENGTH}."


def test_a_text_too_long_for_a_quantity_is_refused_before_it_is_worked_out():
    assert refusal("9" * 61) == (f"This text is too long for one quantity: type only a length, for example {LENGTH}.")
    assert parse_quantity("9" * 60, Dimension.LENGTH, "mm") == pytest.approx(1e60, rel=1e-12)


TYPED = st.one_of(
    st.text(max_size=30),
    st.text(alphabet="0123456789 ./-+,'\"½⅜′″mincftkWBTU%°FCe²_x", max_size=16),
    st.from_regex(r"[+-]?[0-9]{1,4}[ .,/'-][0-9]{0,3}[ /'\"]?[0-9]{0,2} ?(mm|in|\"|ft|kW|F|%|psi)?", fullmatch=True),
)


@given(TYPED, st.sampled_from(Dimension))
@settings(deadline=None, max_examples=400)
@example("1e400", Dimension.FRACTION)
@example("1e-400", Dimension.FRACTION)
def test_any_text_gives_a_finite_number_or_a_sentence(text, dimension):
    try:
        value = parse_quantity(text, dimension, dimension.internal_unit)
    except QuantityError as refused:
        message = str(refused)
        assert message.endswith(".")
        assert len(message) < 320
    else:
        assert math.isfinite(value)
        assert re.search("[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒↉]", text)
        assert "," not in text
