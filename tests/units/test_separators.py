"""Commas and thousands marks are asked about, never guessed."""

import pytest

from grillestack.units.quantity import Dimension, QuantityError
from grillestack.units.separators import refuse_marks_in_digits

POINT = "Use a point as the decimal mark, not a comma."
THOUSANDS = "Write thousands without a comma."
EITHER = "Write thousands without a comma, and use a point as the decimal mark."
BOTH = "Use a point as the decimal mark and nothing between thousands."
GAPS = "Write the digits of a number without gaps or marks between them."


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("26,5 mm", f"Did you mean 26.5 mm? {POINT}"),
        ("-26,5 mm", f"Did you mean -26.5 mm? {POINT}"),
        ("26 ,5", f"Did you mean 26.5? {POINT}"),
        (",5 in", f"Did you mean 0.5 in? {POINT}"),
        ("0,625 in", f"Did you mean 0.625 in? {POINT}"),
        ("1234,567", f"Did you mean 1234.567? {POINT}"),
        ("1,200 mm", f"Did you mean 1200 mm or 1.200 mm? {EITHER}"),
        ("3,200 BTU/min", f"Did you mean 3200 BTU/min or 3.200 BTU/min? {EITHER}"),
        ("1,234.5 mm", f"Did you mean 1234.5 mm? {THOUSANDS}"),
        ("1,234,567", f"Did you mean 1234567? {THOUSANDS}"),
        ("1.234,5 mm", f"Did you mean 1234.5 mm? {BOTH}"),
        ("3 200 BTU/min", f"Did you mean 3200 BTU/min? {GAPS}"),
        ("3'200 BTU/min", f"Did you mean 3200 BTU/min? {GAPS}"),
        ("1_000_000 W", f"Did you mean 1000000 W? {GAPS}"),
        ("1'000", f"Did you mean 1000? {GAPS}"),
        ("- 1 000.5", f"Did you mean -1000.5? {GAPS}"),
    ],
)
def test_a_mark_in_the_digits_is_answered_with_what_may_be_meant(text, question):
    with pytest.raises(QuantityError) as refused:
        refuse_marks_in_digits(text, Dimension.LENGTH)
    assert str(refused.value) == question


@pytest.mark.parametrize("text", ["26 mm,", "600, 450", "1,2 3,4", "1,2,3", "2,3/16", "five, mm"])
def test_a_comma_without_one_meaning_is_refused_without_a_guess(text):
    with pytest.raises(QuantityError) as refused:
        refuse_marks_in_digits(text, Dimension.LENGTH)
    message = str(refused.value)
    assert text in message or message.startswith("Did you mean 600.450?")
    assert "use a point as the decimal mark" in message.lower()


@pytest.mark.parametrize(
    "text", ["26 3/16", "26 100/128", "2' 3\"", "2'11", "1000", "26.5 mm", "26 300000", "", "1 00"]
)
def test_digits_without_marks_pass(text):
    assert refuse_marks_in_digits(text, Dimension.LENGTH) is None
