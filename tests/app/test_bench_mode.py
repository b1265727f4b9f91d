"""Bench mode: what is pressed and held is as large as a gloved finger, in the whole window and on the sheets."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QPushButton, QToolButton

from grillestack.app.bench_mode import HAND_FACTOR, TARGET_PX
from grillestack.app.canvas.face_show import PaintedFace
from grillestack.app.canvas.gestures.pick import HANDLE_PX
from grillestack.app.canvas.items.face_item import Met
from grillestack.app.canvas.items.legend import Legend, LegendEntry
from grillestack.app.canvas.items.overlay import Over, paint_handles
from grillestack.app.look import colour_application, palette_of
from grillestack.storage.settings import Look
from grillestack.units.display import UnitSystem


@pytest.fixture
def bench(window, qapp):
    """Give the window in bench mode, and put fonts and style back as they were."""
    font, style, palette = qapp.font(), qapp.styleSheet(), qapp.palette()
    colour_application(qapp, palette_of(Look.LIGHT))
    QTest.mouseClick(window.status.bench, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    yield window
    if window.bench_mode.is_on:
        window.bench_mode.switch(is_on=False)
    qapp.setStyleSheet(style)
    qapp.setPalette(palette)
    qapp.setFont(font)


def test_the_switch_stands_in_the_status_line_and_in_the_menu_and_both_say_the_same(bench):
    action = bench.menus.actions["Bench mode"]
    assert bench.bench_mode.is_on
    assert bench.status.bench.isChecked()
    action.trigger()
    assert not bench.bench_mode.is_on
    assert not bench.status.bench.isChecked()
    action.trigger()
    assert bench.bench_mode.is_on
    assert bench.status.bench.isChecked()


def test_everything_that_is_pressed_is_as_high_as_a_gloved_finger(bench):
    bench.session.select((bench.session.project.nose.openings[0].id,))
    QApplication.processEvents()
    pressed = [*bench.findChildren(QPushButton), *bench.findChildren(QComboBox)]
    pressed += [line for line in bench.findChildren(QLineEdit) if not isinstance(line.parentWidget(), QComboBox)]
    pressed += [button for button in bench.findChildren(QToolButton) if button.objectName() != "qt_toolbar_ext_button"]
    seen = [widget for widget in pressed if widget.isVisible()]
    assert len(seen) > 15
    small = [(w.accessibleName(), w.height()) for w in seen if w.height() < TARGET_PX and w.objectName() != "folder"]
    assert small == []


def test_words_in_the_tool_row_are_whole_or_the_act_stands_behind_the_arrow_at_its_end(bench):
    for action in bench.row.actions():
        button = bench.row.widgetForAction(action)
        if isinstance(button, QToolButton) and button.isVisible():
            words = str(button.property("text"))
            assert button.fontMetrics().horizontalAdvance(words) <= button.width() - 8, words
            assert button.width() >= TARGET_PX, words


def test_letters_grow_and_shrink_back(bench, qapp):
    large = bench.shelf.search.font().pointSizeF()
    bench.bench_mode.switch(is_on=False)
    assert large > bench.shelf.search.font().pointSizeF()


def test_a_handle_is_taken_from_as_far_off_as_half_a_finger_only_in_bench_mode(bench):
    opening = bench.session.project.nose.openings[0]
    bench.session.select((opening.id,))
    corner = opening.outline[0]
    # 20 px off the corner, outwards, where nothing else of the outline lies: a finger is 44 px wide.
    off = bench.front.px_of(corner.y_mm, corner.z_mm) + QPointF(20.0, 20.0)
    no_key = Qt.KeyboardModifier.NoModifier
    assert bench.front.outline_hand.handle_under(bench.front.pointer_at(off, no_key)) is not None
    bench.bench_mode.switch(is_on=False)
    assert bench.front.outline_hand.handle_under(bench.front.pointer_at(off, no_key)) is None
    assert HANDLE_PX * HAND_FACTOR * 2 >= TARGET_PX


def test_a_plane_of_the_side_view_is_held_from_half_a_finger_off(bench):
    bench.resize(1600, 1000)
    QApplication.processEvents()
    x_mm = bench.session.project.nose.stations.grille_x_mm
    high = bench.side.px_of(x_mm, 0.0).x()
    free = bench.side.pointer_at(QPointF(high - 21.0, 40.0), Qt.KeyboardModifier.NoModifier)
    assert bench.side.shape_of_pointer(free) is Qt.CursorShape.SplitHCursor
    bench.bench_mode.switch(is_on=False)
    free = bench.side.pointer_at(QPointF(high - 21.0, 40.0), Qt.KeyboardModifier.NoModifier)
    assert bench.side.shape_of_pointer(free) is Qt.CursorShape.ArrowCursor


def test_the_switch_of_the_face_stands_whole_over_the_ruler(bench, monkeypatch):
    legend = Legend(title="Radiator face", entries=(LegendEntry(Met.FRESH, "fresh air", ""),))
    monkeypatch.setattr(bench.front.face.choice, "painted", lambda: PaintedFace(legend=legend))
    bench.front.show_palette(palette_of(Look.LIGHT))
    QApplication.processEvents()
    switch = bench.front.face.switch
    level, upright = bench.front.ruler_strips()
    assert switch.geometry().bottom() <= level.top()
    assert switch.geometry().right() <= upright.left()
    for button in switch.findChildren(QAbstractButton):
        if button.isVisible():
            assert button.fontMetrics().horizontalAdvance(button.text()) < button.width()
            assert switch.rect().contains(button.geometry())


def test_the_window_has_room_for_the_bench_mode_on_a_small_screen(bench):
    assert bench.minimumSizeHint().width() <= 1280
    assert bench.minimumSizeHint().height() <= 800
    assert (bench.width(), bench.height()) == (1280, 800)


@pytest.mark.parametrize("hand_factor", [1.0, HAND_FACTOR])
def test_handles_are_drawn_as_much_larger_as_the_hand_reaches_further(qapp, hand_factor):
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.red)
    over = Over(
        to_px=lambda _y, _z: QPointF(50.5, 50.5),
        area=QRectF(image.rect()),
        palette=palette_of(Look.LIGHT),
        units=UnitSystem.METRIC,
        font=qapp.font(),
        hand_factor=hand_factor,
    )
    painter = QPainter(image)
    paint_handles(painter, over, [(0.0, 0.0)])
    painter.end()
    red = QColor(Qt.GlobalColor.red)
    drawn = sum(image.pixelColor(x, 50) != red for x in range(100))
    assert abs(drawn - 7.0 * hand_factor) < 2.5  # the side of a mouse's handle is 7 pixels


def test_two_fingers_that_spread_on_the_screen_zoom_the_sheet(window, qapp):
    pad = QTest.createTouchDevice()
    port, scale = window.front.viewport(), window.front.heights.px_per_mm
    middle = port.rect().center()

    def fingers(apart: int) -> tuple[QPoint, QPoint]:
        return middle - QPoint(apart, 0), middle + QPoint(apart, 0)

    first, second = fingers(30)
    QTest.touchEvent(port, pad).press(0, first, port).press(1, second, port).commit()
    for apart in (45, 60, 80, 100):
        first, second = fingers(apart)
        QTest.touchEvent(port, pad).move(0, first, port).move(1, second, port).commit()
    QTest.touchEvent(port, pad).release(0, first, port).release(1, second, port).commit()
    qapp.processEvents()
    assert window.front.heights.px_per_mm > 1.5 * scale
    assert not window.front.in_gesture
