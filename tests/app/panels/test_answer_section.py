"""A section says how its answer stands, and shows an old one only marked as old."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from grillestack.app import palette as palettes
from grillestack.app.panels.answer_section import AS_OF_BEFORE, AnswerSection
from grillestack.app.workers.standing import NOT_ASKED, Stage, Standing
from tests.app.workers.made import band


@pytest.fixture
def section(qtbot):
    made = AnswerSection("How sure the day is", QLabel("figures"), palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 200)
    made.show()
    return made


def shown(section):
    section.grab()
    return section.heading.gist, section.about.text(), section.content.isVisible()


def test_shut_it_shows_its_gist_alone_and_a_click_or_space_opens_it(section, qtbot):
    section.show_standing(Standing(stage=Stage.CURRENT, result=band()), "36–45 °C", "For Grade pull.")
    assert shown(section) == ("36–45 °C", "For Grade pull.", False)
    assert not section.about.isVisible()
    qtbot.mouseClick(section.heading, Qt.MouseButton.LeftButton)
    assert section.content.isVisible()
    qtbot.keyClick(section.heading, Qt.Key.Key_Space)
    assert not section.content.isVisible()


def test_while_it_is_worked_at_an_old_answer_is_marked_as_old(section):
    section.open()
    section.show_standing(Standing(stage=Stage.WORKING, result=band()), "36–45 °C", "For Grade pull.")
    assert shown(section) == ("working", AS_OF_BEFORE, True)
    section.show_standing(Standing(stage=Stage.WORKING, share_frac=0.4), "", "")
    assert shown(section) == ("working, 40 %", "Working.", False)


def test_what_is_not_known_says_why_and_shows_no_figures(section):
    section.open()
    section.show_standing(Standing(stage=Stage.NOT_KNOWN, reason="No fan curve."), "36–45 °C", "")
    assert shown(section) == ("not known", "No fan curve.", False)
    section.show_standing(NOT_ASKED, "", "")
    assert shown(section) == ("not known", "Not known yet.", False)


def test_what_stands_above_is_there_whenever_it_is_open(section):
    above = QLabel("choice")
    section.put_above(above)
    assert not above.isVisible()
    section.open()
    section.show_standing(NOT_ASKED, "", "")
    assert above.isVisible()


def test_a_screen_reader_hears_title_and_gist(section):
    section.show_standing(Standing(stage=Stage.CURRENT, result=band()), "36–45 °C", "")
    assert section.heading.accessibleName() == "How sure the day is"
    assert section.heading.accessibleDescription() == "36–45 °C"


def test_the_focus_can_be_seen(section, qtbot):
    section.heading.clearFocus()
    before = section.heading.grab().toImage()
    section.activateWindow()
    section.heading.setFocus()
    qtbot.waitUntil(section.heading.hasFocus)
    assert section.heading.grab().toImage() != before
