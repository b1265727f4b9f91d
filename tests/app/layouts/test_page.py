"""The page with two layouts: opens, follows undo, is left by Esc, and gives in to nothing it cannot compare."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app import palette as palettes
from grillestack.app.layouts.acts import LayoutActs
from grillestack.app.layouts.page import ComparisonPage, compare_nothing
from grillestack.assess.compare import compare
from grillestack.model import edits, variants
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem


@pytest.fixture
def make(qtbot, session):
    def made(compared_by=compare):
        acts = LayoutActs(session, lambda: None, lambda _draft: None)
        page = ComparisonPage(session, palettes.light(), compared_by, acts)
        qtbot.addWidget(page)
        page.resize(1240, 680)
        return page

    return made


@pytest.fixture
def lowered(session):
    """Put a copy in hand whose charge-air cooler stands 60 mm lower."""
    copy = variants.duplicate_variant(session.project)
    session.apply("copy", copy)
    session.apply("move", edits.move_parts(copy, ["charge-air-cooler-4"], dz_mm=-60.0))


@pytest.fixture
def page(make, lowered):
    opened = make()
    opened.show_with("Layout A")
    return opened


def sentences(page):
    return page.changes.text().splitlines()


def test_until_it_is_asked_for_it_is_not_seen(make, lowered):
    page = make()
    assert page.isHidden()
    assert page.comparison is None


def test_it_shows_the_comparison_of_the_document(page, session):
    expected = compare(session.project, "Layout A")
    assert page.headline.text() == expected.headline(UnitSystem.METRIC)
    assert sentences(page) == ["“Invented charge-air cooler”: 60 mm lower."]
    shown = [texts[1:] for texts in page.figures.texts()]
    assert shown == [
        [f.other_words(UnitSystem.METRIC), f.in_hand_words(UnitSystem.METRIC), f.difference_words(UnitSystem.METRIC)]
        for f in expected.figures
    ]
    assert [caption.name.text() for caption in page.captions] == ["Layout A", "Layout B"]
    assert not page.grab().isNull()


def test_units_are_those_of_the_session(page, session):
    session.set_units(UnitSystem.INCH)
    assert sentences(page) == ["“Invented charge-air cooler”: 2 3/8 in lower."]


def test_undo_and_redo_are_followed(page, session):
    session.undo_stack.undo()
    assert sentences(page) == []
    assert page.changes_title.text() == "No part differs"
    session.undo_stack.redo()
    assert sentences(page) == ["“Invented charge-air cooler”: 60 mm lower."]


def test_when_the_other_layout_is_gone_the_page_is_left(page, session):
    left = []
    page.left.connect(lambda: left.append(1))
    session.undo_stack.undo()
    session.undo_stack.undo()
    assert page.isHidden()
    assert left == [1]


def test_taking_up_the_other_turns_the_page_about(page, session):
    page.take_button.click()
    assert session.project.variant_name == "Layout A"
    assert [caption.name.text() for caption in page.captions] == ["Layout B", "Layout A"]
    assert sentences(page) == ["“Invented charge-air cooler”: 60 mm higher."]
    page.take_button.click()
    assert session.project.variant_name == "Layout B"


def test_keeping_only_the_one_in_hand_leaves_the_page(page, session):
    page.keep_button.click()
    assert variants.layout_names(session.project) == ("Layout B",)
    assert page.isHidden()


@pytest.mark.parametrize("where", ["back_button", "figures"])
def test_escape_leaves_from_wherever_the_keyboard_is(page, where):
    page.show()
    page.activateWindow()
    widget = getattr(page, where)
    widget.setFocus()
    QTest.keyClick(widget, Qt.Key.Key_Escape)
    assert page.isHidden()


def test_another_document_leaves_the_page(page, session):
    session.open_project(session.project, None)
    assert page.isHidden()


def test_notes_are_told_with_their_layout(page, session):
    session.apply("note", variants.note_variant(session.project, "Needs\na bracket."))
    assert sentences(page)[-1] == "Note on “Layout B”: Needs a bracket."


def test_other_colours_are_taken_over(page):
    page.show_palette(palettes.dark())
    assert page.drawings[0].grab().toImage().pixelColor(2, 2) == palettes.dark().paper


@pytest.mark.parametrize(
    ("fault", "sentence"),
    [
        (ModelError("x", "There is no such layout."), "There is no such layout."),
        (ZeroDivisionError(), "These layouts could not be compared; your work is kept."),
    ],
)
def test_what_cannot_be_compared_is_told_and_the_nose_stays(make, session, lowered, fault, sentence):
    def faulty(_project, _name):
        raise fault

    said = []
    session.message.connect(said.append)
    page = make(faulty)
    page.show_with("Layout A")
    assert page.isHidden()
    assert said == [sentence]


def test_a_window_without_the_core_says_that_it_compares_nothing(make, session, lowered):
    said = []
    session.message.connect(said.append)
    page = make(compare_nothing)
    page.show_with("Layout A")
    assert page.isHidden()
    assert said == ["Layouts cannot be compared in this window: it was opened without the calculation."]


def test_an_empty_layout_is_shown_as_one(make, session):
    session.apply("copy", replace(variants.duplicate_variant(session.project), parts=()))
    page = make()
    page.show_with("Layout A")
    assert not page.grab().isNull()
    assert "only in “Layout A”" in page.changes.text()


def test_a_trial_under_way_is_ended_before_two_layouts_are_compared(make, session, lowered):
    session.try_project(edits.move_parts(session.project, ["charge-air-cooler-4"], dz_mm=-5.0))
    page = make()
    page.show_with("Layout A")
    assert not session.in_trial
    assert sentences(page) == ["“Invented charge-air cooler”: 60 mm lower."]
