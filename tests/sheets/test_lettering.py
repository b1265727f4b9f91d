"""Widths of texts, broken lines, and letters that cannot be written."""

from __future__ import annotations

import pytest
from reportlab.pdfbase.ttfonts import TTFont

from grillestack.sheets.lettering import (
    MissingLetterError,
    check_letters,
    em_mm,
    font_file,
    lines_of,
    shortened,
    text_width_mm,
)


@pytest.mark.parametrize("is_bold", [False, True])
@pytest.mark.parametrize("text", ["614 RAD core", "−125 °C ± Ø9 × 18", "◄ RIGHT of vehicle ►", ""])
def test_a_text_is_as_wide_as_another_reader_of_the_font_says(text, is_bold):
    judge = TTFont(f"width-{is_bold}", str(font_file(is_bold=is_bold)))
    size = em_mm(2.5, is_bold=is_bold)
    assert text_width_mm(text, 2.5, is_bold=is_bold) == pytest.approx(judge.stringWidth(text, size), abs=0.01)


def test_type_is_as_large_as_its_capitals_ask():
    # The font's own tables: capitals of 1493 units in an em of 2048.
    assert em_mm(2.5) == pytest.approx(2.5 * 2048 / 1493)


def test_a_letter_that_the_font_lacks_is_named_with_its_text():
    with pytest.raises(MissingLetterError, match=r"cannot show the letter “漢” \(U\+6F22\) in “Halter 漢”.*without it"):
        check_letters("Halter 漢")


def test_a_control_character_is_refused_without_printing_it():
    with pytest.raises(MissingLetterError, match=r"cannot show the sign U\+0007 in “a b”"):
        text_width_mm("a\x07b", 2.5)


def test_lines_break_between_words_and_fit():
    lines = lines_of("one two three four five", 2.5, 25.0)
    assert " ".join(lines) == "one two three four five"
    assert all(text_width_mm(line, 2.5) <= 25.0 for line in lines)
    assert len(lines) > 1


def test_a_word_longer_than_the_room_is_cut_and_loses_nothing():
    lines = lines_of("Donaudampfschifffahrt", 2.5, 12.0)
    assert "".join(lines) == "Donaudampfschifffahrt"
    assert all(text_width_mm(line, 2.5) <= 12.0 for line in lines)


def test_words_tied_by_a_no_break_space_stay_together():
    assert lines_of("FAN\u00a01 centre", 2.5, 15.0) == ("FAN\u00a01", "centre")


def test_a_long_text_is_shortened_to_its_room():
    short = shortened("A very long title that nobody reads to its end", 2.5, 40.0)
    assert short.endswith("…")
    assert text_width_mm(short, 2.5) <= 40.0
    assert shortened("short", 2.5, 40.0) == "short"
