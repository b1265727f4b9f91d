"""The button that names the layout in hand, and its menu."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QMenu

from grillestack.app.layouts.acts import LayoutActs
from grillestack.app.layouts.switch import LayoutSwitch, shortened
from grillestack.model import variants


@pytest.fixture
def compared():
    return []


@pytest.fixture
def switch(qtbot, session, compared):
    made = LayoutSwitch(session, LayoutActs(session, lambda: None, lambda _draft: None), compared.append)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def lines(switch):
    """Return a function that opens the menu and gives its lines by their words."""

    def opened():
        menu = switch.menu()
        menu.aboutToShow.emit()
        return {action.text(): action for action in menu.actions() if not action.isSeparator()}

    return opened


def name(session, words):
    session.apply("name", variants.rename_variant(session.project, session.project.variant_name, words))


def test_one_layout_can_be_copied_and_named_only(lines):
    assert list(lines()) == ["Layout A", "New &copy of this layout", "&Name and note…"]
    assert lines()["Layout A"].isChecked()


def test_several_can_be_taken_up_compared_kept_and_removed(lines, session):
    lines()["New &copy of this layout"].trigger()
    assert list(lines()) == [
        "Layout A",
        "Layout B",
        "New &copy of this layout",
        "&Name and note…",
        "Compare with “Layout A”",
        "&Keep only “Layout B”",
        "&Remove “Layout B”",
    ]
    assert [text for text, action in lines().items() if action.isChecked()] == ["Layout B"]
    lines()["Layout A"].trigger()
    assert session.project.variant_name == "Layout A"
    assert [text for text, action in lines().items() if action.isChecked()] == ["Layout A"]


def test_each_other_layout_can_be_compared_with(lines, compared):
    for _ in range(2):
        lines()["New &copy of this layout"].trigger()
    lines()["Compare with “Layout B”"].trigger()
    assert compared == ["Layout B"]
    assert "Compare with “Layout C”" not in lines()


def test_keep_and_remove_act_on_the_layout_in_hand(lines, session):
    for _ in range(2):
        lines()["New &copy of this layout"].trigger()
    lines()["&Remove “Layout C”"].trigger()
    assert variants.layout_names(session.project) == ("Layout A", "Layout B")
    lines()["&Keep only “Layout B”"].trigger()
    assert variants.layout_names(session.project) == ("Layout B",)


def test_the_button_names_the_layout_in_hand_and_follows_undo(switch, session, lines):
    assert switch.text() == "Layout A  ▾"
    lines()["New &copy of this layout"].trigger()
    assert switch.text() == "Layout B  ▾"
    assert switch.accessibleName() == "Layout in hand: Layout B"
    assert switch.toolTip() == "Layout B, one of 2 layouts"
    session.undo_stack.undo()
    assert switch.text() == "Layout A  ▾"


def test_a_name_of_another_kind_says_that_it_is_that_of_a_layout(switch, session):
    name(session, "Tight & low")
    assert switch.text() == "Layout: Tight && low  ▾"
    name(session, "A cooler that stands on its end")
    assert switch.text() == "Layout: A cooler that s…  ▾"
    assert "A cooler that stands on its end" in switch.toolTip()


def test_a_note_is_told_at_the_button_and_in_the_menu(switch, session, lines):
    session.apply("note", variants.note_variant(session.project, "Costs less."))
    assert switch.toolTip().endswith("Costs less.")
    lines()["New &copy of this layout"].trigger()
    session.apply("note", variants.note_variant(session.project, ""))
    assert lines()["Layout A"].toolTip() == "Costs less."


def test_any_menu_can_be_filled_with_it(switch, qtbot):
    menu = QMenu()
    qtbot.addWidget(menu)
    switch.fill(menu)
    first = [action.text() for action in menu.actions()]
    switch.fill(menu)
    assert [action.text() for action in menu.actions()] == first


def test_a_name_is_shortened_only_if_it_must_be():
    assert shortened("x" * 24) == "x" * 24
    assert shortened("x" * 25) == "x" * 23 + "…"
    assert shortened("a cooler", 5) == "a co…"
