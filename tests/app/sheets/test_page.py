"""The page of the drawings: opened, followed, left; its choices; files written and prints refused in plain words."""

from __future__ import annotations

import datetime as dt
import os

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QPushButton

from grillestack.app.sheets.maker import BROKE_OFF
from grillestack.app.workers.messages import Failure, Progress
from grillestack.model.sheet_choices import Paper, SheetView
from tests.app.sheets.made import a_sheet


def named(page, kind, name):
    return next(one for one in page.choices.findChildren(kind) if one.accessibleName() == name)


def test_the_page_takes_the_place_of_the_nose_and_gives_it_back(desk, worker):
    desk.menus.actions["Drawings of this pack"].trigger()
    page = desk.drawings.page
    assert page.isVisible()
    assert not desk.columns.isVisible()
    assert page.state.text().startswith("Working")
    worker.answer(a_sheet(), a_sheet("parts-list"))
    assert page.state.text() == ""
    assert page.list.count() == 2
    QTest.keyClick(page.paper, Qt.Key.Key_Escape)
    assert desk.columns.isVisible()
    assert not desk.drawings.is_open


def test_nothing_runs_before_the_page_is_wanted(desk, worker):
    assert not worker.is_started
    desk.drawings.begin()
    assert worker.is_started


def test_an_answer_about_an_older_document_is_dropped(page, session, worker, desk):
    named(page, QCheckBox, "Parts list").click()
    desk.drawings.maker.begin()
    old = worker.sheets_asked[-1].number
    box = named(page, QComboBox, "Paper")
    box.setCurrentIndex(box.findData(Paper.A2))
    box.activated.emit(box.currentIndex())
    assert session.project.sheet.paper is Paper.A2
    desk.drawings.maker.begin()
    assert old in worker.stopped
    worker.answer(a_sheet("old"), number=old)
    assert page.state.text().startswith("Working")
    worker.answer(a_sheet("new"))
    assert page.paper.sheet.key == "new"


def test_each_choice_is_one_step(page, session):
    box = named(page, QCheckBox, "Report on the heat")
    box.click()
    assert SheetView.REPORT in session.project.sheet.views
    session.undo_stack.undo()
    assert not box.isChecked()
    assert session.undo_stack.index() == 0


def test_the_date_is_put_in_as_text_and_only_when_asked_for(page, session):
    assert session.project.sheet.date_text == ""
    next(one for one in page.choices.findChildren(QPushButton) if one.text() == "Put in today’s date").click()
    assert session.project.sheet.date_text == dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()


def test_what_cannot_be_is_refused_under_its_field(page, session, type_into):
    line = named(page, QLineEdit, "K-factor")
    type_into(line, "1.4")
    assert session.project.sheet.making.bend_neutral_frac is None
    assert line.text() == "1.4"
    assert line.accessibleDescription() != ""
    type_into(line, "0.4")
    assert session.project.sheet.making.bend_neutral_frac == 0.4


def test_why_there_is_no_drawing_is_said(desk, worker):
    page = desk.drawings.begin()
    worker.answer(trouble="There is nothing to draw: put a part into the pack.")
    assert page.complaint.text() == "There is nothing to draw: put a part into the pack."
    assert not page.print_button.isEnabled()


def test_a_process_that_ends_is_told_of_and_the_page_lives(desk, worker):
    page = desk.drawings.begin()
    worker.ended.emit()
    assert page.complaint.text() == BROKE_OFF


def test_a_file_is_written_with_progress(page, worker, questions, tmp_path):
    questions.file = tmp_path / "pack.pdf"
    page.export_button.click()
    assert worker.sheets_asked[-1].ending == ".pdf"
    assert page.progress.isVisible()
    worker.said.emit(Progress(number=worker.sheets_asked[-1].number, share_frac=0.6))
    assert page.progress.value() == 60
    worker.answer(files={"": b"whole"})
    assert (tmp_path / "pack.pdf").read_bytes() == b"whole"
    assert not page.progress.isVisible()


def test_shifts_travel_with_an_export(page, worker, questions, tmp_path):
    page.hand.switch("width")
    questions.file = tmp_path / "pack.svg"
    page.export_button.click()
    assert worker.sheets_asked[-1].project.sheet.shifts[0].is_off


def test_files_that_are_there_are_replaced_only_if_that_is_wanted(page, worker, questions, tmp_path):
    (tmp_path / "pack-2.svg").write_text("mine", encoding="utf-8")
    questions.file, questions.may_replace = tmp_path / "pack.svg", False
    page.export_button.click()
    worker.answer(files={"-1": b"a", "-2": b"b"})
    assert questions.asked[-1] == ("pack-2.svg",)
    assert [path.name for path in tmp_path.iterdir() if path.suffix == ".svg"] == ["pack-2.svg"]
    questions.may_replace = True
    page.export_button.click()
    worker.answer(files={"-1": b"a", "-2": b"b"})
    assert (tmp_path / "pack-2.svg").read_bytes() == b"b"


@pytest.mark.skipif(os.name != "posix", reason="folders are made unwritable in another way there")
def test_a_folder_that_is_not_there_is_told_of_and_nothing_is_left(page, worker, questions, tmp_path):
    questions.file = tmp_path / "gone" / "pack.pdf"
    page.export_button.click()
    worker.answer(files={"": b"whole"})
    assert "pack.pdf" in page.complaint.text()
    assert list(tmp_path.glob("**/*.pdf")) == []


def test_an_export_that_breaks_off_says_so_and_can_be_stopped(page, worker, questions, tmp_path):
    questions.file = tmp_path / "pack.dxf"
    page.export_button.click()
    worker.said.emit(Failure(number=worker.sheets_asked[-1].number))
    assert page.complaint.text() == BROKE_OFF
    page.export_button.click()
    number = worker.sheets_asked[-1].number
    page.stop_button.click()
    assert number in worker.stopped
    worker.answer(files={"": b"late"}, number=number)
    assert not (tmp_path / "pack.dxf").exists()


def test_the_print_dialog_is_given_the_papers_own_size(page, questions):
    page.print_button.click()
    (printer,) = questions.asked
    full = printer.pageLayout().fullRect(printer.pageLayout().Unit.Millimeter)
    assert (full.width(), full.height()) == (pytest.approx(297.0, abs=0.2), pytest.approx(210.0, abs=0.2))
