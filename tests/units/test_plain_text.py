"""Typographic signs made plain."""

import pytest

from grillestack.units.plain_text import plain_text


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("26½", "26 1/2"),
        ("26 ½ in", "26 1/2 in"),
        ("26-½", "26-1/2"),
        ("-½", "-1/2"),
        ("⅞ in", "7/8 in"),
        ("26\u00a03⁄16″", '26 3/16"'),
        ("26\u202f3∕16", "26 3/16"),
        ("\u20092′\u20093”", "2' 3\""),
        ("2’ 3''", "2' 3\""),
        ("−12.5 mm", "-12.5 mm"),
        ("26–3/16", "26-3/16"),
        ("0.35 m²", "0.35 m2"),
        ("1.2 m³/s", "1.2 m3/s"),
        ("99 ℃", "99 °C"),
        ("210 ºF", "210 °F"),
        ("5 µm", "5 um"),
        ("665\u200b mm", "665 mm"),
        ("  665 \t mm\n", "665 mm"),
    ],
)
def test_typographic_signs_read_as_the_plain_ones(typed, plain):
    assert plain_text(typed) == plain


def test_a_vulgar_fraction_never_joins_the_digits_beside_it():
    assert plain_text("26½5") == "26 1/2 5"
    assert plain_text("½5") == "1/2 5"


def test_a_raised_digit_never_becomes_a_digit_of_the_number():
    assert plain_text("26²") == "26²"
    assert plain_text("1e² mm") == "1e² mm"


def test_the_lone_one_over_sign_is_not_completed():
    assert plain_text("⅟16") == "⅟16"


def test_plain_text_stays_as_it_is():
    assert plain_text("2' 3 1/2\"") == "2' 3 1/2\""
    assert plain_text("") == ""
