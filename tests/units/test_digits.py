"""Digits of exact numbers: decimals and inch fractions."""

from fractions import Fraction

import pytest

from grillestack.units.digits import decimal_digits, inch_fraction


@pytest.mark.parametrize(
    ("value", "decimals", "kept", "digits"),
    [
        ("54", 1, 1, "54.0"),
        ("54", 1, 0, "54"),
        ("664.5", 1, 0, "664.5"),
        ("26.25", 1, 0, "26.3"),
        ("-26.25", 1, 0, "-26.3"),
        ("26.24", 1, 0, "26.2"),
        ("99.5", 0, 0, "100"),
        ("99.95", 1, 1, "100.0"),
        ("100", 0, 0, "100"),
        ("-0.04", 1, 1, "0.0"),
        ("-0.4", 0, 0, "0"),
        ("0", 2, 2, "0.00"),
    ],
)
def test_decimals_are_rounded_half_away_from_nought_and_never_minus_nought(value, decimals, kept, digits):
    assert decimal_digits(Fraction(value), decimals, kept=kept, widens=False) == digits


@pytest.mark.parametrize(
    ("value", "digits"),
    [
        ("54", "54.0"),
        ("5.4", "5.4"),
        ("1", "1.0"),
        ("0.996", "1.0"),
        ("0.5", "0.5"),
        ("0.36", "0.36"),
        ("0.127", "0.13"),
        ("0.024", "0.024"),
        ("0.0041", "0.004"),
        ("-0.36", "-0.36"),
        ("-0.0001", "0.0"),
        ("0", "0.0"),
    ],
)
def test_a_small_number_gets_up_to_two_decimals_more(value, digits):
    assert decimal_digits(Fraction(value), 1, kept=1, widens=True) == digits


@pytest.mark.parametrize(
    ("sixty_fourths", "text"),
    [
        (0, "0"),
        (1, "1/64"),
        (-1, "-1/64"),
        (2, "1/32"),
        (4, "1/16"),
        (16, "1/4"),
        (32, "1/2"),
        (63, "63/64"),
        (64, "1"),
        (26 * 64 + 12, "26 3/16"),
        (-(26 * 64 + 12), "-26 3/16"),
        (26 * 64 + 10, "26 5/32"),
    ],
)
def test_a_length_that_is_a_64th_is_written_as_it_is(sixty_fourths, text):
    assert inch_fraction(Fraction(sixty_fourths, 64)) == text


def test_other_lengths_go_to_the_nearest_sixteenth():
    assert inch_fraction(Fraction("26.181")) == "26 3/16"  # 26.181 × 16 = 418.9
    assert inch_fraction(Fraction("1.9685")) == "1 15/16"  # 31.496
    assert inch_fraction(Fraction("1.97")) == "2"  # 31.52
    assert inch_fraction(Fraction("-0.97")) == "-1"  # 15.52


def test_a_length_too_small_for_sixteenths_has_no_fraction():
    assert inch_fraction(Fraction("0.249")) is None
    assert inch_fraction(Fraction("-0.039")) is None
    assert inch_fraction(Fraction("0.251")) == "1/4"
