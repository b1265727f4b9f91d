"""A core that is dragged past another one in the side view changes places with it; the gaps of the pack stay."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.move_fore_aft import cores_passed, order_past
from grillestack.model.edits import move_parts, replace_part
from grillestack.model.project import stack

ALT = Qt.KeyboardModifier.AltModifier


def order(session):
    return [part.id for part in stack(session.project)]


def test_only_cores_in_the_way_are_passed(project):
    # The CAC stands at 80–144, the radiator at 165–215: its middle is 190.
    after = move_parts(project, ["cac-1"], dx_mm=100)
    assert cores_passed(project, after, "cac-1") == ("radiator-1",)
    assert cores_passed(project, move_parts(project, ["cac-1"], dx_mm=60), "cac-1") == ()
    # A core beside it in the front view is none.
    aside = move_parts(project, ["radiator-1"], dz_mm=600)
    assert cores_passed(aside, move_parts(aside, ["cac-1"], dx_mm=100), "cac-1") == ()


def test_the_order_past_several(project):
    assert order_past(project, "condenser-1", ("cac-1", "radiator-1"))[:3] == ("cac-1", "radiator-1", "condenser-1")
    assert order_past(project, "radiator-1", ("cac-1",))[:3] == ("condenser-1", "radiator-1", "cac-1")


def test_a_drag_past_the_middle_of_another_swaps_them_and_says_so(side, side_hand, session):
    before = session.project
    session.select(["cac-1"])
    side_hand.press(110, 580)
    side_hand.move(160, 580)
    side_hand.move(200, 580)
    assert side.marks.moved_text == "changes places with radiator"
    assert [part.id for part in stack(session.shown)][:3] == ["condenser-1", "radiator-1", "cac-1"]
    assert not side.grab().isNull()
    side_hand.release(200, 580)
    assert order(session)[:3] == ["condenser-1", "radiator-1", "cac-1"]
    # The gaps stay: 20 mm behind the condenser (60 to 80), 21 mm after it (144 to 165).
    assert session.project.part("radiator-1").placement.x_mm == pytest.approx(80)
    assert session.project.part("cac-1").placement.x_mm == pytest.approx(80 + 50 + 21)
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert session.project is before


def test_with_alt_it_goes_where_the_hand_has_it(side_hand, session):
    session.select(["cac-1"])
    side_hand.drag((110, 580), (200, 580), held=ALT)
    assert session.project.part("cac-1").placement.x_mm == pytest.approx(170, abs=2)
    assert session.project.part("radiator-1").placement.x_mm == 165


def test_what_is_locked_is_not_pushed_out_of_its_place(side, side_hand, session):
    locked = replace(session.project.part("radiator-1"), locked=True)
    session.apply("lock", replace_part(session.project, locked))
    session.select(["cac-1"])
    side_hand.press(110, 580)
    side_hand.move(160, 580)
    side_hand.move(200, 580)
    assert "places" not in side.marks.moved_text
    side_hand.release(200, 580)
    assert session.project.part("radiator-1").placement.x_mm == 165
