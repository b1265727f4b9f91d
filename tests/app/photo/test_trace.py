"""From the menu to a photo under the nose and back: one step, nothing left behind by Esc, one sentence for what is no photo."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from grillestack.app.palette import dark
from grillestack.model.edits import set_photo
from grillestack.model.photo import FourCorners, Mark, Photo
from grillestack.model.project import Project
from grillestack.storage.project_file import project_bytes, read_project
from grillestack.storage.settings import Look
from tests.app.photo.drawn_photos import PLATE


@pytest.fixture
def begun(window, answers, photo_file, taken, type_into):
    """The window while the photo's plate is marked and its size typed."""
    answers.photo_path = photo_file
    window.menus.actions["Trace photo…"].trigger()
    panel = window.trace.panel
    panel.sheet.show_marks([QPointF(*taken.sees(*place)) for place in PLATE])
    for name, text in (("width_mm", "520"), ("height_mm", "110"), ("bottom_z_mm", "420")):
        type_into(panel.fields[name].line, text)
    return window


def test_the_marking_stands_beside_the_nose_where_verdict_and_side_strip_were(begun):
    panel = begun.trace.panel
    assert panel.isVisible()
    assert begun.front.isVisible()
    assert not begun.side.isVisible()
    assert not begun.verdict.isVisible()
    assert panel.geometry().left() >= begun.front.geometry().right()
    assert panel.sheet.width() > 400


def test_the_nose_shows_the_photo_while_nothing_is_in_the_document_yet(begun):
    assert begun.front.photo.item.flat is not None
    assert begun.session.project.nose.photo is None
    assert begun.session.undo_stack.count() == 0


def test_a_mark_in_hand_moves_the_photo_under_the_nose_in_a_coarse_picture_and_a_fine_one_when_let_go(begun, drag_mark):
    item = begun.front.photo.item
    panel = begun.trace.panel
    before = item.flat
    drag_mark(panel.sheet, 1, panel.sheet.marks[1] + QPointF(30, 10), end=False)
    coarse = item.flat
    assert coarse is not before
    at = panel.sheet.to_screen().map(panel.sheet.marks[1]).toPoint()
    QTest.mouseRelease(panel.sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert item.flat.mm_per_px < coarse.mm_per_px


def test_using_it_is_one_step_that_undo_takes_back(begun):
    before = begun.session.project
    QTest.mouseClick(begun.trace.panel.use_button, Qt.MouseButton.LeftButton)
    assert begun.trace.panel is None
    assert begun.verdict.isVisible()
    assert begun.session.undo_stack.count() == 1
    assert isinstance(begun.session.project.nose.photo.tied, FourCorners)
    assert begun.front.photo.item.flat is not None
    begun.session.undo_stack.undo()
    assert begun.session.project == before
    assert begun.front.photo.item.flat is None


@pytest.mark.parametrize("how", ["esc", "button"])
def test_leaving_puts_everything_back(begun, how):
    panel, before = begun.trace.panel, begun.session.project
    if how == "esc":
        QTest.keyClick(panel.sheet, Qt.Key.Key_Escape)
    else:
        QTest.mouseClick(panel.cancel_button, Qt.MouseButton.LeftButton)
    assert begun.trace.panel is None
    assert begun.session.project is before
    assert begun.session.undo_stack.count() == 0
    assert begun.front.photo.item.flat is None
    assert begun.side.isVisible()
    assert begun.verdict.isVisible()


def test_a_part_can_be_moved_meanwhile_and_the_photo_stays(begun):
    begun.session.select(["radiator-3"])
    begun.nudge.step(0, 1, 0, large=True)
    assert begun.front.photo.item.flat is not None
    QTest.mouseClick(begun.trace.panel.use_button, Qt.MouseButton.LeftButton)
    assert begun.session.undo_stack.count() == 2


def test_a_file_that_is_no_photo_gives_a_sentence_and_no_panel(window, answers, tmp_path):
    answers.photo_path = tmp_path / "letter.jpg"
    answers.photo_path.write_text("Dear all")
    window.trace.begin()
    assert window.trace.panel is None
    assert window.strip.sentences() == [
        "“letter.jpg” is no JPEG, PNG or WebP picture: choose a photo, or save it as JPEG first."
    ]


def test_choosing_no_file_does_nothing(window, answers):
    window.trace.begin()
    assert answers.asked == ["photo"]
    assert window.trace.panel is None


def test_another_document_ends_the_marking(begun):
    begun.session.open_project(Project(title="Another"), None)
    assert begun.trace.panel is None
    assert begun.front.photo.item.flat is None


def test_saving_meanwhile_does_not(begun, tmp_path):
    begun.session.mark_saved(tmp_path / "a.grillestack")
    assert begun.trace.panel is not None


def test_marking_again_keeps_what_is_set_and_is_one_more_step(window, picture):
    tied = FourCorners(
        corners=(Mark(600, 800), Mark(900, 790), Mark(900, 730), Mark(600, 735)),
        width_mm=520,
        height_mm=110,
        bottom_z_mm=400,
    )
    session = window.session
    session.apply("as it is", set_photo(session.project, Photo(image=picture, tied=tied, opacity_frac=0.25)))
    window.menus.actions["Mark the photo again…"].trigger()
    sheet = window.trace.panel.sheet
    QTest.keyClick(sheet, Qt.Key.Key_Right)
    QTest.mouseClick(window.trace.panel.use_button, Qt.MouseButton.LeftButton)
    photo = session.project.nose.photo
    assert photo.tied == replace(tied, corners=(Mark(601, 800), *tied.corners[1:]))
    assert photo.opacity_frac == 0.25
    assert photo.image is picture


def test_marking_again_without_a_photo_says_so(window):
    said = []
    window.session.message.connect(said.append)
    window.trace.mark_again()
    assert said == ["There is no photo yet: choose “Trace photo” first."]


def test_the_photo_travels_in_the_file(begun, tmp_path):
    QTest.mouseClick(begun.trace.panel.use_button, Qt.MouseButton.LeftButton)
    project = begun.session.project
    path = tmp_path / "with photo.grillestack"
    path.write_bytes(project_bytes(project))
    assert path.stat().st_size < 2_000_000
    assert read_project(path) == project


def test_dark_colours_reach_the_panel(begun):
    begun.show_look(Look.DARK)
    assert begun.trace.panel.sheet.marks_palette == dark()
    begun.show_look(Look.LIGHT)
