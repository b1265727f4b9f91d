"""Two layouts of one pack in the real window: copied, one of them dragged, put side by side, taken back, adopted, saved."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.assess.assess import assess
from grillestack.assess.result import Verdict
from grillestack.model import variants
from grillestack.storage.project_file import read_project
from tests.end_to_end.bench import CTRL, MOVE, PRESS, RELEASE

DOWN_MM = 160.0


def choose(bench, words):
    """Take a line of the layout button's menu."""
    menu = bench.window.layout_switch.menu()
    menu.aboutToShow.emit()
    (action,) = [action for action in menu.actions() if action.text().replace("&", "") == words]
    action.trigger()
    QApplication.processEvents()


def drag_the_cooler_down(bench):
    at = bench.middle_px(bench.charge_air_cooler().id)
    end = at + QPointF(0, DOWN_MM * bench.window.front.heights.px_per_mm)
    bench.session.select([bench.charge_air_cooler().id])
    bench.mouse(PRESS, at)
    bench.mouse(MOVE, at + (end - at) / 2, Qt.KeyboardModifier.AltModifier)
    bench.mouse(MOVE, end, Qt.KeyboardModifier.AltModifier)  # without snaps
    bench.mouse(RELEASE, end, Qt.KeyboardModifier.AltModifier)


@pytest.fixture
def mended(failing):
    """Give the failing demo with a copy in hand whose charge-air cooler was dragged down, and the page that compares."""
    choose(failing, "New copy of this layout")
    drag_the_cooler_down(failing)
    choose(failing, "Compare with “Layout A”")
    return failing


def figure(bench, label):
    (row,) = [texts for texts in bench.window.comparison.figures.texts() if texts[0] == label]
    return row[1:]


def test_a_drag_in_the_copy_is_the_difference_that_is_shown(mended):
    page = mended.window.comparison
    assert page.isVisible()
    assert not mended.window.front.isVisible()
    assert figure(mended, "Verdict") == ["fail", "pass", ""]
    moved_mm = (
        variants.switch_variant(mended.session.project, "Layout A").part("charge-air-cooler-1").placement.z_mm
        - mended.charge_air_cooler().placement.z_mm
    )
    assert moved_mm == pytest.approx(DOWN_MM, abs=3.0)
    assert "lower" in page.changes.text()
    assert page.headline.text().endswith("“Layout A” fails, “Layout B” passes.")
    mended.look()


def test_the_page_shows_what_the_terminal_assesses(mended):
    first = variants.adopt_variant(mended.session.project, "Layout A")
    assert assess(first).verdict is Verdict.FAIL
    assert mended.window.comparison.comparison.other.deciding_case == assess(first).deciding_case
    assert mended.window.comparison.comparison.in_hand.deciding_case == mended.session.assessment.deciding_case


def test_escape_gives_the_nose_back_and_undo_takes_drag_and_copy_back(mended):
    page, session = mended.window.comparison, mended.session
    QTest.keyClick(page.back_button, Qt.Key.Key_Escape)
    assert not page.isVisible()
    assert mended.window.front.isVisible()
    assert mended.window.front.hasFocus()
    mended.key(Qt.Key.Key_Z, CTRL)
    assert session.project.parts == session.project.variants[0].parts
    mended.key(Qt.Key.Key_Z, CTRL)
    assert session.project.variants == ()
    assert session.is_clean


def test_undo_on_the_page_shows_that_nothing_differs_any_more(mended):
    QTest.keyClick(mended.window.comparison.back_button, Qt.Key.Key_Z, CTRL)
    assert mended.window.comparison.changes_title.text() == "No part differs"
    assert figure(mended, "Hottest day")[2] == "same"


def test_taken_up_the_other_is_in_the_nose_again(mended):
    mended.window.comparison.take_button.click()
    mended.window.comparison.back_button.click()
    assert mended.verdict_word() == "Fail"
    assert "Layout A" in mended.window.layout_switch.text()
    choose(mended, "Layout B")
    assert mended.verdict_word() == "Pass"


def test_adopted_and_saved_one_layout_is_in_the_file(mended):
    mended.window.comparison.keep_button.click()
    assert mended.window.front.isVisible()
    mended.key(Qt.Key.Key_S, CTRL)
    kept = read_project(mended.person.save_path)
    assert variants.layout_names(kept) == ("Layout B",)
    assert kept.parts == mended.session.project.parts


def test_both_are_in_the_file_if_both_are_kept(mended):
    mended.window.comparison.back_button.click()
    mended.key(Qt.Key.Key_S, CTRL)
    kept = read_project(mended.person.save_path)
    assert kept == mended.session.project
    assert variants.layout_names(kept) == ("Layout A", "Layout B")


def test_the_form_for_the_name_stands_in_the_part_card_even_from_the_page(mended):
    choose(mended, "Name and note…")
    draft = mended.window.card.draft
    assert not mended.window.comparison.isVisible()
    mended.type_in(draft.lines["name"], "Low cooler", end=None)
    draft.take_button.click()
    assert mended.session.project.variant_name == "Low cooler"
    assert mended.window.layout_switch.text().startswith("Layout: Low cooler")
