"""The front view under real mouse and key events: what a hand does is what the document becomes."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.gestures.drop import PART_MIME
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.edits import move_parts

ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def place(session, part_id: str) -> tuple[float, float, float]:
    at = session.project.part(part_id).placement
    return at.x_mm, at.y_mm, at.z_mm


def test_a_drag_moves_the_part_by_what_the_hand_moved_in_one_undo_step(front, hand, session):
    _, y, z = place(session, "cac-1")
    hand.click(330, 600)
    assert session.selection == ("cac-1",)
    hand.drag((330, 600), (293, 641), held=ALT)
    _, y2, z2 = place(session, "cac-1")
    tolerance = 1.5 / front.heights.px_per_mm
    assert y2 - y == pytest.approx(-37, abs=tolerance)
    assert z2 - z == pytest.approx(41, abs=tolerance)
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert place(session, "cac-1")[1:] == (y, z)


def test_a_drag_shows_a_real_trial_before_the_hand_lets_go(hand, session):
    before = session.assessment.radiator.exposed_mm2
    hand.press(330, 600)
    hand.move(330, 620)
    hand.move(330, 450, held=ALT)
    assert session.in_trial
    assert session.assessment.radiator.exposed_mm2 > before
    assert session.base_assessment.radiator.exposed_mm2 == before
    assert session.undo_stack.count() == 0
    hand.release(330, 450, held=ALT)
    assert not session.in_trial
    assert session.undo_stack.count() == 1


def test_escape_puts_the_part_back_and_leaves_no_step(hand, session):
    old = session.project
    hand.press(330, 600)
    hand.move(300, 650)
    hand.move(250, 700)
    assert session.shown is not old
    assert hand.key(Qt.Key.Key_Escape)
    assert session.shown is old
    hand.move(200, 700)
    hand.release(200, 700)
    assert session.project is old
    assert session.undo_stack.count() == 0


def test_a_click_moves_nothing_even_if_the_hand_trembles(front, hand, session):
    at = hand.px(330, 600)
    hand.send(QEvent.Type.MouseButtonPress, at)
    hand.send(QEvent.Type.MouseMove, at + QPointF(1, 2))
    hand.send(QEvent.Type.MouseButtonRelease, at + QPointF(1, 2))
    assert session.undo_stack.count() == 0
    assert not front.in_gesture


def test_a_part_jumps_to_the_centre_of_the_nose_and_says_so(front, hand, session):
    session.apply("aside", move_parts(session.project, ["cac-1"], dy_mm=40))
    session.select(["cac-1"])
    off = 3 / front.heights.px_per_mm
    hand.press(300, 600)
    hand.move(280, 600)
    hand.move(260 + off, 600)
    assert "centre of nose" in [line.words for line in front.marks.snaps]
    hand.release(260 + off, 600)
    assert place(session, "cac-1")[1] == 0.0


def test_a_part_jumps_level_with_the_radiators_top(front, hand, session):
    session.select(["cac-1"])
    rise = 920 - 710  # radiator top 700 + 220, CAC top 630 + 80
    hand.press(330, 600)
    hand.move(330, 620)
    hand.move(330, 600 + rise + 2 / front.heights.px_per_mm)
    assert "level with radiator top" in [line.words for line in front.marks.snaps]
    hand.release(330, 600 + rise + 2 / front.heights.px_per_mm)
    assert place(session, "cac-1")[2] + 80 == pytest.approx(920, abs=1e-9)


def test_alt_suspends_the_jump(front, hand, session):
    session.apply("aside", move_parts(session.project, ["cac-1"], dy_mm=40))
    session.select(["cac-1"])
    hand.press(300, 600)
    hand.move(280, 600, held=ALT)
    hand.move(262, 600, held=ALT)
    assert front.marks.snaps == ()
    hand.release(262, 600, held=ALT)
    assert place(session, "cac-1")[1] != 0.0


def test_repeated_clicks_at_one_place_go_from_front_to_back_and_round_again(hand, session):
    found = []
    for _ in range(6):
        hand.click(150, 680)
        found += session.selection
    assert found == ["condenser-1", "cac-1", "radiator-1", "shroud-1", "fan-1", "condenser-1"]


def test_a_fresh_click_elsewhere_starts_at_the_front_again(hand, session):
    hand.click(150, 680)
    hand.click(150, 680)
    assert session.selection == ("cac-1",)
    hand.click(-150, 690)
    assert session.selection == ("condenser-1",)


def test_the_selected_part_is_dragged_though_another_stands_before_it(hand, session):
    session.select(["radiator-1"])
    hand.drag((100, 690), (100, 660), held=ALT)
    assert place(session, "radiator-1")[2] != 700
    assert place(session, "condenser-1") == (40, 0, 745)


def test_several_selected_parts_move_together_in_one_step(hand, session):
    session.select(["fan-1", "fan-2"])
    hand.drag((155, 690), (155, 730), held=ALT)
    lifted = place(session, "fan-1")[2] - 700
    assert lifted > 30
    assert place(session, "fan-2")[2] - 700 == pytest.approx(lifted)
    assert session.undo_stack.count() == 1


def test_a_band_over_empty_paper_selects_what_lies_inside(hand, session):
    hand.drag((430, 1000), (-430, 560))
    assert set(session.selection) == {"condenser-1"}
    hand.drag((430, 1000), (-430, 400))
    assert set(session.selection) == {part.id for part in session.project.parts}
    assert session.undo_stack.count() == 0


def test_escape_during_a_band_brings_the_old_selection_back(hand, session):
    session.select(["radiator-1"])
    hand.press(430, 1000)
    hand.move(0, 700)
    hand.move(-430, 400)
    assert len(session.selection) > 1
    hand.key(Qt.Key.Key_Escape)
    assert session.selection == ("radiator-1",)


def test_a_click_on_empty_paper_selects_nothing(hand, session):
    session.select(["radiator-1"])
    hand.click(400, 1000)
    assert session.selection == ()


def test_shift_adds_to_the_selection_and_takes_away(hand, session):
    hand.click(150, 680)
    hand.click(330, 600, held=SHIFT)
    assert session.selection == ("condenser-1", "cac-1")
    hand.click(330, 600, held=SHIFT)
    assert session.selection == ("condenser-1",)


def test_opening_and_support_window_are_selected_at_their_outlines_only(hand, session):
    hand.click(0, 840)
    assert session.selection == ("condenser-1",)
    hand.click(0, 840)
    hand.click(0, 840)
    hand.click(0, 840)
    assert session.selection == ("opening-1",)
    hand.click(385, 800)
    assert session.selection == (SUPPORT_WINDOW_ID,)


def test_an_own_size_part_is_stretched_by_its_edge_and_the_far_edge_stays(front, hand, session):
    session.select(["cac-1"])
    # The top edge of the CAC at 710; its bottom edge at 550 must stay.
    hand.drag((0, 710), (0, 745), held=ALT)
    cac = session.project.part("cac-1")
    tolerance = 1.5 / front.heights.px_per_mm
    assert cac.core_height_mm == pytest.approx(195, abs=tolerance)
    assert cac.placement.z_mm - cac.core_height_mm / 2 == pytest.approx(550)
    assert cac.core_width_mm == 600
    assert session.undo_stack.count() == 1


def test_stretching_sideways_keeps_the_tanks_as_wide_as_they_are(front, hand, session):
    session.select(["cac-1"])
    hand.drag((360, 630), (390, 630), held=ALT)
    cac = session.project.part("cac-1")
    assert cac.core_width_mm == pytest.approx(630, abs=1.5 / front.heights.px_per_mm)
    assert [s.rect.width_mm for s in cac.solids] == pytest.approx([60, 60])
    assert cac.placement.y_mm + cac.overall.u_min_mm == pytest.approx(-360)


def test_escape_during_a_stretch_gives_the_old_size_back(hand, session):
    old = session.project
    session.select(["cac-1"])
    hand.press(0, 710)
    hand.move(0, 730)
    hand.move(0, 760)
    assert session.shown.part("cac-1").core_height_mm > 160
    hand.key(Qt.Key.Key_Escape)
    assert session.shown is old


def test_a_bought_part_says_that_it_keeps_its_size(hand, session):
    said = []
    session.message.connect(said.append)
    session.select(["radiator-1"])
    hand.drag((0, 920), (0, 950), held=ALT)
    radiator = session.project.part("radiator-1")
    assert radiator.core_height_mm == 440
    assert any("Two-row radiator" in sentence and "keeps its size" in sentence for sentence in said)


def test_undo_while_a_part_is_held_lets_go_of_it(front, hand, session):
    session.apply("aside", move_parts(session.project, ["radiator-1"], dy_mm=40))
    session.select(["cac-1"])
    hand.press(330, 600)
    hand.move(330, 640)
    session.undo_stack.undo()
    assert not front.in_gesture
    hand.move(330, 660)
    hand.release(330, 660)
    assert place(session, "cac-1") == (80, 0, 630)
    assert place(session, "radiator-1")[1] == 0


def drop_event(view, kind, across, z, mime):
    px = view.px_of(across, z)
    action, buttons = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    none = Qt.KeyboardModifier.NoModifier
    if kind is QDropEvent:
        event = QDropEvent(px, action, mime, buttons, none)
    else:
        event = kind(px.toPoint(), action, mime, buttons, none)
    QApplication.sendEvent(view.viewport(), event)
    return event


def shelf_mime(text: str) -> QMimeData:
    mime = QMimeData()
    mime.setData(PART_MIME, text.encode())
    return mime


def test_a_part_of_the_shelf_is_tried_under_the_pointer_and_added_in_one_step(front, session):
    mime = shelf_mime("shelf-cooler")
    drop_event(front, QDragEnterEvent, 0, 760, mime)
    drop_event(front, QDragMoveEvent, 100, 760, mime)
    assert session.in_trial
    assert len(session.shown.parts) == len(session.project.parts) + 1
    drop_event(front, QDropEvent, 100, 760, mime)
    added = session.project.part(session.selection[0])
    tolerance = 1.5 / front.heights.px_per_mm
    assert added.name == "Plate oil cooler"
    assert added.placement.y_mm == pytest.approx(100, abs=tolerance + 6 / front.heights.px_per_mm)
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert len(session.project.parts) == 6


def test_a_part_carried_away_again_leaves_nothing(front, session):
    old = session.project
    mime = shelf_mime("shelf-cooler")
    drop_event(front, QDragEnterEvent, 0, 760, mime)
    assert session.in_trial
    QApplication.sendEvent(front.viewport(), QDragLeaveEvent())
    assert session.shown is old
    assert session.undo_stack.count() == 0


def test_what_the_shelf_does_not_hold_is_not_taken(front, session):
    event = drop_event(front, QDragEnterEvent, 0, 760, shelf_mime("no-such-part"))
    assert not event.isAccepted()
    assert not session.in_trial


def test_a_thing_of_the_vehicle_is_moved_only_once_it_is_selected(front, hand, session):
    said = []
    session.message.connect(said.append)
    hand.drag((-400, 550), (-400, 530), held=ALT)
    assert session.selection == ("beam",)
    assert session.undo_stack.count() == 0
    assert len(said) == 1
    assert "drag again" in said[0]
    hand.drag((-400, 550), (-400, 530), held=ALT)
    lowest = min(point.z_mm for point in session.project.nose.obstructions[0].outline)
    assert lowest == pytest.approx(500, abs=1.5 / front.heights.px_per_mm)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == "Move Bumper beam"


def test_the_opening_is_pushed_as_a_whole_by_its_outline(front, hand, session):
    old = session.project.nose.openings[0].outline
    session.select(["opening-1"])
    hand.drag((350, 750), (350, 771), held=ALT)  # off the middle of the side, by which the side is pulled
    new = session.project.nose.openings[0].outline
    rises = {round(b.z_mm - a.z_mm, 6) for a, b in zip(old, new, strict=True)}
    assert len(rises) == 1
    assert rises.pop() == pytest.approx(21, abs=1.5 / front.heights.px_per_mm)
    assert session.shown.parts is session.project.parts
