"""Sheets held to the drawing standards: sizes, scales, line widths, lettering, line types. All from memory of the standards."""

from __future__ import annotations

import math

import pytest

from grillestack.model.sheet_choices import Paper
from grillestack.sheets.draw_list import LineKind
from grillestack.sheets.line_styles import PATTERNS
from grillestack.sheets.paper import ISO_5455, paper_form
from grillestack.sheets.sheet_body import TITLE_WIDTH_MM, title_area

# ISO 3098: heights of lettering, each √2 times the one before
LETTERING_MM = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
# ISO 128: line widths
WIDTHS_MM = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)


def test_a_sizes_come_from_a0_by_halving():
    """ISO 216: A0 is 841 × 1189 mm, about a square metre; each size halves the one before, rounded down."""
    short, long = 841, 1189
    sizes = {}
    for number in range(5):
        sizes[f"A{number}"] = (short, long)
        short, long = long // 2, short
    for paper in (Paper.A1, Paper.A2, Paper.A3, Paper.A4):
        form = paper_form(paper)
        assert sorted((form.width_mm, form.height_mm)) == pytest.approx(sorted(sizes[paper.value]))


def test_north_american_sizes_are_those_of_asme_y14_1():
    """Letter 8.5 × 11 in, Tabloid 11 × 17 in, D 22 × 34 in."""
    for paper, inches in ((Paper.LETTER, (8.5, 11)), (Paper.TABLOID, (11, 17)), (Paper.ANSI_D, (22, 34))):
        form = paper_form(paper)
        assert sorted((form.width_mm, form.height_mm)) == pytest.approx(sorted(n * 25.4 for n in inches))


def test_scales_are_those_of_iso_5455():
    """ISO 5455: 2, 5 and 10 with powers of ten, enlargements as well as reductions, and full size."""
    for factor in ISO_5455:
        ratio = factor if factor >= 1 else 1 / factor
        mantissa = ratio / 10 ** math.floor(math.log10(ratio) + 1e-9)
        assert round(mantissa, 6) in (1.0, 2.0, 5.0)
    assert {2.0, 5.0, 10.0, 20.0, 50.0, 1.0, 0.5, 0.2} <= set(ISO_5455)


@pytest.mark.parametrize("paper", Paper)
def test_line_widths_are_of_the_series_and_wide_is_twice_narrow(paper):
    """ISO 128: wide and narrow lines in the ratio of 2 to 1; ISO 5457: a frame of 0.7 mm."""
    group = paper_form(paper).line_group
    assert {group.wide_mm, group.narrow_mm} <= set(WIDTHS_MM)
    assert group.wide_mm / group.narrow_mm == pytest.approx(2.0)
    assert group.frame_mm == 0.7


@pytest.mark.parametrize("paper", Paper)
def test_lettering_is_of_the_series_and_ten_times_the_narrow_line(paper):
    """ISO 3098: lettering of type B is ten times as high as its line is wide, and at least 2.5 mm for dimensions."""
    form = paper_form(paper)
    assert form.text_mm in LETTERING_MM
    assert form.text_mm == pytest.approx(10 * form.line_group.narrow_mm)


def test_dashes_and_gaps_are_those_of_iso_128():
    """ISO 128-2: dashes 12 d, long dashes 24 d, gaps 3 d, dots at most 0.5 d."""
    assert PATTERNS[LineKind.DASHED] == (12.0, 3.0)
    assert PATTERNS[LineKind.CHAIN][:2] == (24.0, 3.0)
    for kind, dots in ((LineKind.CHAIN, 1), (LineKind.DOUBLE_CHAIN, 2)):
        assert sum(1 for length in PATTERNS[kind][::2] if length <= 0.5) == dots
        assert set(PATTERNS[kind][1::2]) == {3.0}


@pytest.mark.parametrize("paper", Paper)
def test_frame_and_title_block_stand_as_iso_5457_and_7200_ask(paper):
    """ISO 5457: 20 mm for filing at the left, 10 mm elsewhere; ISO 7200: a title block of 180 mm at the lower right."""
    form, block = paper_form(paper), title_area(paper)
    assert (form.frame.x0_mm, form.frame.y0_mm) == (20.0, 10.0)
    assert form.width_mm - form.frame.x1_mm == pytest.approx(10.0)
    assert form.height_mm - form.frame.y1_mm == pytest.approx(10.0)
    assert block.width_mm == pytest.approx(TITLE_WIDTH_MM) == 180.0
    assert (block.x1_mm, block.y0_mm) == (form.frame.x1_mm, form.frame.y0_mm)
