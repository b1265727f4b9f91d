"""Tiles: they cover the drawing, overlap as said, their crosses fall together and their bars are 100 mm."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely import affinity

from grillestack.model.sheet_choices import Paper
from grillestack.sheets.draw_list import Layer, Line, Point, Polyline, Text
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.tiles import (
    CHECK_MM,
    OVERLAP_MM,
    REJECT_FRAC,
    FullSize,
    shown_tiles,
    tile_sheets,
    tiles_of,
    whole_sheet,
    window_of,
)
from tests.sheets.drawn import line_shapes

PAPERS = list(Paper)


def _drawing(width_mm: float = 870.0, height_mm: float = 640.0) -> FullSize:
    area = Area(-100.0, 40.0, -100.0 + width_mm, 40.0 + height_mm)
    outline = Polyline(points=rectangle(area.grown(-5.0)), is_closed=True, layer=Layer.CUT)
    label = Text(at=Point(100.0, 300.0), text="Invented blank")
    return FullSize(key="blank", title="Invented blank", marks=(outline, label), area=area)


def _box(area: Area):
    return shapely.box(area.x0_mm, area.y0_mm, area.x1_mm, area.y1_mm)


@pytest.mark.parametrize("paper", PAPERS)
def test_tiles_cover_the_drawing_and_overlap_by_twelve_millimetres(paper):
    drawing = _drawing()
    tiles = tiles_of(drawing.area, paper)
    assert shapely.union_all([_box(t.shows) for t in tiles]).buffer(1e-6).covers(_box(drawing.area))
    for one, other in itertools.combinations(tiles, 2):
        if one.row == other.row and abs(one.column - other.column) == 1:
            assert one.shows.x1_mm - other.shows.x0_mm == pytest.approx(OVERLAP_MM)
        if one.column == other.column and abs(one.row - other.row) == 1:
            assert other.shows.y1_mm - one.shows.y0_mm == pytest.approx(OVERLAP_MM)


def test_the_overlap_can_be_glued_and_the_limit_is_half_a_percent():
    # Common practice, no source: 10 to 15 mm; reject more than 0.5 %.
    assert 10.0 <= OVERLAP_MM <= 15.0
    assert REJECT_FRAC == 0.005


@pytest.mark.parametrize("paper", PAPERS)
def test_no_row_or_column_is_more_than_is_needed(paper):
    drawing, window = _drawing(), window_of(paper)
    tiles = tiles_of(drawing.area, paper)
    columns, rows = max(t.column for t in tiles) + 1, max(t.row for t in tiles) + 1
    assert (columns - 1) * (window.width_mm - OVERLAP_MM) + OVERLAP_MM < drawing.area.width_mm or columns == 1
    assert (rows - 1) * (window.height_mm - OVERLAP_MM) + OVERLAP_MM < drawing.area.height_mm or rows == 1


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER])
def test_a_tile_shows_what_lies_there_at_full_size(paper):
    drawing, window = _drawing(), window_of(paper)
    judge = shapely.LinearRing([(p.x_mm, p.y_mm) for p in drawing.marks[0].points])
    for tile, sheet in zip(shown_tiles(drawing, paper), tile_sheets(drawing, paper), strict=True):
        drawn = shapely.union_all(line_shapes(m for m in sheet.marks if m.layer is Layer.CUT))
        wanted = judge.intersection(_box(tile.shows))
        back = affinity.translate(drawn, tile.shows.x0_mm - window.x0_mm, tile.shows.y0_mm - window.y0_mm)
        assert back.is_empty is wanted.is_empty
        assert back.is_empty or back.hausdorff_distance(wanted) < 1e-6


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER])
def test_crosses_of_neighbours_fall_on_the_same_places_of_the_drawing(paper):
    drawing, window = _drawing(), window_of(paper)
    # Something on every tile, as a tile without anything is not printed
    grid = tuple(
        Line(start=Point(drawing.area.x0_mm, y), end=Point(drawing.area.x1_mm, y))
        for y in np.arange(drawing.area.y0_mm, drawing.area.y1_mm, 50.0).tolist()
    )
    drawing = replace(drawing, marks=grid)
    places = {}
    for tile, sheet in zip(shown_tiles(drawing, paper), tile_sheets(drawing, paper), strict=True):
        dx, dy = tile.shows.x0_mm - window.x0_mm, tile.shows.y0_mm - window.y0_mm
        level = [
            m for m in sheet.marks if isinstance(m, Line) and m.layer is Layer.FRAME and m.start.y_mm == m.end.y_mm
        ]
        for line in level:
            if line.end.x_mm - line.start.x_mm == pytest.approx(10.0):
                at = (round((line.start.x_mm + line.end.x_mm) / 2 + dx, 3), round(line.start.y_mm + dy, 3))
                places.setdefault(at, []).append(tile.name)
    tiles = shown_tiles(drawing, paper)
    inner = (max(t.row for t in tiles)) * (max(t.column for t in tiles))
    assert sum(1 for names in places.values() if len(names) == 4) == inner


@pytest.mark.parametrize("paper", PAPERS)
def test_every_tile_has_a_bar_of_a_hundred_millimetres_on_both_axes_within_the_paper(paper):
    form = paper_form(paper)
    for sheet in tile_sheets(_drawing(), paper):
        lines = [m for m in sheet.marks if isinstance(m, Line) and m.layer is Layer.FRAME]
        spans = [(abs(m.end.x_mm - m.start.x_mm), abs(m.end.y_mm - m.start.y_mm)) for m in lines]
        assert (CHECK_MM, 0.0) in [(round(a, 9), round(b, 9)) for a, b in spans]
        assert (0.0, CHECK_MM) in [(round(a, 9), round(b, 9)) for a, b in spans]
        bounds = shapely.union_all(line_shapes(sheet.marks)).bounds
        assert bounds[0] > 3.0
        assert bounds[1] > 3.0
        assert bounds[2] < form.width_mm - 3.0
        assert bounds[3] < form.height_mm - 3.0


def test_tiles_are_named_by_rows_from_the_top_and_columns_from_the_left():
    tiles = tiles_of(_drawing().area, Paper.A3)
    first = tiles[0]
    assert first.name == "A1"
    assert first.shows.y1_mm == max(t.shows.y1_mm for t in tiles)
    assert first.shows.x0_mm == min(t.shows.x0_mm for t in tiles)


def test_a_text_on_the_seam_is_shown_whole_on_one_tile():
    tiles = tiles_of(_drawing().area, Paper.A4)
    seam = tiles[0].shows.x1_mm - 1.0
    drawing = _drawing()
    text = Text(at=Point(seam, tiles[0].shows.y0_mm + 100.0), text="A text across the seam of two tiles")
    sheets = tile_sheets(FullSize(key="x", title="x", marks=(*drawing.marks, text), area=drawing.area), Paper.A4)
    assert sum(1 for s in sheets for m in s.marks if isinstance(m, Text) and m.text == text.text) >= 1


def test_untiled_the_drawing_is_one_sheet_of_its_size():
    sheet = whole_sheet(_drawing(), Paper.A3)
    assert sheet.scale_factor == 1.0
    assert sheet.width_mm > 870.0
    (outline,) = [m for m in sheet.marks if m.layer is Layer.CUT]
    xs = [p.x_mm for p in outline.points]
    assert max(xs) - min(xs) == pytest.approx(860.0)


def test_a_tile_on_which_nothing_is_is_not_printed():
    drawing = _drawing()
    outline = replace(drawing, marks=drawing.marks[:1])
    tiles, shown = tiles_of(drawing.area, Paper.A4), shown_tiles(outline, Paper.A4)
    hidden = [t for t in tiles if t not in shown]
    assert hidden
    ring = shapely.LinearRing([(p.x_mm, p.y_mm) for p in drawing.marks[0].points])
    assert all(ring.disjoint(_box(t.shows)) for t in hidden)


def test_a_small_drawing_takes_one_tile():
    assert len(tile_sheets(_drawing(100.0, 80.0), Paper.LETTER)) == 1
