"""The front view as a sheet: what it draws, how it is zoomed and pushed, and what it tells without a mouse."""

from __future__ import annotations

import msgspec
import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QFocusEvent, QWheelEvent
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas import front_view
from grillestack.app.palette import dark
from grillestack.geometry.projection import project_part
from grillestack.model.edits import move_parts, set_nose
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project, stack
from grillestack.units.display import UnitSystem

ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def place(session, part_id: str) -> tuple[float, float, float]:
    at = session.project.part(part_id).placement
    return at.x_mm, at.y_mm, at.z_mm


def test_plus_y_is_drawn_to_the_viewers_left_and_plus_z_up(front):
    assert front.px_of(100, 700).x() < front.px_of(0, 700).x()
    assert front.px_of(0, 800).y() < front.px_of(0, 700).y()


def test_the_wheel_zooms_and_what_is_under_the_pointer_stays(front):
    px = QPointF(200, 150)
    before = front.sheet_at(px)
    scale = front.heights.px_per_mm
    event = QWheelEvent(
        px,
        front.viewport().mapToGlobal(px),
        QPoint(),
        QPoint(0, 240),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(front.viewport(), event)
    assert front.heights.px_per_mm > scale
    after = front.sheet_at(px)
    tolerance = 1.5 / front.heights.px_per_mm
    assert after == (pytest.approx(before[0], abs=tolerance), pytest.approx(before[1], abs=tolerance))


def test_middle_button_and_space_push_the_sheet_and_touch_no_part(front, hand, session):
    before = front.px_of(0, 700)
    middle = Qt.MouseButton.MiddleButton
    start = QPointF(300, 300)
    hand.send(QEvent.Type.MouseButtonPress, start, middle)
    hand.send(QEvent.Type.MouseMove, start + QPointF(30, -20), middle)
    hand.send(QEvent.Type.MouseButtonRelease, start + QPointF(30, -20), middle)
    after = front.px_of(0, 700)
    assert (after - before).x() == pytest.approx(30, abs=1.5)
    assert (after - before).y() == pytest.approx(-20, abs=1.5)
    hand.key(Qt.Key.Key_Space)
    hand.send(QEvent.Type.MouseButtonPress, start)
    hand.send(QEvent.Type.MouseMove, start + QPointF(-30, 20))
    hand.send(QEvent.Type.MouseButtonRelease, start + QPointF(-30, 20))
    hand.key(Qt.Key.Key_Space, QEvent.Type.KeyRelease)
    assert (front.px_of(0, 700) - before).manhattanLength() < 3
    assert session.undo_stack.count() == 0


def test_tab_walks_through_the_parts_from_front_to_back(front, session):
    order = [part.id for part in stack(session.project)]
    for expected in order:
        assert front.focusNextPrevChild(True)
        assert session.selection == (expected,)
    assert front.focusNextPrevChild(False)
    assert session.selection == (order[-2],)


def test_arrow_keys_are_left_to_the_window(hand):
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Up, Qt.Key.Key_Delete):
        assert not hand.key(key)


def test_only_the_part_that_changed_is_drawn_anew(front, session):
    sheet = front._sheet
    items = {part.id: sheet.part_item(part.id) for part in session.project.parts}
    assert sheet.show_project(session.shown, session.selection, front.sheet_palette) == 0
    moved = move_parts(session.project, ["fan-2"], dz_mm=5)
    assert sheet.show_project(moved, session.selection, front.sheet_palette) == 1
    assert all(sheet.part_item(name) is item for name, item in items.items())


def test_the_view_tells_the_pack_from_front_to_back_in_words(front):
    words = front.accessibleDescription()
    names = ["1 Condenser", "2 Bar-and-plate CAC", "3 Two-row radiator", "4 Full shroud", "5 Fan 300 right"]
    places = [words.index(name) for name in names]
    assert places == sorted(places)


@pytest.mark.parametrize("units", list(UnitSystem))
def test_every_state_paints_without_an_exception(front, hand, session, units):
    session.set_units(units)
    for chosen in ((), ("cac-1",), ("fan-1",), ("opening-1",), ("cac-1", "fan-1"), ("shroud-1",), ("beam",)):
        session.select(chosen)
        assert not front.grab().isNull()
    hand.press(330, 600)
    hand.move(330, 640)
    assert not front.grab().isNull()
    hand.release(330, 640)
    front.show_palette(dark())
    assert not front.grab().isNull()


def test_an_empty_project_paints_and_names_the_next_step(front, session):
    session.open_project(Project(), None)
    assert "grille opening" in front.accessibleDescription()
    front.zoom_to_fit()
    assert not front.grab().isNull()


def test_a_failed_assessment_still_paints(front, session, monkeypatch):
    def fails(_project, _previous):
        raise RuntimeError("no answer")

    monkeypatch.setattr(session, "_assess", fails)
    session.apply("aside", move_parts(session.project, ["radiator-1"], dy_mm=40))
    assert session.assessment is None
    assert not front.grab().isNull()


def test_the_pointer_says_what_a_press_would_do(front, hand, session):
    session.select(["cac-1"])
    hand.send(QEvent.Type.MouseMove, hand.px(0, 710), Qt.MouseButton.NoButton)
    assert front.viewport().cursor().shape() is Qt.CursorShape.SizeVerCursor
    # The upper corner at the vehicle's right is the viewer's upper left one.
    hand.send(QEvent.Type.MouseMove, hand.px(360, 710), Qt.MouseButton.NoButton)
    assert front.viewport().cursor().shape() is Qt.CursorShape.SizeFDiagCursor
    hand.send(QEvent.Type.MouseMove, hand.px(330, 600), Qt.MouseButton.NoButton)
    assert front.viewport().cursor().shape() is Qt.CursorShape.SizeAllCursor
    hand.send(QEvent.Type.MouseMove, hand.px(400, 1000), Qt.MouseButton.NoButton)
    assert front.viewport().cursor().shape() is Qt.CursorShape.ArrowCursor


def test_the_keyboard_is_shown_where_it_is(front):
    plain = front.grab().toImage()
    QApplication.sendEvent(front, QFocusEvent(QEvent.Type.FocusIn, Qt.FocusReason.MouseFocusReason))
    assert front.grab().toImage() == plain
    QApplication.sendEvent(front, QFocusEvent(QEvent.Type.FocusIn, Qt.FocusReason.TabFocusReason))
    assert front.grab().toImage() != plain


def test_a_pointer_that_only_passes_repaints_the_rulers_and_no_words(front, hand, monkeypatch):
    painted = []
    monkeypatch.setattr(front_view, "paint_front_words", lambda *_: painted.append("words"))
    front.viewport().repaint()
    assert painted == ["words"]
    hand.send(QEvent.Type.MouseMove, hand.px(300, 600), Qt.MouseButton.NoButton)
    QApplication.processEvents()
    painted.clear()
    hand.send(QEvent.Type.MouseMove, hand.px(200, 650), Qt.MouseButton.NoButton)
    QApplication.processEvents()
    assert painted == []


def test_a_beam_as_wide_as_the_vehicle_does_not_make_the_pack_small(front, session):
    front.zoom_to_fit()
    scale = front.heights.px_per_mm
    beam = session.project.nose.obstructions[0]
    wide = replace(beam, outline=rectangle_outline(-900, 520, 900, 575))
    session.apply("wider", set_nose(session.project, replace(session.project.nose, obstructions=(wide,))))
    front.zoom_to_fit()
    assert front.heights.px_per_mm == pytest.approx(scale)
    for part in session.project.parts:
        box = project_part(part).outline_box
        for y, z in ((box.y0_mm, box.z0_mm), (box.y1_mm, box.z1_mm)):
            assert front.sheet_area().contains(front.px_of(y, z))


def test_another_document_is_made_to_fit_and_an_edit_is_not(front, session):
    front.zoom_by(3.0)
    close = front.heights.px_per_mm
    session.apply("aside", move_parts(session.project, ["cac-1"], dy_mm=40))
    session.apply("nose", set_nose(session.project, replace(session.project.nose, name="Another name")))
    assert front.heights.px_per_mm == close
    other = msgspec.json.decode(msgspec.json.encode(session.project), type=Project)
    session.open_project(other, None)
    assert front.heights.px_per_mm < close
    assert front.heights.is_fitted
