"""The course over time: every kind of curve is painted, the choice of duty cases is told and shown without echo."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app import palette as palettes
from grillestack.app.panels.over_time import CourseChoice, OverTimePanel
from grillestack.app.workers.course import Course
from grillestack.assess.over_time import TimePoint
from grillestack.units.display import UnitSystem
from tests.app.panels.test_further_words import course

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH
FALLING = tuple(TimePoint(60.0 * n, 104.0 - n) for n in range(11))
STILL = (TimePoint(0.0, 88.0), TimePoint(600.0, 88.0))
CASES = (("case-1", "Grade pull"), ("case-2", "Crawl"), ("case-3", "Motorway"))


@pytest.fixture
def panel(qtbot):
    made = OverTimePanel(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 300)
    made.show()
    return made


@pytest.mark.parametrize("look", [palettes.light, palettes.dark, palettes.high_contrast])
@pytest.mark.parametrize(
    "found",
    [
        course(),
        course(steady_degc=100.0, time_to_limit_s=None),
        course(points=FALLING, start_degc=104.0, steady_degc=90.0, time_to_limit_s=None),
        course(points=STILL, steady_degc=88.0, time_to_limit_s=None),
        course(points=(), start_degc=None, time_to_limit_s=0.0),
        None,
    ],
)
def test_every_kind_of_curve_is_painted(look, found, panel):
    panel.show_palette(look())
    for units in (METRIC, INCH):
        for is_old in (False, True):
            panel.show_course(found, units, is_old=is_old)
            assert not panel.grab().isNull()


def test_the_curve_ends_above_its_limit_line_if_it_passes_it(panel):
    panel.show_course(course(), METRIC, is_old=False)
    plot = panel.plot
    image = plot.grab().toImage()
    light = palettes.light()
    x = image.width() - 3
    column = [image.pixelColor(x, y) for y in range(image.height())]
    top = plot.fontMetrics().height() + 4
    curve = next(y for y in range(top, len(column)) if column[y].lightness() < 80)
    limit = next(
        y
        for y in range(top, len(column))
        if abs(image.pixelColor(x - 30, y).blue() - light.accent.blue()) < 30
        and image.pixelColor(x - 30, y).red() < 120
    )
    assert curve < limit


def test_words_and_notes_stand_below_and_are_read_out(panel):
    panel.show_course(course(notes=("“Grade pull” leads above the limit.",)), METRIC, is_old=False)
    assert "reaches its limit of 107\u00a0°C after 5\u00a0min 40\u00a0s" in panel.words.text()
    assert panel.notes.text() == "“Grade pull” leads above the limit."
    assert "5 min 40 s" in panel.plot.accessibleDescription()


@pytest.fixture
def choice(qtbot):
    made = CourseChoice(palettes.light())
    qtbot.addWidget(made)
    made.show()
    return made


def test_showing_a_choice_is_not_choosing(choice, qtbot):
    with qtbot.assertNotEmitted(choice.course_chosen):
        choice.show_choice(CASES, Course("case-3", "case-1"))
        choice.show_choice(CASES[:2], None)
        choice.show_choice(CASES, Course("case-3", "case-1"))
    assert (choice.before.currentText(), choice.after.currentText()) == ("Motorway", "Grade pull")
    choice.show_choice((), None)
    assert choice.before.currentIndex() == -1


def test_a_choice_by_the_keys_is_told(choice, qtbot):
    choice.show_choice(CASES, Course("case-3", "case-1"))
    choice.before.setFocus()
    with qtbot.waitSignal(choice.course_chosen) as chosen:
        QTest.keyClick(choice.before, Qt.Key.Key_Up)
    assert chosen.args == [Course("case-2", "case-1")]
