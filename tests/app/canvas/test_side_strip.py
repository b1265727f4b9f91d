"""The side strip under real mouse and key events."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, Qt

from grillestack.model.project import Project

ALT = Qt.KeyboardModifier.AltModifier


def x_of(session, part_id: str) -> float:
    return session.project.part(part_id).placement.x_mm


def test_front_is_at_the_left_and_heights_agree_with_the_front_view(front, side):
    assert side.px_of(0, 700).x() < side.px_of(200, 700).x()
    for z in (500, 700, 900):
        assert side.px_of(0, z).y() == pytest.approx(front.px_of(0, z).y(), abs=1.0)


def test_both_views_zoom_and_scroll_together(front, side):
    front.zoom_by(1.6)
    front.pan_by(0, 35)
    assert side.px_of(0, 700).y() == pytest.approx(front.px_of(0, 700).y(), abs=1.0)
    side.zoom_by(0.7)
    side.pan_by(10, -22)
    assert side.px_of(0, 700).y() == pytest.approx(front.px_of(0, 700).y(), abs=1.0)
    assert side.heights.px_per_mm == front.heights.px_per_mm


def test_a_drag_moves_the_part_fore_and_aft_only_in_one_step(side, side_hand, session):
    before = session.project.part("radiator-1").placement
    side_hand.click(190, 860)
    assert session.selection == ("radiator-1",)
    side_hand.drag((190, 860), (221, 820), held=ALT)
    after = session.project.part("radiator-1").placement
    assert after.x_mm - before.x_mm == pytest.approx(31, abs=1.5 / side.heights.px_per_mm)
    assert (after.y_mm, after.z_mm) == (before.y_mm, before.z_mm)
    assert session.undo_stack.count() == 1


def test_a_part_touches_its_neighbour_and_the_line_says_which(side, side_hand, session):
    # The condenser's rear stands at 60, the CAC's tanks begin at 72: 12 mm to go.
    session.select(["cac-1"])
    side_hand.press(110, 580)
    side_hand.move(104, 580)
    side_hand.move(98.4, 580)
    assert [line.words for line in side.marks.snaps] == ["touching the rear of the condenser"]
    side_hand.release(98.4, 580)
    assert x_of(session, "cac-1") - 8 == pytest.approx(60)


def test_escape_puts_it_back(side, side_hand, session):
    old = session.project
    session.select(["radiator-1"])
    side_hand.press(190, 860)
    side_hand.move(220, 860)
    side_hand.move(260, 860)
    assert session.in_trial
    side_hand.key(Qt.Key.Key_Escape)
    assert session.shown is old
    side_hand.release(260, 860)
    assert session.undo_stack.count() == 0


def test_clicks_cycle_through_what_lies_there(side_hand, session):
    found = []
    for _ in range(5):
        side_hand.click(260, 700)
        found += session.selection
    assert found == ["shroud-1", "fan-1", "fan-2", "shroud-1", "fan-1"]


def test_an_empty_project_paints(side, session):
    session.open_project(Project(), None)
    side.across_fit()
    assert not side.grab().isNull()


def test_a_drag_paints_its_tag_and_line(side, side_hand, session):
    session.select(["cac-1"])
    side_hand.press(110, 580)
    side_hand.move(104, 580)
    side_hand.move(98, 580)
    assert side.marks.moved_text.startswith("forward")
    assert not side.grab().isNull()


def test_zooming_in_the_front_view_keeps_the_middle_of_the_strip(front, side):
    middle = side.viewport().width() / 2
    before = side.sheet_at(QPointF(middle, 100))[0]
    front.zoom_by(2.0)
    assert side.sheet_at(QPointF(middle, 100))[0] == pytest.approx(before, abs=1.5 / side.across_scale)


def test_a_deep_pack_is_narrowed_and_drags_are_still_true(side, side_hand, session):
    side.resize(190, 600)
    side.across_fit()
    assert side.across_share < 1
    session.select(["radiator-1"])
    side_hand.drag((190, 860), (221, 860), held=ALT)
    moved = x_of(session, "radiator-1") - 165
    assert moved == pytest.approx(31, abs=1.5 / side.across_scale)
