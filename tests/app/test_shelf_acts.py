"""The user's own parts are saved, used again, renamed and taken off the shelf; trouble is told in a sentence."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.storage.catalogue import own_parts, own_parts_path


@pytest.fixture
def own(window, session):
    """Put the truck's radiator on the shelf and give its catalogue part."""
    session.select(["radiator-3"])
    window.menus.actions["Put a copy on the shelf"].trigger()
    return own_parts()[0]


def lines(window, part_id):
    return dict(window.shelf_acts.lines_for(part_id, window._show_draft))


def test_an_own_part_is_saved_and_used_again_in_another_project(window, session, own):
    assert window.shelf.find_part(own.id) == own
    before = len(session.project.parts)
    lines(window, own.id)["Put it into the pack"]()
    assert len(session.project.parts) == before + 1
    assert session.project.part(session.selection[0]).name == own.name


def test_only_an_own_part_can_be_renamed_or_taken_off(window, own):
    assert set(lines(window, own.id)) == {"Put it into the pack", "Rename it…", "Take it off the shelf"}
    assert set(lines(window, "inv-fan-380")) == {"Put it into the pack"}


def test_it_is_renamed_by_typing(window, own):
    lines(window, own.id)["Rename it…"]()
    line = window.card.draft.lines["name"]
    line.selectAll()
    QTest.keyClicks(line, "Radiator from the barn")
    QTest.keyClick(line, Qt.Key.Key_Return)
    (now,) = own_parts()
    assert (now.id, now.name) == (own.id, "Radiator from the barn")
    assert window.shelf.find_part(own.id).name == "Radiator from the barn"


def test_an_empty_name_is_refused_in_the_form(window, own):
    lines(window, own.id)["Rename it…"]()
    line = window.card.draft.lines["name"]
    line.selectAll()
    QTest.keyClick(line, Qt.Key.Key_Delete)
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert window.card.draft is not None
    assert window.card.draft.complaint.text()
    assert own_parts()[0].name == own.name


def test_taken_off_the_shelf_it_can_be_put_back(window, own):
    lines(window, own.id)["Take it off the shelf"]()
    assert own_parts() == ()
    assert window.shelf.find_part(own.id) is None
    button = next(b for b in window.strip.buttons() if b.text() == "Put it back")
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert [part.name for part in own_parts()] == [own.name]
    assert window.shelf.find_part(own.id) is not None


def test_a_part_that_another_window_took_off_is_told(window, own):
    remove = lines(window, own.id)["Take it off the shelf"]
    remove()
    window.strip.clear()
    remove()
    assert any("not among your own any more" in sentence for sentence in window.strip.sentences())


def test_a_damaged_catalogue_is_told_and_left_alone(window, own):
    own_parts_path().write_text("{ cut", encoding="utf-8")
    assert set(lines(window, own.id)) == {"Put it into the pack"}
    window.shelf_acts.remove(own.id)
    assert any("own_parts.json" in sentence for sentence in window.strip.sentences())
    assert own_parts_path().read_text(encoding="utf-8") == "{ cut"
