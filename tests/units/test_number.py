"""Numbers at the start of a text, exact."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.units.number import read_number
from grillestack.units.quantity import QuantityError


@pytest.mark.parametrize(
    ("text", "number", "rest"),
    [
        ("26", Fraction(26), ""),
        ("26.", Fraction(26), ""),
        (".5 in", Fraction(1, 2), "in"),
        ("0.1", Fraction(1, 10), ""),
        ("1e3 mm", Fraction(1000), "mm"),
        ("2.5E-2kW", Fraction(1, 40), "kW"),
        ("3/16", Fraction(3, 16), ""),
        ("3 / 16 in", Fraction(3, 16), "in"),
        ("7/4", Fraction(7, 4), ""),
        ("26 3/16 in", Fraction(26 * 16 + 3, 16), "in"),
        ('26-3/16"', Fraction(26 * 16 + 3, 16), '"'),
        ("-26 3/16", Fraction(-(26 * 16 + 3), 16), ""),
        ("- 12.5 mm", Fraction(-25, 2), "mm"),
        ("+4", Fraction(4), ""),
        ("26 3", Fraction(26), "3"),
    ],
)
def test_the_number_is_read_exactly_and_the_rest_left(text, number, rest):
    assert read_number(text) == (number, rest)


@pytest.mark.parametrize("text", ["", "mm", "about 5", "--5", "+-5", ".", "-", "½", "٣", "/4"])
def test_a_text_that_does_not_begin_with_a_number_gives_none(text):
    assert read_number(text) is None


def test_an_exponent_too_long_to_work_out_is_no_exponent():
    assert read_number("1e999999999") == (1, "e999999999")


@pytest.mark.parametrize("text", ["3/0", "26 3/0", "0/0 in"])
def test_nothing_is_divided_by_zero(text):
    with pytest.raises(QuantityError, match="0 below the line"):
        read_number(text)


@pytest.mark.parametrize("text", ["26 19/16", "26 16/16"])
def test_a_mixed_number_needs_a_proper_fraction(text):
    with pytest.raises(QuantityError, match="upper number must be the smaller one"):
        read_number(text)


@given(st.integers(0, 10_000), st.integers(0, 200), st.integers(1, 200), st.booleans())
def test_mixed_numbers_are_the_sum_of_their_parts(whole, top, more, negative):
    bottom = top + more
    sign = "-" if negative else ""
    expected = whole + Fraction(top, bottom)
    assert read_number(f"{sign}{whole} {top}/{bottom}") == (-expected if negative else expected, "")


@given(st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=6))
def test_decimals_are_read_without_rounding(number):
    assert read_number(f"{number:f}") == (Fraction(number), "")
