"""Marks are put on the photo by mouse and keys, with a loupe at hand, and never leave the photo."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.palette import dark, light
from grillestack.app.photo.marking_sheet import MarkingSheet
from grillestack.app.photo.marks import first_marks
from tests.app.photo.drawn_photos import drawn_nose


@pytest.fixture
def sheet(qtbot, taken):
    image = drawn_nose(taken)
    made = MarkingSheet(image, first_marks(image.width(), image.height(), 4), light())
    qtbot.addWidget(made)
    made.resize(520, 390)
    made.show()
    made.setFocus()
    return made


def test_a_mark_follows_the_hand_and_says_when_it_is_let_go(sheet, drag_mark):
    told = []
    sheet.marks_moved.connect(told.append)
    others = sheet.marks[1:]
    drag_mark(sheet, 0, QPointF(520, 900))
    assert (sheet.marks[0] - QPointF(520, 900)).manhattanLength() < 7  # two pixels of the screen
    assert sheet.marks[1:] == others
    assert told == [True, True, False]


def test_a_press_a_little_beside_a_mark_does_not_make_it_jump(sheet):
    before = QPointF(sheet.marks[2])
    at = (sheet.to_screen().map(before) + QPointF(6, -5)).toPoint()
    QTest.mousePress(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    QTest.mouseMove(sheet, at)
    QTest.mouseRelease(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert sheet.marks[2] == before


def test_esc_puts_a_mark_in_hand_back_and_letting_go_afterwards_changes_nothing(sheet, drag_mark):
    before = list(sheet.marks)
    drag_mark(sheet, 3, QPointF(100, 100), end=False)
    assert sheet.marks != before
    QTest.keyClick(sheet, Qt.Key.Key_Escape)
    QTest.mouseRelease(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(30, 30))
    assert sheet.marks == before
    assert sheet.held is None


def test_no_mark_leaves_the_photo(sheet, drag_mark):
    drag_mark(sheet, 0, QPointF(-4_000, 9_000))
    assert sheet.marks[0] == QPointF(0, 1_200)


def test_arrows_move_the_chosen_mark_by_a_pixel_or_ten_and_space_chooses_the_next(sheet):
    first, second = QPointF(sheet.marks[0]), QPointF(sheet.marks[1])
    QTest.keyClick(sheet, Qt.Key.Key_Right)
    QTest.keyClick(sheet, Qt.Key.Key_Up)
    assert sheet.marks[0] == first + QPointF(1, -1)
    QTest.keyClick(sheet, Qt.Key.Key_Space)
    QTest.keyClick(sheet, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert sheet.marks[1] == second + QPointF(0, 10)
    assert "lower right corner is chosen" in sheet.accessibleDescription()


def turn_wheel(sheet, at, degrees):
    event = QWheelEvent(
        at,
        sheet.mapToGlobal(at),
        QPoint(),
        QPoint(0, degrees * 8),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(sheet, event)


def test_the_wheel_enlarges_at_the_pointer_and_back_again_shows_the_whole_photo(sheet):
    at = QPointF(300, 200)
    under = sheet.to_screen().inverted()[0].map(at)
    whole = sheet.to_screen()
    turn_wheel(sheet, at, 90)
    assert sheet.to_screen().m11() > 2 * whole.m11()
    assert (sheet.to_screen().map(under) - at).manhattanLength() < 1e-6
    turn_wheel(sheet, at, -400)
    assert sheet.to_screen().m11() == pytest.approx(whole.m11())
    assert (sheet.to_screen().map(QPointF(0, 0)) - whole.map(QPointF(0, 0))).manhattanLength() < 1e-6


def test_an_enlarged_photo_is_pushed_by_a_drag_beside_the_marks_and_stays_in_sight(sheet):
    turn_wheel(sheet, QPointF(260, 195), 90)
    before = sheet.to_screen().map(QPointF(0, 0))
    beside = QPoint(8, 8)
    QTest.mousePress(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, beside)
    QTest.mouseMove(sheet, QPoint(48, 28))
    assert (sheet.to_screen().map(QPointF(0, 0)) - before - QPointF(40, 20)).manhattanLength() < 1e-6
    QTest.mouseMove(sheet, QPoint(5_000, 5_000))
    QTest.mouseRelease(sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(5_000, 5_000))
    corner = sheet.to_screen().map(QPointF(0, 0))
    assert corner.x() <= 1e-6
    assert corner.y() <= 1e-6


def test_the_loupe_shows_the_photo_around_the_mark_in_hand_enlarged(sheet, drag_mark, taken):
    # On the left edge of the black opening: in the loupe black must lie at the right of the cross and red at the left.
    edge = QPointF(*taken.sees(350.0, 750.0))
    plain = sheet.grab().toImage()
    drag_mark(sheet, 0, edge, end=False)
    sheet.marks[0] = edge
    shown = sheet.grab().toImage()
    assert shown != plain
    at = sheet.to_screen().map(edge)
    middle = QPointF(at.x() + 26 + 66, min(max(at.y() - 26 - 66, 68), 390 - 68))
    black = QColor(shown.pixel((middle + QPointF(25, 20)).toPoint()))
    red = QColor(shown.pixel((middle + QPointF(-25, 20)).toPoint()))
    assert black.red() < 60
    assert red.red() > 150 > red.green() + 60


@pytest.mark.parametrize("palette", [light(), dark()])
def test_marks_stand_out_from_a_white_and_from_a_black_photo(qtbot, palette):
    from PySide6.QtGui import QImage

    for ground in ("#ffffff", "#000000"):
        image = QImage(400, 300, QImage.Format.Format_RGB32)
        image.fill(QColor(ground))
        made = MarkingSheet(image, first_marks(400, 300, 4), palette)
        qtbot.addWidget(made)
        made.resize(400, 300)
        shown = made.grab().toImage()
        ring = [QColor(shown.pixel(120 + dx, 186)).lightness() for dx in range(-14, 15)]
        assert max(ring) - min(ring) > 90
