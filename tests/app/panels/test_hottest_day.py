"""Hottest day against design day."""

from __future__ import annotations

import pytest

from grillestack.app import palette as palettes
from grillestack.app.panels.hottest_day import HottestDay
from grillestack.assess.result import Verdict
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example


@pytest.fixture
def shown(qtbot):
    day = HottestDay(palettes.light(), UnitSystem.METRIC)
    qtbot.addWidget(day)
    day.resize(300, day.sizeHint().height())

    def show(case):
        day.show_case(case, UnitSystem.METRIC)
        return day, day.grab().toImage()

    return show


@pytest.mark.parametrize(
    ("limiting_degc", "words"),
    [
        (43.2, "Hottest day 43 °C; design day 38 °C; 5.2 K to spare."),
        (38.0, "Hottest day 38 °C; design day 38 °C; 0.0 K to spare."),
        (33.1, "Hottest day 33 °C; design day 38 °C; 4.9 K short."),
        (-28.3, "Hottest day -28 °C; design day 38 °C; 66.3 K short."),
    ],
)
def test_margin_is_to_spare_or_short(limiting_degc, words, shown):
    day, _image = shown(example.case(1, limiting_ambient_degc=limiting_degc))
    assert day.accessibleDescription() == words


def test_a_case_that_fails_on_every_day_has_no_day(shown):
    day, _image = shown(example.case(1, Verdict.FAIL, limiting_ambient_degc=None))
    assert day.accessibleDescription().startswith("Hottest day no day;")


def test_nothing_known_is_not_known(shown):
    day, _image = shown(None)
    assert day.accessibleDescription() == "Hottest day not known; design day not known; margin not known."


def test_the_pointer_moves_right_as_the_day_gets_hotter_and_stays_on_the_scale(shown):
    def pointer_x(limiting_degc):
        day, image = shown(example.case(1, limiting_ambient_degc=limiting_degc))
        ink = palettes.light().ink
        row = day._line_px() + day._figure_px() + 2 + 18 // 2 - 3
        columns = [x for x in range(image.width()) if image.pixelColor(x, row) == ink and abs(x - 150) > 2]
        return sum(columns) / len(columns)

    places = [pointer_x(38.0 + k) for k in (-60.0, -8.0, -2.0, 2.0, 8.0, 60.0)]
    assert places == sorted(places)
    assert places[0] > 0
    assert places[-1] < 300
    # 300 pixels stand for 24 K with the design day in the middle
    assert places[4] == pytest.approx(150 + 8 * 300 / 24, abs=2)


def test_band_and_chance_are_told_when_they_are_there_and_nothing_moves(shown):
    day, before = shown(example.case(1, limiting_ambient_degc=43.2))
    day.show_band("36–49", "72 %")
    assert day.accessibleDescription() == (
        "Hottest day 43 °C (36–49); design day 38 °C; 5.2 K to spare. Chance of meeting the design day: 72 %."
    )
    after = day.grab().toImage()
    assert after != before
    assert after.size() == before.size()
    day.show_band("", "")
    assert day.grab().toImage() == before
