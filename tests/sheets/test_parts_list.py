"""The parts list: every part with its number, what is cut, and nothing that runs into anything."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.geometry.depth import depth_report
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.cut_list import cut_list
from grillestack.sheets.parts_list import compose_parts_list, mass_words
from grillestack.sheets.title_block import finished_sheets
from tests.sheets.drawn import demo


def listed(project: Project):
    return finished_sheets(project, compose_parts_list(project, depth_report(project), (cut_list(project),)))


@pytest.mark.parametrize("paper", [Paper.A4, Paper.A3, Paper.LETTER])
@pytest.mark.parametrize("number", [1, 3])
def test_nothing_collides_and_every_part_is_listed_with_what_is_known_of_it(number, paper):
    project = demo(number, paper)
    sheets = listed(project)
    assert [c for sheet in sheets for c in collisions(sheet.marks)] == []
    said = " ".join(text.text for sheet in sheets for text in all_texts(sheet.marks))
    for part in project.parts:
        assert part.order_number_text in said


def test_what_is_not_known_of_a_part_is_said_so():
    project = demo(3)
    bare = tuple(replace(part, supplier_text="", price_text="", order_number_text="") for part in project.parts)
    said = " ".join(text.text for sheet in listed(replace(project, parts=bare)) for text in all_texts(sheet.marks))
    assert said.count("not known, not known") == len(bare)


def test_pieces_to_make_have_a_number_each_and_a_size():
    table = cut_list(demo(1))
    assert table.rows
    assert all(row[0] and "×" in row[3] for row in table.rows)


def test_an_empty_pack_has_no_parts_list_and_nothing_to_cut():
    assert compose_parts_list(Project(), depth_report(Project())) == ()
    assert cut_list(Project()).rows == ()


def test_a_part_with_a_text_of_several_lines_is_listed_on_one():
    project = demo(3)
    parts = tuple(replace(part, supplier_text="invented\nsupplier") for part in project.parts)
    said = " ".join(text.text for sheet in listed(replace(project, parts=parts)) for text in all_texts(sheet.marks))
    assert "invented supplier" in said


def test_weights_follow_the_units_of_the_sheet():
    # 1 lb is 0.45359237 kg by definition.
    assert mass_words(4.5359237, DrawingUnits.INCH_DECIMALS) == "10 lb"
    assert mass_words(4.5, DrawingUnits.MILLIMETRES) == "4.5 kg"
    assert mass_words(None, DrawingUnits.MILLIMETRES) == "not known"
