"""The view from above: in line with the front view and at its scale, drags along and across, shut by default."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.plan_drawer import PlanDrawer
from grillestack.app.canvas.plan_view import PlanView
from grillestack.app.palette import dark, light
from grillestack.model.project import Project
from grillestack.model.states import set_hidden, set_locked
from tests.app.canvas.conftest import Hand

ALT = Qt.KeyboardModifier.AltModifier
LEFT = Qt.MouseButton.LeftButton


def place(session, part_id):
    at = session.project.part(part_id).placement
    return at.x_mm, at.y_mm, at.z_mm


@pytest.fixture
def drawer(session, front, qtbot):
    """The drawer under the front view, shut, 700 × 760 pixels."""
    made = PlanDrawer(front, PlanView(session, light(), front))
    qtbot.addWidget(made)
    made.resize(700, 760)
    made.show()
    QApplication.processEvents()
    return made


@pytest.fixture
def plan(drawer):
    """The view from above in the open drawer."""
    drawer.show_plan(is_open=True)
    QApplication.processEvents()
    return drawer.plan


@pytest.fixture
def plan_hand(plan):
    """A hand on the view from above."""
    return Hand(plan)


def test_the_drawer_is_shut_until_its_handle_is_pressed(drawer):
    assert not drawer.is_open
    assert drawer.handle.accessibleName() == "Open the view from above"
    QTest.mouseClick(drawer.handle, LEFT)
    assert drawer.is_open
    assert drawer.plan.isVisible()
    QTest.mouseClick(drawer.handle, LEFT)
    assert not drawer.is_open


def test_it_stands_in_line_with_the_front_view_at_the_same_scale(front, plan):
    for y in (-300, 0, 250):
        assert plan.px_of(y, 100).x() == pytest.approx(front.px_of(y, 700).x(), abs=1.0)
    front.zoom_by(1.7, QPointF(200, 200))
    front.pan_by(35, -20)
    for y in (-300, 0, 250):
        assert plan.px_of(y, 100).x() == pytest.approx(front.px_of(y, 700).x(), abs=1.0)
    assert plan.heights.px_per_mm == front.heights.px_per_mm


def test_zooming_and_pushing_it_takes_the_front_view_along(front, plan):
    at = QPointF(300, 100)
    before = plan.sheet_at(at)
    plan.zoom_by(1.5, at)
    assert plan.sheet_at(at) == pytest.approx(before, abs=2.0)
    plan.pan_by(24, 10)
    assert plan.px_of(100, 100).x() == pytest.approx(front.px_of(100, 700).x(), abs=1.0)


def test_the_front_lies_at_the_foot_and_the_vehicles_right_at_the_left(plan):
    assert plan.px_of(0, 0).y() > plan.px_of(0, 200).y()
    assert plan.px_of(200, 0).x() < plan.px_of(-200, 0).x()


def test_a_drag_moves_across_and_along_never_up_in_one_step(plan, plan_hand, session):
    x, y, z = place(session, "cac-1")
    plan_hand.click(0, 110)
    assert session.selection == ("cac-1",)
    plan_hand.drag((0, 110), (-40, 128), held=ALT)
    x2, y2, z2 = place(session, "cac-1")
    tolerance = 1.5 / plan.heights.px_per_mm
    assert (x2 - x, y2 - y) == (pytest.approx(18, abs=tolerance), pytest.approx(-40, abs=tolerance))
    assert z2 == z
    assert session.undo_stack.count() == 1


def test_lines_are_named_drawn_and_let_go_of(plan, plan_hand, session):
    session.select(["cac-1"])
    plan_hand.press(30, 110)
    plan_hand.move(28, 108)
    # The condenser's rear stands at 60, the CAC's tanks begin at 72: 12 mm to go.
    plan_hand.move(25, 98.4)
    assert "touching the rear of the condenser" in [line.words for line in plan.marks.snaps]
    assert not plan.grab().isNull()
    plan_hand.release(25, 98.4)
    assert place(session, "cac-1")[0] - 8 == pytest.approx(60)


def test_escape_puts_it_back(plan, plan_hand, session):
    old = session.project
    session.select(["cac-1"])
    plan_hand.press(0, 110)
    plan_hand.move(20, 120)
    plan_hand.move(40, 130)
    assert session.in_trial
    plan_hand.key(Qt.Key.Key_Escape)
    assert session.shown is old
    plan_hand.release(40, 130)
    assert session.undo_stack.count() == 0


def test_a_typed_distance_goes_rearward(plan, plan_hand, session):
    x, y, z = place(session, "radiator-1")
    session.select(["radiator-1"])
    plan_hand.press(0, 190)
    plan_hand.move(2, 200)
    plan_hand.move(4, 206)
    QTest.keyClicks(plan, "17")
    assert [(row.words, row.text) for row in plan.marks.typed] == [("rearward", "17 mm")]
    assert not plan.grab().isNull()
    QTest.keyClick(plan, Qt.Key.Key_Return)
    assert place(session, "radiator-1") == (x + 17, y, z)


def test_clicks_cycle_from_the_highest_down(plan_hand, session):
    # Seen from above at the shroud's middle: shroud (top 920) and right fan (top 850).
    found = []
    for _ in range(3):
        plan_hand.click(155, 260)
        found += session.selection
    assert found == ["shroud-1", "fan-1", "shroud-1"]


def test_hidden_parts_are_neither_drawn_nor_hit_and_locked_ones_stay(plan, plan_hand, session):
    session.apply("hide", set_hidden(session.project, ["cac-1"], hidden=True))
    plan_hand.click(0, 110)
    assert session.selection == ()
    session.apply("lock", set_locked(session.project, ["radiator-1"], locked=True))
    stayed = []
    session.stayed.connect(stayed.append)
    before = session.project
    session.select(["radiator-1"])
    plan_hand.drag((0, 190), (30, 200))
    assert session.project is before
    assert stayed == [("radiator-1",)]


def test_an_empty_and_a_dark_one_paint(plan, session):
    plan.show_palette(dark())
    assert not plan.grab().isNull()
    session.open_project(Project(), None)
    assert not plan.grab().isNull()


def test_shut_it_draws_nothing_and_catches_up_when_opened(drawer, session):
    session.apply("hide", set_hidden(session.project, ["cac-1"], hidden=True))
    drawer.show_plan(is_open=True)
    QApplication.processEvents()
    hand = Hand(drawer.plan)
    hand.click(0, 110)
    assert session.selection == ()
