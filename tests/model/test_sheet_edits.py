"""What may be changed of the drawings' choices, and that it touches nothing else."""

from __future__ import annotations

import pytest

from grillestack.model import sheet_edits
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DimensionShift, Paper, SheetView
from grillestack.model.values import ModelError


def test_a_choice_is_put_in_and_nothing_else_changes():
    before = Project(title="Invented")
    after = sheet_edits.set_choice(before, "paper", Paper.A1)
    assert after.sheet.paper is Paper.A1
    assert sheet_edits.set_choice(after, "paper", before.sheet.paper) == before


def test_views_keep_the_order_of_the_list_of_all():
    project = sheet_edits.set_choice(Project(), "views", (SheetView.PARTS_LIST,))
    project = sheet_edits.show_view(project, SheetView.PACK, is_wanted=True)
    assert project.sheet.views == (SheetView.PACK, SheetView.PARTS_LIST)
    project = sheet_edits.show_view(project, SheetView.PARTS_LIST, is_wanted=False)
    assert project.sheet.views == (SheetView.PACK,)


def test_moves_add_up_and_moved_back_nothing_is_left():
    project = sheet_edits.move_dimension(Project(), "width", 3.0, -1.5)
    project = sheet_edits.move_dimension(project, "width", 1.0, 0.5)
    assert project.sheet.shifts == (DimensionShift(key="width", dx_mm=4.0, dy_mm=-1.0),)
    assert sheet_edits.move_dimension(project, "width", -4.0, 1.0) == Project()


def test_switched_off_and_on_again_it_stands_where_it_was_moved_to():
    moved = sheet_edits.move_dimension(Project(), "width", 3.0, 0.0)
    off = sheet_edits.switch_dimension(moved, "width", is_on=False)
    assert sheet_edits.shift_of(off.sheet, "width").is_off
    assert sheet_edits.switch_dimension(off, "width", is_on=True) == moved
    assert sheet_edits.put_dimension_back(off, "width") == Project()


def test_all_are_put_back_at_once():
    project = Project()
    for key in ("a", "b"):
        project = sheet_edits.switch_dimension(project, key, is_on=False)
    assert sheet_edits.put_all_back(project) == Project()


def test_a_k_factor_that_cannot_be_is_refused_in_a_sentence():
    with pytest.raises(ModelError, match="bend neutral"):
        sheet_edits.set_making(Project(), "bend_neutral_frac", 1.4)
