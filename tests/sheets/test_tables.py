"""Tables: columns, broken rows, and what goes on to the next sheet."""

from __future__ import annotations

import pytest

from grillestack.sheets.collisions import collisions
from grillestack.sheets.draw_list import Text
from grillestack.sheets.paper import Area
from grillestack.sheets.tables import Table, fill_area, fits_across

TABLE = Table(
    title="Holes",
    heads=("No.", "Kind"),
    rows=tuple((f"H{n}", "slot 9 × 18, free end grows sideways") for n in range(1, 13)),
    total=("12", "together"),
)


def said(marks) -> list[str]:
    return [mark.text for mark in marks if isinstance(mark, Text)]


def test_a_table_with_room_is_whole_and_nothing_in_it_collides():
    marks, rest = fill_area([TABLE], Area(0, 0, 150, 200), 2.5)
    assert rest == ()
    assert [words for words in said(marks) if words.startswith("H") and words != "Holes"] == [
        row[0] for row in TABLE.rows
    ]
    assert said(marks)[-2:] != []
    assert collisions(marks) == ()


def test_what_finds_no_room_is_continued_and_nothing_is_lost_or_said_twice():
    first, rest = fill_area([TABLE], Area(0, 0, 150, 40), 2.5)
    numbers = [words for words in said(first) if words[0] == "H" and words[1:].isdigit()]
    assert "together" not in said(first)
    while rest:
        assert rest[0].title == "Holes (continued)"
        marks, rest = fill_area(rest, Area(0, 0, 150, 40), 2.5)
        numbers += [words for words in said(marks) if words[0] == "H" and words[1:].isdigit()]
    assert numbers == [row[0] for row in TABLE.rows]
    assert "together" in said(marks)


def test_a_narrow_area_breaks_the_widest_column_between_words():
    marks, _ = fill_area([TABLE], Area(0, 0, 60, 400), 2.5)
    assert "sideways" in " ".join(said(marks))
    assert collisions(marks) == ()
    assert max(point.x_mm for mark in marks if hasattr(mark, "points") for point in mark.points) <= 60.0 + 1e-6


def test_whether_words_must_be_cut_is_known_before():
    assert fits_across(TABLE, 60.0, 2.5)
    assert not fits_across(TABLE, 15.0, 2.5)


@pytest.mark.parametrize("height", [0.0, 3.0, 8.0])
def test_an_area_too_low_for_a_row_takes_nothing(height):
    assert fill_area([TABLE], Area(0, 0, 150, height), 2.5) == ((), (TABLE,))
