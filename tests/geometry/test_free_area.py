"""The free area of bars and mesh against hand sums."""

from __future__ import annotations

import pytest

from grillestack.geometry.free_area import Screen, free_area_frac


def test_bars_of_8_every_25_leave_17_of_25_open():
    assert free_area_frac(Screen.BARS, 8, 25) == pytest.approx(0.68)


def test_a_mesh_leaves_the_square_of_what_bars_leave():
    # Wires of 2 every 10: each mesh of 100 mm2 has a hole of 8 x 8 mm.
    assert free_area_frac(Screen.MESH, 2, 10) == pytest.approx(64 / 100)


@pytest.mark.parametrize(("bar", "pitch"), [(0, 25), (-1, 25), (25, 25), (30, 25)])
def test_bars_that_leave_nothing_or_are_none_are_refused_in_a_sentence(bar, pitch):
    with pytest.raises(ValueError, match=r"must be above .*: measure"):
        free_area_frac(Screen.BARS, bar, pitch)
