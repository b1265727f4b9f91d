"""Words, tables and figures in columns: in their order, none over another, nothing lost."""

from __future__ import annotations

import pytest

from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.draw_list import Line, Point
from grillestack.sheets.paper import Area
from grillestack.sheets.report_flow import Figure, Words, flowed
from grillestack.sheets.sheet_body import SheetTooSmallError
from grillestack.sheets.tables import Table

COLUMNS = (Area(0.0, 0.0, 90.0, 100.0), Area(100.0, 0.0, 190.0, 100.0))


def _figure(height_mm: float) -> Figure:
    line = Line(start=Point(0.0, 0.0), end=Point(80.0, -height_mm))
    return Figure(marks=(line,), width_mm=80.0, height_mm=height_mm)


def test_every_line_of_text_is_there_once_and_in_order():
    words = [Words(text=f"sentence {n} of many that follow each other") for n in range(80)]
    pages = flowed(words, COLUMNS, 2.5)
    said = [text.text for page in pages for text in all_texts(page)]
    assert said == [w.text for w in words]
    assert len(pages) > 1
    assert all(collisions(page) == () for page in pages)


def test_a_head_stays_with_the_figure_that_follows():
    pieces = [*(Words(text="x") for _ in range(12)), Words(text="A head", is_head=True), _figure(60.0)]
    (page,) = flowed(pieces, COLUMNS, 2.5)
    head = next(t for t in all_texts(page) if t.text == "A head")
    line = next(m for m in page if isinstance(m, Line))
    assert head.at.x_mm == 100.0
    assert line.start.x_mm == 100.0


def test_a_table_goes_on_in_the_next_column():
    table = Table(title="T", heads=("A", "B"), rows=tuple((str(n), "x") for n in range(20)))
    (page,) = flowed([table], COLUMNS, 2.5)
    said = [text.text for text in all_texts(page)]
    assert [str(n) for n in range(20)] == [t for t in said if t.isdigit()]
    assert "T (continued)" in said


def test_a_figure_larger_than_a_column_is_refused():
    with pytest.raises(SheetTooSmallError, match="choose a larger sheet"):
        flowed([_figure(120.0)], COLUMNS, 2.5)
