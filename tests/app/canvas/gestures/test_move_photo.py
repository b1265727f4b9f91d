"""An unlocked photo is pushed by a drag on bare paper; a locked one lets the hand through."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.photo.picture_file import kept_picture
from grillestack.model.edits import set_photo
from grillestack.model.photo import FourCorners, Mark, Photo, TwoPoints
from tests.app.photo.drawn_photos import PLATE, a_camera, drawn_nose


@pytest.fixture
def photo(qapp):
    taken = a_camera()
    corners = tuple(Mark(*taken.sees(*place)) for place in PLATE)
    tied = FourCorners(corners=corners, width_mm=520, height_mm=110, bottom_z_mm=420)
    return Photo(image=kept_picture(drawn_nose(taken)), tied=tied, locked=False)


def test_a_drag_on_the_photo_moves_it_in_one_step(front, session, hand, photo):
    session.apply("trace", set_photo(session.project, photo))
    hand.drag((450, 850), (480, 830))
    tied = session.project.nose.photo.tied
    assert (tied.middle_y_mm, tied.bottom_z_mm) == pytest.approx((30, 400), abs=1.01)
    assert tied.corners == photo.tied.corners
    assert session.undo_stack.count() == 2
    session.undo_stack.undo()
    assert session.project.nose.photo == photo


def test_esc_puts_the_photo_back(front, session, hand, photo):
    session.apply("trace", set_photo(session.project, photo))
    hand.press(450, 850)
    hand.move(470, 870)
    hand.move(490, 880)
    assert session.shown.nose.photo.tied != photo.tied
    assert "photo up" in front.marks.moved_text
    QTest.keyClick(front, Qt.Key.Key_Escape)
    assert session.shown is session.project
    assert session.project.nose.photo == photo
    assert session.undo_stack.count() == 1


@pytest.mark.parametrize("change", [{"locked": True}, {"hidden": True}])
def test_a_locked_or_hidden_photo_stays_and_the_drag_is_a_rubber_band(front, session, hand, photo, change):
    session.apply("trace", set_photo(session.project, replace(photo, **change)))
    hand.drag((450, 850), (480, 830))
    assert session.project.nose.photo == replace(photo, **change)


def test_a_part_over_the_photo_is_what_the_hand_takes(front, session, hand, photo):
    session.apply("trace", set_photo(session.project, photo))
    hand.drag((0, 760), (20, 760))
    assert session.project.nose.photo == photo
    assert session.undo_stack.count() == 2


def test_a_photo_scaled_by_two_points_is_pushed_too(front, session, hand, photo):
    tied = TwoPoints(first=Mark(400, 800), second=Mark(1_000, 800), distance_mm=700, first_y_mm=350, first_z_mm=500)
    session.apply("trace", set_photo(session.project, replace(photo, tied=tied)))
    hand.drag((450, 850), (430, 850))
    assert session.project.nose.photo.tied.first_y_mm == pytest.approx(330, abs=1.01)
