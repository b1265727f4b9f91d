"""Copy, take up, name, keep, remove: each one step, each told, each undone."""

from __future__ import annotations

import pytest

from grillestack.app.layouts.acts import LayoutActs
from grillestack.model import edits, variants


@pytest.fixture
def said(session):
    sentences = []
    session.message.connect(sentences.append)
    return sentences


@pytest.fixture
def drafts():
    return []


@pytest.fixture
def acts(session, drafts):
    return LayoutActs(session, lambda: None, drafts.append)


def test_a_copy_is_one_step_and_in_hand(session, acts, said):
    before = session.project
    acts.copy()
    assert session.project.variant_name == "Layout B"
    assert session.project.parts is before.parts
    assert said == ["“Layout B” is in hand now; “Layout A” stays as it is."]
    assert session.undo_stack.undoText() == "copy the layout"
    session.undo_stack.undo()
    assert session.project is before


def test_taking_up_the_other_shows_its_parts_and_keeps_what_both_have_selected(session, acts):
    acts.copy()
    session.apply("move", edits.move_parts(session.project, ["radiator-3"], dz_mm=-20.0))
    session.apply("remove", edits.remove_parts(session.project, ["fan-7"]))
    session.select(["radiator-3"])
    acts.take_up("Layout A")
    assert len(session.project.parts) == 5
    assert session.selection == ("radiator-3",)
    session.select(["fan-7"])
    acts.take_up("Layout B")
    assert session.selection == ()


def test_what_is_still_being_typed_counts_for_the_layout_it_was_typed_in(session, drafts):
    def settle():
        session.apply("move", edits.move_parts(session.project, ["radiator-3"], dz_mm=-20.0))

    before = session.project.part("radiator-3").placement.z_mm
    LayoutActs(session, settle, drafts.append).copy()
    assert session.project.part("radiator-3").placement.z_mm == before - 20.0
    first = variants.switch_variant(session.project, "Layout A")
    assert first.part("radiator-3").placement.z_mm == before - 20.0


def test_keeping_only_one_drops_the_others_until_undo(session, acts, said):
    acts.copy()
    acts.copy()
    both = session.project
    acts.keep_only("Layout A")
    assert variants.layout_names(session.project) == ("Layout A",)
    assert said[-1] == "“Layout A” is the only layout now; 2 others are gone until you undo."
    session.undo_stack.undo()
    assert session.project is both


def test_the_only_layout_is_kept_without_a_step(session, acts, said):
    acts.keep_only("Layout A")
    assert session.undo_stack.count() == 0
    assert said == []


def test_removing_the_one_in_hand_says_what_is_in_hand_now(session, acts, said):
    acts.copy()
    acts.remove("Layout B")
    assert session.project.variants == ()
    assert said[-1] == "“Layout B” is gone until you undo; “Layout A” is in hand."
    acts.remove("Layout A")
    assert said[-1] == "“Layout A” is the only layout: make a copy of it before you remove it."
    assert session.undo_stack.count() == 2


def test_more_copies_than_a_project_holds_are_refused_in_a_sentence(session, acts, said):
    for _ in range(20):
        acts.copy()
    assert len(session.project.variants) == 19
    assert "may have 19 at most" in said[-1]


def filled(draft, **texts):
    for key, text in texts.items():
        draft.lines[key].setText(text)
    draft.accept()
    return draft


def test_name_and_note_are_typed_into_one_form_and_taken_in_one_step(session, acts, drafts, qtbot):
    acts.rename()
    qtbot.addWidget(drafts[0])
    assert drafts[0].lines["name"].text() == "Layout A"
    filled(drafts[0], name="Tight", note="Costs less.")
    assert (session.project.variant_name, session.project.variant_note_text) == ("Tight", "Costs less.")
    assert session.undo_stack.count() == 1


def test_a_name_that_another_layout_has_is_refused_at_the_form(session, acts, drafts, qtbot):
    acts.copy()
    acts.rename()
    qtbot.addWidget(drafts[0])
    filled(drafts[0], name="layout a")
    assert "There are two layouts called" in drafts[0].complaint.text()
    filled(drafts[0], name="")
    assert "The name of the layout is empty" in drafts[0].complaint.text()
    assert session.project.variant_name == "Layout B"


def test_a_note_of_several_lines_that_nobody_changed_keeps_its_lines(session, acts, drafts, qtbot):
    session.apply("note", variants.note_variant(session.project, "one\ntwo"))
    acts.rename()
    qtbot.addWidget(drafts[0])
    filled(drafts[0], name="Tight")
    assert session.project.variant_note_text == "one\ntwo"
    acts.rename()
    qtbot.addWidget(drafts[1])
    filled(drafts[1], note="")
    assert session.project.variant_note_text == ""
