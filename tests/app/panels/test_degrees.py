"""Where the degrees go, drawn and in words: every kind of step can be painted, bars lie where the figures say."""

import pytest
from PySide6.QtCore import Qt

from grillestack.app import palette as palettes
from grillestack.app.panels.degrees import Degrees
from grillestack.units.display import UnitSystem
from tests.app.panels.test_further_words import steps

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH
LOOKS = {"light": palettes.light, "dark": palettes.dark, "high contrast": palettes.high_contrast}


@pytest.fixture
def degrees(qtbot):
    made = Degrees(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 400)
    made.show()
    return made


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("units", [METRIC, INCH])
@pytest.mark.parametrize(
    "days_degc",
    [(60.0, 58.5, 38.5, 39.0), (60.0, 60.0, 60.0, 60.0), (60.0, 58.0, None, None), (None, None, None, None)],
)
def test_every_kind_of_step_is_painted(look, units, days_degc, degrees):
    degrees.show_palette(LOOKS[look]())
    for is_old in (False, True):
        for design_degc in (38.0, None):
            degrees.show_degrees(steps(*days_degc), design_degc, units, is_old=is_old)
            assert not degrees.grab().isNull()
    degrees.show_degrees(None, None, units, is_old=False)
    degrees.grab()


def test_the_bar_of_a_step_spans_its_two_days(degrees, qapp):
    degrees.show_degrees(steps(60.0, 50.0, 40.0, 40.0), None, METRIC, is_old=False)
    chart = degrees.chart
    qapp.processEvents()
    image = chart.grab().toImage()
    ink = palettes.light().ink
    # Row 1: 60 to 50 °C of a scale from 40 to 60, so the right half of the width without 5 px at each side.
    y = chart._row_px() + chart.fontMetrics().height() + 3
    dark = [x for x in range(image.width()) if image.pixelColor(x, y) == ink]
    inner = chart.width() - 10
    assert dark[0] == pytest.approx(5 + inner / 2, abs=2)
    assert dark[-1] == pytest.approx(5 + inner, abs=2)


def test_a_gain_is_told_from_a_cost_without_colour(degrees, qapp):
    chart = degrees.chart
    y = 3 * chart._row_px() + chart.fontMetrics().height() + 3

    def filled(last_degc):
        degrees.show_degrees(steps(60.0, 50.0, 40.0, last_degc), None, METRIC, is_old=False)
        qapp.processEvents()
        image = chart.grab().toImage()
        return sum(image.pixelColor(x, y) == palettes.light().ink for x in range(image.width()))

    assert filled(30.0) > 3 * filled(50.0) >= 0


def test_figures_are_there_for_a_screen_reader_and_old_ones_are_called_old(degrees):
    degrees.show_degrees(steps(60.0, 58.5, 38.5, 39.0), 38.0, METRIC, is_old=False)
    assert "20.0 K go to condenser" in degrees.chart.accessibleDescription()
    degrees.show_degrees(steps(60.0, 58.5, 38.5, 39.0), 38.0, METRIC, is_old=True)
    assert degrees.chart.accessibleDescription().startswith("Of before the change:")


def test_words_come_when_asked_for(degrees, qtbot):
    degrees.show_degrees(steps(60.0, 58.5, 38.5, 39.0), 38.0, METRIC, is_old=False)
    assert not degrees.words.isVisible()
    qtbot.mouseClick(degrees.link, Qt.MouseButton.LeftButton)
    assert degrees.words.isVisible()
    assert "20.0\u00a0K go to condenser" in degrees.words.text()
