"""Drawing an opening, an obstruction, the support window and the bonnet line by real clicks and keys."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.gestures.draw import angle_words
from grillestack.app.canvas.gestures.drawn_things import Drawn
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def paper(session):
    """The same nose without pack and outlines, so that nothing catches a corner but the centre of the nose."""
    nose = replace(session.project.nose, openings=(), obstructions=(), support_window=None)
    session.open_project(Project(title="Bare", nose=nose), None)
    return session


def hover(hand, y, z, held=Qt.KeyboardModifier.NoModifier):
    hand.send(QEvent.Type.MouseMove, hand.px(y, z), Qt.MouseButton.NoButton, held)


def put(hand, *places, held=Qt.KeyboardModifier.NoModifier):
    for y, z in places:
        hover(hand, y, z, held)
        hand.click(y, z, held)


def drawn_corners(session):
    return [(p.y_mm, p.z_mm) for p in session.project.nose.openings[-1].outline]


def test_four_clicks_and_the_first_corner_make_an_opening_in_one_undo_step(front, hand, paper):
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500), (300, 502), (302, 700), (-300, 699))
    assert paper.undo_stack.count() == 0
    put(hand, (-298, 503))
    corners = drawn_corners(paper)
    assert len(corners) == 4
    # Sides within 3° of level or upright are so exactly, whatever pixel the hand hit.
    assert corners[0][1] == corners[1][1]
    assert corners[1][0] == corners[2][0]
    assert corners[2][1] == corners[3][1]
    assert paper.selection == (paper.project.nose.openings[-1].id,)
    assert paper.undo_stack.count() == 1
    assert front.tool is None
    paper.undo_stack.undo()
    assert paper.project.nose.openings == ()


def test_a_typed_length_fixes_the_side_in_the_direction_of_the_pointer(front, hand, paper):
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500))
    hover(hand, 100, 505)
    QTest.keyClicks(front, "25 1/2 in")
    assert "25 1/2 in" in front.marks.moved_text
    QTest.keyClick(front, Qt.Key.Key_Return)
    (y0, z0), (y1, z1) = front.tool.corners
    assert z1 == z0
    assert y1 - y0 == pytest.approx(25.5 * 25.4)


def test_a_bare_number_takes_the_unit_in_use(front, hand, paper):
    paper.set_units(UnitSystem.INCH)
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500))
    hover(hand, -300, 800)
    QTest.keyClicks(front, "10")
    QTest.keyClick(front, Qt.Key.Key_Enter)
    assert math.dist(*front.tool.corners) == pytest.approx(254)


def test_a_text_that_is_no_length_is_told_and_kept(front, hand, paper):
    said = []
    paper.message.connect(said.append)
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500))
    hover(hand, 0, 500)
    QTest.keyClicks(front, "12 kg")
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert said
    assert len(front.tool.corners) == 1
    assert "12 kg" in front.marks.moved_text


def test_enter_closes_and_a_double_click_closes_too(front, hand, paper):
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500), (300, 500), (0, 700))
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert len(drawn_corners(paper)) == 3
    front.draw(Drawn.OPENING)
    put(hand, (-300, 200), (300, 200), (150, 400))
    hand.send(QEvent.Type.MouseButtonDblClick, hand.px(150, 400))
    hand.release(150, 400)
    assert len(paper.project.nose.openings) == 2
    assert len(drawn_corners(paper)) == 3


def test_backspace_takes_corners_back_and_escape_leaves_nothing(front, hand, paper):
    old = paper.project
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500), (300, 500), (300, 700))
    QTest.keyClick(front, Qt.Key.Key_Backspace)
    assert len(front.tool.corners) == 2
    QTest.keyClick(front, Qt.Key.Key_Escape)
    assert front.tool is None
    assert paper.project is old
    assert paper.undo_stack.count() == 0
    assert front.marks.drawing is None


def test_two_corners_are_too_few_and_the_drawing_goes_on(front, hand, paper):
    said = []
    paper.message.connect(said.append)
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500), (300, 500))
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert "at least 3 corners and has 2" in said[-1]
    assert len(front.tool.corners) == 2


def test_a_corner_jumps_to_the_centre_of_the_nose_unless_alt_is_held(front, hand, paper):
    off = 4 / front.heights.px_per_mm
    front.draw(Drawn.OPENING)
    hover(hand, off, 600)
    assert [line.words for line in front.marks.snaps] == ["centre of nose"]
    put(hand, (off, 600))
    assert front.tool.corners[0][0] == 0
    put(hand, (off, 400), held=ALT)
    assert front.tool.corners[1][0] == pytest.approx(off, abs=1 / front.heights.px_per_mm)


def test_with_both_halves_one_side_is_drawn_and_the_whole_is_symmetrical(front, hand, paper):
    front.draw_mirrored(mirrored=True)
    front.draw(Drawn.OPENING)
    put(hand, (0, 500), (300, 500), (250, 700), (0, 700))
    assert len(front.marks.drawing.mirrored_mm) >= 4
    QTest.keyClick(front, Qt.Key.Key_Return)
    corners = drawn_corners(paper)
    assert len(corners) == 4
    assert sorted(corners) == sorted((-y, z) for y, z in corners)


def test_m_switches_the_other_half_on_and_off_while_drawing(front, hand, paper):
    front.draw(Drawn.OPENING)
    put(hand, (0, 500), (300, 500))
    QTest.keyClick(front, Qt.Key.Key_M)
    assert front.draws_mirrored
    QTest.keyClick(front, Qt.Key.Key_M)
    assert not front.draws_mirrored


def test_an_outline_that_crosses_itself_is_drawn_and_painted(front, hand, paper):
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500), (300, 700), (300, 500), (-300, 700))
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert len(drawn_corners(paper)) == 4
    front.grab()


def test_obstruction_and_support_window_are_drawn_the_same_way(front, hand, paper):
    front.draw(Drawn.OBSTRUCTION)
    put(hand, (-300, 500), (300, 500), (300, 550))
    QTest.keyClick(front, Qt.Key.Key_Return)
    beam = paper.project.nose.obstructions[-1]
    assert beam.x_front_mm < beam.x_rear_mm == paper.project.nose.stations.grille_x_mm
    front.draw(Drawn.SUPPORT_WINDOW)
    put(hand, (-350, 450), (350, 450), (350, 900), (-350, 900))
    QTest.keyClick(front, Qt.Key.Key_Return)
    assert len(paper.project.nose.support_window.outline) == 4
    assert paper.selection == (SUPPORT_WINDOW_ID,)
    assert paper.undo_stack.count() == 2


def test_the_bonnet_line_is_drawn_in_the_side_view_and_kept_from_front_to_back(side, side_hand, session):
    side.draw_bonnet_line()
    put(side_hand, (400, 1000), (150, 985), (-30, 900), held=ALT)
    QTest.keyClick(side, Qt.Key.Key_Return)
    xs = [p.x_mm for p in session.project.nose.stations.bonnet_line]
    assert len(xs) == 3
    assert xs == sorted(xs)
    assert session.undo_stack.count() == 1


def test_another_document_ends_the_drawing(front, hand, session):
    front.draw(Drawn.OPENING)
    put(hand, (-300, 500))
    session.open_project(Project(title="Other"), None)
    assert front.tool is None
    assert session.project.nose.openings == ()


def test_keys_of_the_drawing_are_kept_from_the_windows_shortcuts(front, hand, paper):
    def wanted(key, text="", held=Qt.KeyboardModifier.NoModifier):
        event = QKeyEvent(QEvent.Type.ShortcutOverride, key, held, text)
        event.ignore()
        QApplication.sendEvent(front, event)
        return event.isAccepted()

    assert not wanted(Qt.Key.Key_Backspace)
    front.draw(Drawn.OPENING)
    assert wanted(Qt.Key.Key_Backspace)
    assert wanted(Qt.Key.Key_Delete)
    assert wanted(Qt.Key.Key_5, "5")
    assert not wanted(Qt.Key.Key_Z, "z", Qt.KeyboardModifier.ControlModifier)
    assert not wanted(Qt.Key.Key_A, "a")


def test_the_angle_is_said_from_level():
    assert angle_words((0, 0), (100, 0)) == "level"
    assert angle_words((0, 0), (0, -5)) == "upright"
    # A right-angled triangle with legs 3 and 4: atan(3/4) = 36.87 degrees.
    assert angle_words((0, 0), (-4, 3)) == "36.9° from level"
