"""Lines of the grid for outlines that are no rectangles: along their sides, and through the bends that part the air."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.geometry.overlay import Overlay, build_overlay
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline
from tests.geometry.packs import a_core, a_fan, a_project, a_shroud, an_obstruction, an_opening

WIDE = an_opening(rectangle_outline(-500, -400, 500, 400))
INNER = rectangle_outline(-230, -150, 230, 150)
CELL_MM = 80.0


def _overlay(*parts, opening=WIDE, window=None, obstructions=()) -> Overlay:
    nose = a_project(*parts, openings=[opening], obstructions=obstructions)
    if window is not None:
        nose = replace(nose, nose=replace(nose.nose, support_window=window))
    return build_overlay(nose, 0.0, CELL_MM)


def _widest(lines_mm: np.ndarray, low_mm: float, high_mm: float) -> float:
    within = lines_mm[(lines_mm >= low_mm - 1e-9) & (lines_mm <= high_mm + 1e-9)]
    return float(np.diff(within).max())


def _has(lines_mm: np.ndarray, *places_mm: float) -> bool:
    return all(np.abs(lines_mm - place).min() < 1e-6 for place in places_mm)


@pytest.mark.parametrize("x_mm", [-60.0, 200.0])
def test_the_ring_of_a_fan_with_a_chamber_of_its_own_lies_in_small_cells(x_mm):
    """Pusher ahead of the core, puller behind it: the air inside the ring goes another way than that beside it."""
    overlay = _overlay(a_core(size_mm=(600, 400)), a_fan(diameter_mm=300, at_mm=(x_mm, 20, 10)))
    for lines, middle in ((overlay.y_lines_mm, 20.0), (overlay.z_lines_mm, 10.0)):
        assert _widest(lines, middle - 150, middle + 150) <= 20.0 + 1e-9
        assert np.diff(lines).max() > 60.0


def test_the_ring_of_a_fan_in_a_shroud_asks_for_no_line():
    """Both sides of it lie in one chamber."""
    parts = (a_core(size_mm=(600, 400)), a_shroud(size_mm=(600, 400), at_mm=(160, 0, 0)))
    without, with_fan = (_overlay(*parts, *fans) for fans in ((), (a_fan(at_mm=(180, 20, 10)),)))
    assert with_fan.y_lines_mm.tolist() == without.y_lines_mm.tolist()
    assert with_fan.z_lines_mm.tolist() == without.z_lines_mm.tolist()


def test_no_line_runs_beyond_the_cores():
    overlay = _overlay(a_core(size_mm=(600, 400)), a_fan(diameter_mm=500, at_mm=(200, 250, 0)))
    assert overlay.y_lines_mm.max() == 500.0
    assert not ((overlay.y_lines_mm > 300.0) & (overlay.y_lines_mm < 500.0)).any()


def test_the_sides_of_a_rounded_opening_and_of_a_rounded_beam_are_lines():
    opening = replace(an_opening(INNER), corner_radii_mm=(40.0,) * 4)
    overlay = _overlay(a_core(size_mm=(600, 400)), opening=opening)
    assert _has(overlay.y_lines_mm, -230, 230)
    assert _has(overlay.z_lines_mm, -150, 150)
    beam = replace(an_obstruction(rectangle_outline(-310, -33, 310, 41)), corner_radii_mm=(10.0,) * 4)
    overlay = _overlay(a_core(size_mm=(600, 400)), obstructions=[beam])
    assert _has(overlay.z_lines_mm, -33, 41)


def test_the_corners_of_a_rounded_window_lie_in_small_cells_and_its_middle_does_not():
    window = SupportWindow(outline=INNER, x_mm=90.0, corner_radii_mm=(60.0,) * 4)
    overlay = _overlay(a_core(size_mm=(600, 400)), window=window)
    assert _has(overlay.y_lines_mm, -230, 230)
    for low, high in ((-230.0, -170.0), (170.0, 230.0)):
        assert _widest(overlay.y_lines_mm, low, high) <= 20.0 + 1e-9
    assert _widest(overlay.y_lines_mm, -170.0, 170.0) > 60.0


def test_a_short_side_is_not_worth_a_line():
    cut = replace(an_opening(INNER), corner_radii_mm=(140.0,) * 4)
    overlay = _overlay(a_core(size_mm=(600, 400)), opening=cut)
    # 300 mm high with arcs of 140 mm: 20 mm of its upright sides are left.
    assert not _has(overlay.y_lines_mm, 230)
    assert _has(overlay.z_lines_mm, 150)


def test_lines_change_no_area_and_no_list_of_what_the_air_meets():
    parts = (a_core(size_mm=(600, 400)), a_fan(diameter_mm=300, at_mm=(200, 20, 10)))
    nose = a_project(*parts, openings=[WIDE])
    coarse, fine = (build_overlay(nose, 0.0, cell) for cell in (CELL_MM, 7.0))
    ring = [float(overlay.area_mm2[overlay.fan == 0].sum()) for overlay in (coarse, fine)]
    assert ring[0] == pytest.approx(ring[1], rel=1e-9)
    assert ring[0] == pytest.approx(np.pi * 150.0**2, rel=1e-9)
