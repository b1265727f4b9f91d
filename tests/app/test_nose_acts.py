"""Mirroring a selected outline from the menu: one step, or a sentence."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.app.nose_acts import NoseActs
from grillestack.app.nose_things import find_thing, put_thing
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline


@pytest.fixture
def said(session):
    found = []
    session.message.connect(found.append)
    return found


def with_outline(session, name, outline, **more):
    thing = replace(find_thing(session.project, name), outline=outline, **more)
    session.open_project(put_thing(session.project, thing), None)
    session.select([name])


def test_an_opening_on_one_side_gets_a_twin_that_is_selected(session, said):
    with_outline(session, "opening-1", rectangle_outline(100, 500, 300, 700), corner_radii_mm=(5, 0, 0, 0))
    NoseActs(session).mirror()
    first, second = session.project.nose.openings
    assert sorted((p.y_mm, p.z_mm) for p in second.outline) == sorted((-p.y_mm, p.z_mm) for p in first.outline)
    assert sorted(second.corner_radii_mm) == [0, 0, 0, 5]
    assert session.selection == (second.id,)
    assert session.undo_stack.count() == 1
    assert not said


def test_an_opening_over_the_centre_becomes_symmetrical(session):
    with_outline(session, "opening-1", rectangle_outline(-50, 500, 300, 700))
    NoseActs(session).mirror()
    (only,) = session.project.nose.openings
    assert {p.y_mm for p in only.outline} == {-300, 300}
    assert session.undo_stack.count() == 1


def test_a_support_window_on_one_side_is_not_doubled_and_it_is_said_why(session, said):
    window = SupportWindow(outline=rectangle_outline(100, 500, 300, 700))
    session.open_project(put_thing(session.project, window), None)
    session.select([SUPPORT_WINDOW_ID])
    NoseActs(session).mirror()
    assert "has one window" in said[-1]
    assert session.undo_stack.count() == 0


def test_without_an_outline_it_says_what_to_select(session, said):
    session.select([session.project.parts[0].id])
    NoseActs(session).mirror()
    assert "Select one opening" in said[-1]
