"""A ruler is divided as a tape is: whole figures, halves down to sixteenths of an inch, or tens down to millimetres."""

from __future__ import annotations

import itertools

import pytest

from grillestack.app.canvas.items.ruler_ticks import RulerScale, ticks_along
from grillestack.units.display import UnitSystem


def _ticks(px_per_mm, units, length_px=600.0, first_mm=0.0, **more):
    return ticks_along(length_px, RulerScale(first_mm=first_mm, mm_per_px=1.0 / px_per_mm, units=units, **more))


def test_sixteenths_stand_between_inches_when_zoomed_in():
    # 6 px to the mm are 152 px to the inch: a sixteenth takes 9.5 px
    ticks = _ticks(6.0, UnitSystem.INCH, 6.0 * 25.4 + 1)
    figures = [tick.text for tick in ticks if tick.text]
    assert figures == ["0", "1/2", "1"]
    assert len(ticks) == 17
    assert ticks[1].at_px == pytest.approx(25.4 / 16 * 6.0)


def test_figures_carry_fractions_as_a_tape_does():
    ticks = _ticks(20.0, UnitSystem.INCH, 20.0 * 25.4, first_mm=18.0 * 25.4)
    figures = [tick.text for tick in ticks if tick.text]
    assert figures[:5] == ["18", "18 1/8", "18 1/4", "18 3/8", "18 1/2"]


def test_a_half_is_longer_than_a_quarter_and_a_quarter_than_a_sixteenth():
    by_sixteenth = {round(t.at_px / 4.0 / 25.4 * 16): t.length_px for t in _ticks(4.0, UnitSystem.INCH, 4.0 * 25.4)}
    assert by_sixteenth[0] > by_sixteenth[8] > by_sixteenth[4] > by_sixteenth[2]


def test_millimetres_stand_between_tens_when_zoomed_in():
    ticks = _ticks(6.0, UnitSystem.METRIC, 121.0)
    assert [tick.text for tick in ticks if tick.text] == ["0", "10", "20"]
    assert len(ticks) == 21


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("px_per_mm", [0.05, 0.2, 0.47, 1.0, 3.3, 20.0])
@pytest.mark.parametrize("first_mm", [0.0, -733.3, 12_345.6])
def test_ticks_never_crowd_and_figures_have_room(units, px_per_mm, first_mm):
    ticks = _ticks(px_per_mm, units, first_mm=first_mm)
    apart = [b.at_px - a.at_px for a, b in itertools.pairwise(ticks)]
    assert min(apart) >= 4.99
    figures = [tick for tick in ticks if tick.text]
    assert len(figures) >= 2
    assert min(b.at_px - a.at_px for a, b in itertools.pairwise(figures)) >= 55.9


def test_a_level_ruler_counts_from_the_middle_both_ways():
    ticks = _ticks(0.5, UnitSystem.METRIC, first_mm=-600.0, both_ways=True)
    figures = [tick.text for tick in ticks if tick.text]
    assert figures[0] == "600"
    assert "0" in figures
    assert not any(text.startswith("-") for text in figures)
