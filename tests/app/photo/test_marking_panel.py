"""The panel turns marks and typed sizes into a photo tied to the nose, and says what is missing and what it is worth."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from grillestack.app.palette import light
from grillestack.app.photo.marking_panel import MarkingPanel
from grillestack.app.photo.picture_file import pixels_of
from grillestack.geometry.homography import mapped
from grillestack.geometry.photo_plane import map_to_nose
from grillestack.model.photo import FourCorners, LineLies, Mark, Photo, TwoPoints
from grillestack.units.display import UnitSystem
from tests.app.photo.drawn_photos import OPENING, PLATE


def fill(panel, type_into, **texts):
    for name, text in texts.items():
        type_into(panel.fields[name].line, text)


def put_on_plate(panel, taken):
    panel.sheet.show_marks([QPointF(*taken.sees(*place)) for place in PLATE])


def test_nothing_is_drawn_and_nothing_used_before_the_sizes_are_known(panel, type_into):
    used = []
    panel.used.connect(used.append)
    assert panel.photo() is None
    assert "as soon as all sizes are typed" in panel.hint.text()
    QTest.mouseClick(panel.use_button, Qt.MouseButton.LeftButton)
    assert used == []
    assert panel.fields["width_mm"].complaint.text()
    fill(panel, type_into, width_mm="520 mm", height_mm="11 cm", bottom_z_mm="420")
    assert panel.photo() is not None


def test_sizes_in_any_unit_and_marks_on_the_corners_give_the_openings_millimetres(panel, type_into, taken):
    put_on_plate(panel, taken)
    fill(panel, type_into, width_mm="20.47244 in", height_mm="11 cm", bottom_z_mm="42 cm")
    QTest.mouseClick(panel.use_button, Qt.MouseButton.LeftButton)
    tied = panel.photo().tied
    assert isinstance(tied, FourCorners)
    assert (tied.width_mm, tied.height_mm, tied.bottom_z_mm) == pytest.approx((520, 110, 420), abs=1e-4)
    found = mapped(map_to_nose(tied), [taken.sees(*place) for place in OPENING])
    assert np.abs(found - OPENING).max() < 0.1


def test_use_hands_on_the_photo(panel, type_into, taken):
    used = []
    panel.used.connect(used.append)
    put_on_plate(panel, taken)
    fill(panel, type_into, width_mm="520", height_mm="110", bottom_z_mm="420", camera_distance_mm="3 m")
    QTest.mouseClick(panel.use_button, Qt.MouseButton.LeftButton)
    assert isinstance(used[0], Photo)
    assert used[0].camera_distance_mm == 3_000
    assert used[0].locked


def test_every_move_of_a_mark_tells_what_the_photo_would_be(panel, type_into, taken, drag_mark):
    put_on_plate(panel, taken)
    fill(panel, type_into, width_mm="520", height_mm="110", bottom_z_mm="420")
    told = []
    panel.changed.connect(lambda photo, in_hand: told.append((photo, in_hand)))
    drag_mark(panel.sheet, 1, panel.sheet.marks[1] + QPointF(40, 0))
    assert [in_hand for _, in_hand in told] == [True, True, False]
    corner = told[-1][0].tied.corners[1]
    assert Mark(corner.x_px, corner.y_px) == Mark(panel.sheet.marks[1].x(), panel.sheet.marks[1].y())


def test_crossed_corners_are_told_at_once_and_not_used(panel, type_into, taken):
    put_on_plate(panel, taken)
    a, b, c, d = panel.sheet.marks
    panel.sheet.show_marks([a, c, b, d])
    fill(panel, type_into, width_mm="520", height_mm="110", bottom_z_mm="420")
    assert "Two sides cross" in panel.hint.text()
    used = []
    panel.used.connect(used.append)
    QTest.mouseClick(panel.use_button, Qt.MouseButton.LeftButton)
    assert used == []
    assert "Two sides cross" in panel.complaint.text()


def test_an_impossible_size_is_refused_in_the_models_words(panel, type_into):
    fill(panel, type_into, width_mm="-5", height_mm="110", bottom_z_mm="420")
    QTest.mouseClick(panel.use_button, Qt.MouseButton.LeftButton)
    assert "The width is -5 mm" in panel.complaint.text() + panel.fields["width_mm"].complaint.text()


def test_two_points_scale_the_photo_and_their_line_may_be_level(panel, type_into):
    QTest.mouseClick(panel.by_points, Qt.MouseButton.LeftButton, pos=panel.by_points.rect().center() * 0.3)
    assert panel.by_points.isChecked()
    assert len(panel.sheet.marks) == 2
    assert not panel.fields["width_mm"].isVisible()
    fill(panel, type_into, distance_mm="1.5 m", first_z_mm="500")
    panel.line.setCurrentIndex(1)
    tied = panel.photo().tied
    assert isinstance(tied, TwoPoints)
    assert tied.distance_mm == 1_500
    assert tied.lies is LineLies.LEVEL
    assert "square to the nose" in panel.hint.text()


def test_the_marks_of_each_way_are_kept_while_the_other_is_tried(panel, taken):
    put_on_plate(panel, taken)
    corners = list(panel.sheet.marks)
    panel.by_points.setChecked(True)
    panel.by_corners.setChecked(True)
    assert panel.sheet.marks == corners


def test_marking_again_begins_with_what_is_known(qtbot, session, picture):
    tied = TwoPoints(
        first=Mark(10, 20),
        second=Mark(900, 30),
        distance_mm=640,
        lies=LineLies.PLUMB,
        first_y_mm=5,
        first_z_mm=410,
    )
    photo = Photo(image=picture, tied=tied, opacity_frac=0.3, camera_distance_mm=1_900, locked=False)
    made = MarkingPanel(session, pixels_of(picture), photo, light())
    qtbot.addWidget(made)
    assert made.by_points.isChecked()
    assert made.photo() == photo


def test_esc_puts_the_panel_aside(panel):
    gone = []
    panel.cancelled.connect(lambda: gone.append(True))
    QTest.keyClick(panel.sheet, Qt.Key.Key_Escape)
    assert gone == [True]


def test_in_inches_the_note_and_the_hint_speak_inches(panel, session, type_into, taken):
    put_on_plate(panel, taken)
    fill(panel, type_into, width_mm="520", height_mm="110", bottom_z_mm="420")
    session.set_units(UnitSystem.INCH)
    assert "letter sheet" in panel.note.text()
    assert " in " in panel.hint.text()
    assert "mm" not in panel.hint.text()
    assert panel.photo().tied.width_mm == 520
