"""Full-size templates: what can be had, how the first page says to print, what the tiles are in the files."""

from __future__ import annotations

import io
import re

import ezdxf
import pytest
import shapely
from msgspec.structs import replace

from grillestack.cli.main import run
from grillestack.model.parts import Core
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.compose_template import template_sheets
from grillestack.sheets.draw_list import Layer, Polyline
from grillestack.sheets.full_size import full_size_drawings
from grillestack.sheets.output import file_bytes
from grillestack.sheets.trouble import NothingToDrawError, SheetError
from grillestack.storage.project_file import write_project
from tests.sheets.drawn import demo, on_layer
from tests.sheets.random_packs import random_pack
from tests.sheets.test_writers import content_of, lines_of_page


def _first_pages(sheets):
    return [sheet for sheet in sheets if not sheet.views]


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER])
@pytest.mark.parametrize("views", [None, (SheetView.PACK,)])
def test_first_pages_say_how_to_print_and_nothing_collides_on_them(paper, views):
    sheets = template_sheets(demo(1, paper), views)
    first = _first_pages(sheets)
    said = " ".join(text.text for sheet in first for text in all_texts(sheet.marks))
    assert "PRINT AT 100 %: no “fit to page”" in said
    assert "more than 0.5 %" in said
    assert "0.5 mm" in said
    assert "local codes" in said
    for sheet in first:
        assert collisions(sheet.marks) == ()


def test_the_table_counts_the_tiles_that_follow():
    sheets = template_sheets(demo(2, Paper.LETTER))
    tiles = [sheet for sheet in sheets if sheet.views]
    said = [text.text for text in all_texts(sheets[0].marks)]
    assert said[said.index("in all") + 1] == str(len(tiles))


def test_the_map_names_every_tile_of_a_drawing():
    sheets = template_sheets(demo(1, Paper.A3))
    shroud = [sheet.key.rpartition(":")[2] for sheet in sheets if sheet.key.startswith("template:shroud-4:")]
    said = [text.text for sheet in _first_pages(sheets) for text in all_texts(sheet.marks)]
    assert set(shroud) <= set(said)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_pieces_on_tiles_have_their_true_size(number):
    project = demo(number, Paper.A3)
    for drawing, sheet in zip(full_size_drawings(project), template_sheets(project, is_tiled=False), strict=True):
        wanted = [m for m in drawing.marks if isinstance(m, Polyline) and m.layer is Layer.CUT]
        drawn = [m for m in on_layer(sheet, Layer.CUT) if isinstance(m, Polyline)]
        for one, other in zip(wanted, drawn, strict=True):
            a, b = (shapely.Polygon([(p.x_mm, p.y_mm) for p in m.points]) for m in (one, other))
            assert a.area == pytest.approx(b.area)
            assert a.bounds[2] - a.bounds[0] == pytest.approx(b.bounds[2] - b.bounds[0])


def test_pages_of_the_pdf_are_those_of_the_paper_and_lines_their_true_length():
    sheets = template_sheets(demo(2, Paper.LETTER), (SheetView.SHROUD,))
    pdf = file_bytes(sheets, ".pdf")[""]
    # Letter is 8.5 × 11 in: 612 × 792 pt.
    boxes = re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", pdf)
    assert len(boxes) == len(sheets)
    assert {(float(w), float(h)) for w, h in boxes} == {(612.0, 792.0)}


def test_every_tile_of_the_pdf_has_two_bars_that_measure_a_hundred_millimetres():
    tiles = [sheet for sheet in template_sheets(demo(2, Paper.LETTER), (SheetView.SHROUD,)) if sheet.views]
    pages = content_of(file_bytes(tiles, ".pdf")[""])
    assert len(pages) == len(tiles)
    for page in pages:
        lines = lines_of_page(page)
        # A point is 1/72 in.
        level = [abs(x1 - x0) * 25.4 / 72 for x0, y0, x1, y1 in lines if y0 == y1]
        upright = [abs(y1 - y0) * 25.4 / 72 for x0, y0, x1, y1 in lines if x0 == x1]
        assert any(length == pytest.approx(100.0, abs=0.01) for length in level)
        assert any(length == pytest.approx(100.0, abs=0.01) for length in upright)


def test_untiled_a_dxf_holds_the_blank_at_full_size():
    (sheet,) = template_sheets(demo(2), (SheetView.SHROUD,), is_tiled=False)
    text = file_bytes([sheet], ".dxf")[""].decode()
    (outline,) = ezdxf.read(io.StringIO(text)).modelspace().query('LWPOLYLINE[layer=="CUT"]')
    xs = [x for x, *_ in outline.get_points()]
    # 620 + 2 · (85 + 28) less four deductions of 2.607 mm
    assert max(xs) - min(xs) == pytest.approx(620 + 2 * (85 + 28) - 4 * 2.607, abs=0.02)


def test_bracket_blanks_share_a_tile_where_they_fit():
    drawings = full_size_drawings(demo(1, Paper.A3), (SheetView.BRACKETS,))
    assert drawings[0].title == "Brackets B1, B2, B3, B4"


def test_a_view_that_has_no_full_size_is_refused():
    with pytest.raises(SheetError, match="“parts list” has no full size"):
        full_size_drawings(demo(1), (SheetView.PARTS_LIST,))


def test_what_is_missing_is_refused_by_name_and_left_out_otherwise():
    project = demo(1)
    bare = replace(project, parts=tuple(p for p in project.parts if isinstance(p, Core)))
    with pytest.raises(NothingToDrawError, match="There is no shroud"):
        full_size_drawings(bare, (SheetView.SHROUD,))
    assert all("shroud" not in d.key for d in full_size_drawings(bare))
    with pytest.raises(NothingToDrawError, match="There is no core"):
        full_size_drawings(replace(project, parts=()))


def test_the_verb_writes_nothing_where_nothing_can_be_drawn(tmp_path, capsys):
    path = tmp_path / "bare.grillestack"
    write_project(replace(demo(1), parts=()), path)
    out = tmp_path / "x.pdf"
    assert run(["sheet", str(path), "--out", str(out), "--full-size"]) == 2
    assert "There is no core in this pack" in capsys.readouterr().err
    assert not out.exists()


def test_the_verb_writes_one_file_for_each_drawing_that_is_not_tiled(tmp_path, capsys):
    path = tmp_path / "pack.grillestack"
    write_project(demo(2), path)
    assert run(["sheet", str(path), "--out", str(tmp_path / "x.dxf"), "--full-size", "--view", "shroud"]) == 0
    assert (tmp_path / "x.dxf").exists()
    assert "full size (A3, 1:1)" in capsys.readouterr().out


@pytest.mark.parametrize("seed", [1, 5, 7, 12])
def test_first_pages_of_packs_by_lot_are_free_of_collisions_on_any_paper(seed):
    for sheet in _first_pages(template_sheets(random_pack(seed))):
        assert collisions(sheet.marks) == ()
