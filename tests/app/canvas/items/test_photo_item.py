"""The photo lies under everything, is worked out once, and leaves a drag as quick as it was."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.items import photo_item
from grillestack.app.photo.picture_file import kept_picture
from grillestack.model.edits import move_parts, set_photo
from grillestack.model.nose import Nose
from grillestack.model.photo import FourCorners, Mark, Photo, PhotoImage
from grillestack.model.project import Project
from tests.app.photo.drawn_photos import PLATE, a_camera, drawn_nose


@pytest.fixture
def photo(qapp):
    taken = a_camera()
    corners = tuple(Mark(*taken.sees(*place)) for place in PLATE)
    tied = FourCorners(corners=corners, width_mm=520, height_mm=110, bottom_z_mm=420)
    return Photo(image=kept_picture(drawn_nose(taken)), tied=tied, opacity_frac=1.0)


@pytest.fixture
def counted(monkeypatch):
    """Count how often a photo is unfolded and straightened."""
    calls = {"pixels_of": 0, "straightened": 0}
    for name in calls:
        real = getattr(photo_item, name)

        def counting(*args, name=name, real=real):
            calls[name] += 1
            return real(*args)

        monkeypatch.setattr(photo_item, name, counting)
    return calls


def colour_at(front, y_mm, z_mm):
    QApplication.processEvents()
    return QColor(front.grab().toImage().pixel(front.px_of(y_mm, z_mm).toPoint()))


def is_red(colour):
    return colour.red() > colour.green() + 60 and colour.red() > colour.blue() + 60


def test_the_photo_is_seen_where_it_lies_on_the_vehicle(front, session, photo):
    # Beside the pack: the red panel of the photo reaches 900 mm to both sides, z from 300 to 1100.
    assert not is_red(colour_at(front, 440, 800))
    session.apply("trace", set_photo(session.project, photo))
    assert is_red(colour_at(front, 440, 800))
    assert is_red(colour_at(front, -440, 800))


def test_the_photo_lies_under_every_other_item(front, session, photo):
    session.apply("trace", set_photo(session.project, photo))
    others = [item.zValue() for item in front.sheet_scene.items() if item is not front.photo.item]
    assert front.photo.item.zValue() < min(others)


def test_a_drag_of_a_part_neither_unfolds_nor_straightens_the_photo_again(front, session, photo, counted):
    session.apply("trace", set_photo(session.project, photo))
    front.grab()
    assert counted == {"pixels_of": 1, "straightened": 1}
    for step in range(20):
        session.try_project(move_parts(session.project, ["radiator-1"], dy_mm=float(step)))
        front.grab()
    session.end_trial()
    front.zoom_by(1.3)
    front.grab()
    assert counted == {"pixels_of": 1, "straightened": 1}


def test_pushing_the_photo_straightens_nothing_anew_and_moves_it(front, session, photo, counted):
    session.apply("trace", set_photo(session.project, photo))
    before = front.photo.item.sceneBoundingRect()
    pushed = replace(photo, tied=replace(photo.tied, middle_y_mm=40.0, bottom_z_mm=395.0))
    session.apply("push", set_photo(session.project, pushed))
    assert counted == {"pixels_of": 1, "straightened": 1}
    after = front.photo.item.sceneBoundingRect()
    assert (after.left() - before.left(), after.top() - before.top()) == pytest.approx((40.0, -25.0))


def test_other_marks_straighten_it_anew_without_unfolding_it(front, session, photo, counted):
    session.apply("trace", set_photo(session.project, photo))
    wider = replace(photo, tied=replace(photo.tied, width_mm=560.0))
    session.apply("wider", set_photo(session.project, wider))
    assert counted == {"pixels_of": 1, "straightened": 2}


def test_opacity_and_hiding_follow_the_document(front, session, photo):
    session.apply("trace", set_photo(session.project, replace(photo, opacity_frac=0.35)))
    assert front.photo.item.opacity() == pytest.approx(0.35)
    session.apply("hide", set_photo(session.project, replace(photo, hidden=True)))
    assert not front.photo.item.isVisible()
    session.undo_stack.undo()
    assert front.photo.item.isVisible()


def test_a_preview_stands_in_for_the_documents_photo_until_it_ends(front, session, photo):
    front.photo.preview(photo)
    assert is_red(colour_at(front, 440, 800))
    front.photo.preview(None)
    assert not is_red(colour_at(front, 440, 800))


@pytest.mark.qt_log_ignore("JPEG")
def test_a_damaged_photo_is_told_and_nothing_is_drawn(front, session, photo):
    said = []
    session.message.connect(said.append)
    broken = PhotoImage(data_base64=photo.image.data_base64[:400], width_px=1_600, height_px=1_200)
    session.apply("trace", set_photo(session.project, replace(photo, image=broken)))
    assert front.photo.item.flat is None
    assert len(said) == 1
    assert "damaged" in said[0]
    session.apply("mend", set_photo(session.project, photo))
    assert front.photo.item.flat is not None
    assert front.photo.trouble == ""


def test_crossed_corners_in_a_file_are_told_and_nothing_is_drawn(front, session, photo):
    said = []
    session.message.connect(said.append)
    a, b, c, d = photo.tied.corners
    crossed = replace(photo, tied=replace(photo.tied, corners=(a, c, b, d)))
    session.apply("trace", set_photo(session.project, crossed))
    assert front.photo.item.flat is None
    assert "Two sides cross" in said[0]


def test_over_an_empty_nose_the_marked_thing_is_brought_into_sight(front, session, photo):
    session.open_project(Project(nose=Nose(photo=photo)), None)
    area = front.sheet_area()
    for corner in PLATE:
        assert area.contains(front.px_of(*corner))
