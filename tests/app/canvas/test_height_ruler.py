"""Do the rulers' figures stand far enough apart, on round numbers of the unit in use."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.height_ruler import LARGEST_SCALE, HeightRuler, WantedHeights, ruler_step_mm


@pytest.mark.parametrize("px_per_mm", [0.05, 0.31, 0.56, 1.0, 3.7, 20.0])
def test_figures_never_stand_closer_than_asked_and_not_five_times_further(px_per_mm: float):
    step = ruler_step_mm(px_per_mm, inches=False)
    assert step * px_per_mm * (1 + 1e-9) >= 56
    assert step * px_per_mm < 5 * 56


def test_metric_steps_are_one_two_or_five_times_a_power_of_ten():
    for px_per_mm in (0.06, 0.2, 0.9, 4.0, 11.0):
        step = ruler_step_mm(px_per_mm, inches=False)
        while step >= 9.999:
            step /= 10
        assert min(abs(step - nice) for nice in (1, 2, 5)) < 1e-9


def test_inch_steps_are_fractions_a_tape_has():
    # 25.4 mm to the inch; 20 px/mm is 508 px to the inch: an eighth is 63.5 px.
    assert ruler_step_mm(20.0, inches=True) == pytest.approx(25.4 / 8)
    assert ruler_step_mm(4.0, inches=True) == pytest.approx(25.4)
    assert ruler_step_mm(0.5, inches=True) == pytest.approx(5 * 25.4)


def wanted(low: float, high: float, scale: float | None) -> WantedHeights:
    return WantedHeights(
        z_min_mm=low, z_max_mm=high, largest_px_per_mm=scale, free_above_px=20, free_below_px=30, height_px=550
    )


def test_fitting_shows_the_heights_of_all_views():
    ruler = HeightRuler()
    ruler.join(lambda: wanted(500, 900, 2.0))
    ruler.join(lambda: wanted(400, 1000, 2.0))
    ruler.fit()
    assert ruler.px_per_mm == pytest.approx(500 / 600)
    assert ruler.z_top_mm - 20 / ruler.px_per_mm == pytest.approx(1000)


def test_a_view_that_is_narrow_across_holds_the_scale_back():
    ruler = HeightRuler()
    ruler.join(lambda: wanted(500, 900, 0.5))
    ruler.join(lambda: wanted(500, 900, None))
    ruler.fit()
    assert ruler.px_per_mm == pytest.approx(0.5)


def test_a_view_with_nothing_to_show_changes_nothing():
    ruler = HeightRuler()
    ruler.join(lambda: None)
    before = (ruler.px_per_mm, ruler.z_top_mm)
    ruler.fit()
    assert (ruler.px_per_mm, ruler.z_top_mm) == before


def test_scales_beyond_use_are_held_back():
    ruler = HeightRuler()
    ruler.show_heights(1e6, 0.0)
    assert ruler.px_per_mm == LARGEST_SCALE
