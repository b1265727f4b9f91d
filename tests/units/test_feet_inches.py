"""Feet and inches, by hand sums: (12 × feet + inches) × 25.4 mm."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.units.feet_inches import read_feet_and_inches
from grillestack.units.quantity import QuantityError


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("2' 3\"", 27),
        ("2'3\"", 27),
        ("2' 3", 27),
        ("2'-3\"", 27),
        ("2 ' 3 \"", 27),
        ("2 ft 3 in", 27),
        ("2 ft. 3 in.", 27),
        ("2ft 3in", 27),
        ("2ft3in", 27),
        ("2 FT 3 IN", 27),
        ("2 feet 3 inches", 27),
        ("1 foot 1 inch", 13),
        ("2 ft-3 in", 27),
        ("2' 3 1/2\"", Fraction(55, 2)),
        ("2' 3-1/2\"", Fraction(55, 2)),
        ("2'-3-1/2\"", Fraction(55, 2)),
        ("2ft3 1/2in", Fraction(55, 2)),
        ("2' 1/2\"", Fraction(49, 2)),
        ("2' 3.5\"", Fraction(55, 2)),
        ("2' .5", Fraction(49, 2)),
        ("0' 3\"", 3),
        ("2' 0\"", 24),
        ("2' 11 15/16\"", 24 + 11 + Fraction(15, 16)),
    ],
)
def test_feet_and_inches_add_up(text, inches):
    assert read_feet_and_inches(text) == inches * Fraction(254, 10)


def test_the_sign_holds_for_feet_and_inches_together():
    assert read_feet_and_inches("-2' 3\"") == Fraction("-685.8")
    assert read_feet_and_inches("- 2 ft 3 in") == Fraction("-685.8")
    assert read_feet_and_inches("+2' 3\"") == Fraction("685.8")


@pytest.mark.parametrize(
    "text",
    ["26 3/16 in", "5'", "5 ft", "2.5' 3\"", "5 ft2", "5 ft3/min", "5 ft lbf", "", "2' - 3\"", "2' -3\"", "5' x 3'"],
)
def test_what_is_not_feet_followed_by_inches_is_left_to_others(text):
    assert read_feet_and_inches(text) is None


@pytest.mark.parametrize("text", ["2' 3 mm", "2' 3' 4\"", "2' 3 1/2 5", "2 ft 3 lb", "2' 3.5.1", "2' 3 1/2 x"])
def test_anything_but_inches_after_the_feet_is_refused(text):
    with pytest.raises(QuantityError, match="something other than inches after the feet"):
        read_feet_and_inches(text)


@pytest.mark.parametrize("text", ["2' 12\"", "2 ft 14 in", "2' 25/2\""])
def test_twelve_inches_or_more_after_feet_are_refused(text):
    with pytest.raises(QuantityError, match="12 inches or more after the feet"):
        read_feet_and_inches(text)


@given(st.integers(0, 500), st.integers(0, 11), st.integers(0, 63))
def test_every_mark_on_a_tape_is_read_exactly(feet, inches, sixty_fourths):
    expected = (12 * feet + inches + Fraction(sixty_fourths, 64)) * Fraction(254, 10)
    assert read_feet_and_inches(f"{feet}' {inches} {sixty_fourths}/64\"") == expected
    assert read_feet_and_inches(f"{feet} ft {inches} {sixty_fourths}/64 in") == expected
