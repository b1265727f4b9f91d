"""The face bar: lengths on it are the areas of the assessment, on one scale."""

from __future__ import annotations

import pytest

from grillestack.app import palette as palettes
from grillestack.app.panels.face_bar import FaceBar, rest_of_core_words
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example


@pytest.fixture
def bar(qtbot):
    bar = FaceBar(palettes.light(), UnitSystem.METRIC)
    qtbot.addWidget(bar)
    bar.resize(301, bar.sizeHint().height())
    return bar


def inked_px(bar, ink, rows):
    image = bar.grab().toImage()
    assert image.width() == 301
    return max(sum(image.pixelColor(x, y) == ink for x in range(image.width())) for y in range(*rows))


def bar_rows(bar):
    top = bar._line_px() + 12
    return (top + 6, top + 8)


def test_filled_length_is_the_effective_share_of_the_core(bar):
    # 145 200 of 290 400 mm²: half of the 300 pixels between the ends, with the required mark left out
    bar.show_face(example.radiator_face(effective_mm2=145_200.0, required_mm2=None), UnitSystem.METRIC)
    assert inked_px(bar, palettes.light().ink, bar_rows(bar)) == pytest.approx(150, abs=3)


def test_a_required_face_larger_than_the_core_makes_room_on_the_scale(bar):
    # Twice the core: the core takes half of the bar less the 3 % the mark needs, and an effective face of the whole core too.
    bar.show_face(example.radiator_face(effective_mm2=290_400.0, required_mm2=580_800.0), UnitSystem.METRIC)
    assert inked_px(bar, palettes.light().ink, bar_rows(bar)) == pytest.approx(300 / 2.06, abs=3)


def test_the_mark_of_a_required_face_beyond_the_core_is_painted_whole(bar):
    bar.show_face(example.radiator_face(required_mm2=580_800.0), UnitSystem.METRIC)
    image = bar.grab().toImage()
    accent, top = palettes.light().accent, bar._line_px() + 6
    columns = [x for x in range(image.width()) if image.pixelColor(x, top) == accent]
    assert len(columns) >= 6
    assert max(columns) < image.width() - 1


def test_what_is_not_known_is_not_filled(bar):
    bar.show_face(example.radiator_face(effective_mm2=None, required_mm2=None), UnitSystem.METRIC)
    assert inked_px(bar, palettes.light().ink, bar_rows(bar)) <= 4
    assert "effective not known; required not known; exposed 1210 cm²" in bar.accessibleDescription()


def test_no_radiator_is_said(bar):
    bar.show_face(None, UnitSystem.METRIC)
    bar.grab()
    assert bar.accessibleDescription().startswith("no radiator")


def test_the_rest_of_the_core_is_told():
    words = rest_of_core_words(example.radiator_face(), UnitSystem.METRIC)
    assert "1500 cm² stand behind another core, 94 cm² behind tanks or frames and 100 cm² off" in words
    assert rest_of_core_words(None, UnitSystem.METRIC) == ""
