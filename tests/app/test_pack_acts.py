"""Every act of the menus on the selection is one step, and says so where there is nothing to act on."""

import pytest
from msgspec.structs import replace

from grillestack.app.pack_acts import PackActs
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.edits import set_nose
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import Placement
from grillestack.storage.catalogue import own_parts


@pytest.fixture
def acts(session):
    return PackActs(session)


@pytest.fixture
def said(session):
    heard = []
    session.message.connect(heard.append)
    return heard


def test_turning_all_selected_parts_is_one_step(session, acts):
    session.select(["radiator-3", "condenser-5"])
    acts.turn()
    assert [session.project.part(i).placement.quarter_turns for i in ("radiator-3", "condenser-5")] == [1, 1]
    assert session.undo_stack.count() == 1


def test_flipping_twice_is_as_before(session, acts):
    before = session.project
    session.select(["radiator-3"])
    acts.flip()
    assert session.project.part("radiator-3").placement.flipped
    acts.flip()
    assert session.project == before


def test_a_copy_stands_beside_and_is_selected(session, acts):
    session.select(["fan-7"])
    acts.duplicate()
    (copy,) = session.selection
    assert copy != "fan-7"
    assert session.project.part(copy).placement != session.project.part("fan-7").placement
    assert session.undo_stack.count() == 1


def test_parts_openings_obstructions_and_the_window_go_in_one_step(session, acts):
    window = SupportWindow(outline=rectangle_outline(-300, 500, 300, 900))
    session.apply("window", set_nose(session.project, replace(session.project.nose, support_window=window)))
    before = session.project
    session.select(["fan-7", "opening-1", "obstruction-2", SUPPORT_WINDOW_ID])
    acts.remove()
    assert session.project.nose.openings == ()
    assert session.project.nose.obstructions == ()
    assert session.project.nose.support_window is None
    assert [p.id for p in session.project.parts] == ["radiator-3", "charge-air-cooler-4", "condenser-5", "shroud-6"]
    assert session.selection == ()
    session.undo_stack.undo()
    assert session.project is before


def test_all_parts_are_selected_and_nothing_of_the_nose(session, acts):
    acts.select_all()
    assert len(session.selection) == 5


def test_a_part_from_the_shelf_is_added_and_selected_in_one_step(session, acts, shelf_of_parts):
    acts.add(shelf_of_parts[4])
    (added,) = session.selection
    assert session.project.part(added).name == "Invented fan"
    assert session.undo_stack.undoText() == "add Invented fan"
    assert session.undo_stack.count() == 1


@pytest.mark.parametrize("act", ["turn", "flip", "duplicate", "remove", "put_on_shelf"])
def test_with_nothing_selected_an_act_says_so_and_makes_no_step(session, acts, said, act):
    getattr(acts, act)()
    assert session.undo_stack.count() == 0
    assert len(said) == 1
    assert "selected" in said[0]


def test_a_copy_on_the_shelf_is_there_for_all_projects(session, acts, said):
    session.select(["radiator-3"])
    (saved,) = acts.put_on_shelf()
    assert own_parts() == (saved,)
    assert saved.placement == Placement()
    assert saved.name == "Invented radiator"
    assert "on the shelf" in said[0]
