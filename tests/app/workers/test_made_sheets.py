"""Drawings made in the second process: the same marks as here, files whole, troubles in sentences."""

from __future__ import annotations

import msgspec
import pytest
from msgspec.structs import replace

from grillestack.app.workers.made_sheets import sheet_answer
from grillestack.app.workers.messages import AskSheets, asked_in, line_of
from grillestack.app.workers.sheet_travel import SheetAnswer, packed_sheets, unpacked_sheets
from grillestack.assess.assess import assess
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DimensionShift, SheetView
from grillestack.model.sheet_edits import move_dimension, set_choice, switch_dimension
from grillestack.sheets.compose import sheets_of
from grillestack.sheets.draw_list import dimensions
from grillestack.sheets.shifted import shifted
from tests.app.sheets.made import a_sheet
from tests.app.workers.made import demo


@pytest.fixture(scope="module")
def pack_only():
    return set_choice(demo(3), "views", (SheetView.PACK,))


@pytest.fixture(scope="module")
def composed(pack_only):
    return sheets_of(pack_only, assess(pack_only))


def travelled(sheets):
    """Return the sheets after their way from process to process."""
    line = msgspec.json.encode(SheetAnswer(sheets=packed_sheets(sheets)))
    return unpacked_sheets(msgspec.json.decode(line, type=SheetAnswer).sheets)


def test_every_kind_of_mark_arrives_as_it_was_sent():
    assert travelled([a_sheet()]) == (a_sheet(),)


def test_the_second_process_draws_what_the_terminal_draws(pack_only, composed):
    ask = asked_in(line_of(AskSheets(number=1, project=pack_only)))
    answer = sheet_answer(ask)
    assert unpacked_sheets(answer.sheets) == composed


def test_shifts_done_on_screen_are_those_on_paper(pack_only, composed):
    first, second, *_ = dimensions(composed[0])
    project = move_dimension(pack_only, first.key, 4.0, -3.0)
    project = switch_dimension(project, second.key, is_on=False)
    on_paper = sheets_of(project, assess(project))
    assert on_paper != composed
    on_screen = [tuple(shifted(sheet.marks, project.sheet.shifts)) for sheet in composed]
    assert [sheet.marks for sheet in on_paper] == on_screen


def test_a_key_names_one_dimension_on_a_sheet(composed):
    for sheet in composed:
        keys = [one.key for one in dimensions(sheet)]
        assert len(keys) == len(set(keys))
        assert all(DimensionShift(key=key) for key in keys)


@pytest.mark.parametrize(("ending", "begins"), [(".pdf", b"%PDF-"), (".svg", b"<?xml"), (".dxf", b"  0")])
def test_files_are_made_whole(ending, begins):
    project = set_choice(demo(3), "views", (SheetView.PARTS_LIST,))
    shares = []
    answer = sheet_answer(AskSheets(number=1, project=project, ending=ending), lambda share: not shares.append(share))
    assert answer.trouble == ""
    assert len(answer.files) == (1 if ending == ".pdf" else answer.sheet_count)
    assert all(content.startswith(begins) for content in answer.files.values())
    assert shares == sorted(shares)


def test_a_full_size_drawing_for_a_plotter_is_whole_and_not_in_tiles():
    project = set_choice(demo(3), "views", (SheetView.TEMPLATE,))
    tiled = sheet_answer(AskSheets(number=1, project=project)).sheet_count
    whole = sheet_answer(AskSheets(number=2, project=project, ending=".svg")).sheet_count
    assert 0 < whole < tiled


def test_stopped_there_is_no_answer():
    project = set_choice(demo(3), "views", (SheetView.PARTS_LIST,))
    assert sheet_answer(AskSheets(number=1, project=project), lambda _share: False) is None


def test_nothing_chosen_and_nothing_to_draw_are_told():
    nothing = replace(Project(), sheet=replace(Project().sheet, views=()))
    assert "No drawing is chosen" in sheet_answer(AskSheets(number=1, project=nothing)).trouble
    assert sheet_answer(AskSheets(number=1, project=Project())).trouble.endswith(".")
