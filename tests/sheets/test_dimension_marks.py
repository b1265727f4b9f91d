"""What a dimension is made of, where texts stand, and what stays clear of them."""

from __future__ import annotations

import math

import pytest

from grillestack.sheets.clear_parts import clear_parts
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.dimension_marks import dimension_marks, feet_of, text_area
from grillestack.sheets.draw_list import (
    Across,
    Axis,
    Fill,
    Leader,
    Line,
    LinearDimension,
    OrdinateDimension,
    Point,
    Polyline,
    Text,
)
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.note_block import note_block
from grillestack.sheets.overhang import overhang_of
from grillestack.sheets.paper import Area


def linear(direction: float = 0.0, *, outside: bool = False) -> LinearDimension:
    along = direction == 0.0
    return LinearDimension(
        key="k",
        first=Point(10.0, 10.0),
        second=Point(50.0, 12.0) if along else Point(12.0, 50.0),
        direction_deg=direction,
        line_at=Point(10.0, 30.0) if along else Point(30.0, 10.0),
        text_at=Point(30.0, 32.2) if along else Point(27.8, 30.0),
        text="40",
        measured_mm=40.0,
        arrows_outside=outside,
    )


@pytest.mark.parametrize("direction", [0.0, 90.0])
def test_the_line_ends_straight_above_or_beside_the_features_and_arrows_stand_there(direction):
    one = linear(direction)
    feet = feet_of(one)
    wanted = [Point(10.0, 30.0), Point(50.0, 30.0)] if direction == 0.0 else [Point(30.0, 10.0), Point(30.0, 50.0)]
    for foot, place in zip(feet, wanted, strict=True):
        assert (foot.x_mm, foot.y_mm) == (pytest.approx(place.x_mm), pytest.approx(place.y_mm))
    tips = [mark.points[0] for mark in dimension_marks(one) if isinstance(mark, Fill)]
    assert [math.dist((t.x_mm, t.y_mm), (f.x_mm, f.y_mm)) for t, f in zip(tips, feet, strict=True)] == [0.0, 0.0]


def test_extension_lines_leave_a_gap_at_the_feature_and_pass_the_line():
    """ISO 129-1: a small gap is allowed, and the extension line goes on a little beyond the dimension line."""
    lines = [mark for mark in dimension_marks(linear()) if isinstance(mark, Line)]
    upright = [line for line in lines if abs(line.start.x_mm - line.end.x_mm) < 1e-9]
    assert len(upright) == 2
    assert all(line.end.y_mm > 30.0 and line.start.y_mm > 10.0 for line in upright)


def test_arrows_outside_point_inwards():
    heads = [mark for mark in dimension_marks(linear(outside=True)) if isinstance(mark, Fill)]
    assert heads[0].points[1].x_mm < 10.0
    assert heads[1].points[1].x_mm > 50.0


def test_an_upright_ordinate_is_written_upright_and_all_its_lines_begin_at_the_leader():
    one = OrdinateDimension(
        key="k",
        axis=Axis.ACROSS,
        datum=Point(0.0, 0.0),
        feature=Point(40.0, 50.0),
        leader=(Point(40.0, 49.0), Point(40.0, 30.0)),
        text_at=Point(40.0, 20.0),
        text="40 RAD core;\nSHROUD",
        measured_mm=40.0,
    )
    texts = [mark for mark in dimension_marks(one) if isinstance(mark, Text)]
    assert [text.text for text in texts] == ["40 RAD core;", "SHROUD"]
    assert {text.angle_deg for text in texts} == {90.0}
    assert len({text.at.y_mm for text in texts}) == 1
    assert not text_area(texts[0]).overlaps(text_area(texts[1]))


def test_a_leader_ends_in_an_arrow_and_lists_its_lines_downwards():
    one = Leader(key="k", points=(Point(0, 0), Point(10, 10)), text_at=Point(11, 10), lines=("4 × Ø9", "through"))
    marks = dimension_marks(one)
    assert [type(mark) for mark in marks] == [Polyline, Fill, Text, Text]
    assert marks[2].at.y_mm > marks[3].at.y_mm


def test_the_area_of_a_turned_text_is_turned():
    level, upright = (text_area(Text(at=Point(0, 0), text="614", angle_deg=turn)) for turn in (0.0, 90.0))
    assert level.width_mm == pytest.approx(text_width_mm("614", 2.5))
    assert (upright.width_mm, upright.height_mm) == (pytest.approx(level.height_mm), pytest.approx(level.width_mm))


def test_a_number_finds_a_place_off_lines_and_texts_or_none():
    lines = [Line(start=Point(0, y), end=Point(100, y)) for y in (48.0, 52.0)]
    wish = TagWish(key="k", text="H1 Ø9", at=Point(50, 50), radius_mm=1.0)
    (tag,) = placed_tags([wish], lines, Area(0, 0, 100, 100), 2.5)
    assert collisions([*lines, *[mark for mark in dimension_marks(tag) if isinstance(mark, Text)]]) == ()
    crowd = [Line(start=Point(0, y), end=Point(100, y)) for y in range(101)]
    assert placed_tags([wish], crowd, Area(0, 0, 100, 100), 2.5) == ()


def test_notes_are_numbered_and_whole_or_not_written_at_all():
    notes = ("First, which is rather long for so narrow a column.", "Second.")
    marks = note_block(notes, [Area(0, 0, 60, 30)], 2.5)
    said = " ".join(text.text for text in all_texts(marks))
    assert said == "1 First, which is rather long for so narrow a column. 2 Second."
    assert note_block(notes, [Area(0, 0, 60, 5)], 2.5) is None
    assert note_block(notes, [Area(0, 0, 20, 200)], 2.5) is None


def test_notes_go_on_in_the_next_area():
    notes = tuple(f"Note number {n}." for n in range(8))
    areas = [Area(0, 0, 60, 18), Area(100, 0, 160, 40)]
    texts = all_texts(note_block(notes, areas, 2.5))
    assert {text.at.x_mm < 80 for text in texts} == {True, False}


def test_what_is_drawn_is_cut_off_an_area():
    line = Line(start=Point(0, 80), end=Point(100, 80))
    (left,) = clear_parts([Area(0, 0, 100, 100)], [line])
    assert left == Area(0, 0, 100, 78)
    assert clear_parts([Area(0, 0, 100, 100)], []) == (Area(0, 0, 100, 100),)
    first, second = clear_parts([Area(0, 0, 50, 100), Area(0, 0, 100, 100)], [])
    assert not first.overlaps(second)


def test_what_sticks_out_of_a_view_is_measured():
    text = Text(at=Point(95, 50), text="614", across=Across.LEFT)
    over = overhang_of([text, Line(start=Point(-7, 10), end=Point(20, 10))], Area(0, 0, 100, 100))
    assert over.left_mm == pytest.approx(7.0)
    assert over.right_mm == pytest.approx(text_width_mm("614", 2.5) - 5.0)
    assert (over.below_mm, over.above_mm) == (0.0, 0.0)
