"""The sheets of the frame: nothing collides, every piece is listed and drawn, cautions and defaults are there."""

from __future__ import annotations

import functools

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.model.nose import NoseMount
from grillestack.model.sheet_choices import DrawingUnits, Paper, SheetView, WeldSymbols
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.compose import sheets_of
from grillestack.sheets.compose_brackets import compose_brackets
from grillestack.sheets.draw_list import Circle, Layer, Polyline, dimensions
from grillestack.sheets.frame_rails import frame_of
from grillestack.sheets.making import bracket_making
from grillestack.sheets.title_block import finished_sheets
from grillestack.sheets.trouble import NothingToDrawError, SheetError
from tests.sheets.drawn import demo, on_layer
from tests.sheets.random_packs import random_pack


@functools.cache
def _sheets(project):
    return finished_sheets(project, compose_brackets(project, None))


def _said(sheets) -> str:
    return " ".join(text.text for sheet in sheets for text in all_texts(sheet.marks))


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER, Paper.A1])
@pytest.mark.parametrize("number", [1, 2, 3])
def test_nothing_collides(number, paper):
    for sheet in _sheets(demo(number, paper)):
        assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("units", list(DrawingUnits))
def test_nothing_collides_in_any_units(units):
    project = demo(2)
    project = replace(project, sheet=replace(project.sheet, units=units, weld_symbols=WeldSymbols.AWS_A2_4))
    for sheet in _sheets(project):
        assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("seed", range(5))
def test_random_packs_are_drawn_without_collision(seed):
    project = random_pack(seed)
    for sheet in _sheets(project):
        assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_hole_of_every_piece_is_cut_once(number):
    project = demo(number)
    frame = frame_of(project, bracket_making(project.sheet.making, project.sheet.units))
    cuts = [m for sheet in _sheets(project) for m in on_layer(sheet, Layer.CUT)]
    rounds = [m for m in cuts if isinstance(m, Circle)]
    outlines = [m for m in cuts if isinstance(m, Polyline)]
    slots = sum(1 for piece in frame.pieces for h in piece.flat.holes if h.is_slot)
    assert len(rounds) == sum(1 for piece in frame.pieces for h in piece.flat.holes if not h.is_slot)
    assert len(outlines) == len(frame.pieces) + slots
    assert all(m.is_closed for m in outlines)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_piece_is_listed_and_has_a_detail(number):
    project = demo(number)
    frame = frame_of(project, bracket_making(project.sheet.making, project.sheet.units))
    sheets = _sheets(project)
    names = {view.name for sheet in sheets for view in sheet.views}
    assert {piece.name for piece in frame.pieces} <= names
    said = _said(sheets)
    for piece in frame.pieces:
        assert f"{piece.name} {piece.title}"[:18] in said


def test_growth_is_a_reference_size_with_its_formula():
    said = _said(_sheets(demo(2)))
    # Demo 2: 678 mm between the holes, 150 °C charge air over a bench of 20 °C: 23e-6 · 678 · 130 = 2.03 mm
    assert "2.0 mm REF, hot" in said
    assert "α·L·ΔT" in said
    assert "ΔT = 130 K" in said


def test_no_mounts_of_the_vehicle_and_the_crash_structure_are_spoken_of():
    said = _said(_sheets(demo(1)))
    assert "to suit vehicle: verify" in said
    assert "may carry the crash" in said
    assert "Strength is not computed" in said
    mount = NoseMount(id="m1", name="Stud", x_mm=250.0, y_mm=-500.0, z_mm=700.0, hole_mm=10.0, is_structure=True)
    project = demo(1)
    said = _said(_sheets(replace(project, nose=replace(project.nose, mounts=(mount,)))))
    assert "“Stud” is in the crash structure" in said


def test_keys_of_dimensions_are_unlike_on_each_sheet():
    for sheet in _sheets(demo(3)):
        found = [d.key for d in dimensions(sheet)]
        assert len(found) == len(set(found))


def test_cross_rails_carry_a_weld_symbol_of_the_chosen_standard():
    project = demo(2)
    iso = [m for s in _sheets(project) for m in on_layer(s, Layer.WELD)]
    american = replace(project, sheet=replace(project.sheet, weld_symbols=WeldSymbols.AWS_A2_4))
    aws = [m for s in _sheets(american) for m in on_layer(s, Layer.WELD)]
    # ISO 2553 system A has a dashed line beside the reference line, AWS A2.4 has none; from memory.
    assert len(iso) == len(aws) + 1


def test_what_cannot_be_drawn_is_refused_by_name_and_left_out_with_a_warning_otherwise():
    project = replace(demo(1), parts=tuple(p for p in demo(1).parts if p.id != "shroud-4"))
    assessment = assess(project)
    with pytest.raises(NothingToDrawError, match="There is no shroud in this pack"):
        sheets_of(project, assessment, [SheetView.SHROUD])
    sheets = sheets_of(project, assessment)
    assert {s.view for s in sheets} == {SheetView.PACK, SheetView.BRACKETS, SheetView.PARTS_LIST}
    assert any("There is no shroud in this pack" in warning for warning in sheets[0].warnings)


def test_an_empty_pack_is_told_to_put_a_part_in():
    project = replace(demo(1), parts=())
    with pytest.raises(SheetError, match="There is nothing to draw"):
        sheets_of(project, assess(project))
