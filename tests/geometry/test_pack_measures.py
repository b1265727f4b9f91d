"""Lengths and areas for the air network, each by a hand sum."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.overlay import build_overlay
from grillestack.model.outline import rectangle_outline
from tests.geometry.packs import (
    BOW_TIE,
    OCTAGON,
    OPEN_NOSE,
    a_core,
    a_demanding_pack,
    a_fan,
    a_project,
    an_obstruction,
    an_opening,
    corners,
)


def _measures(*parts, spread_deg=0.0, **nose):
    return build_overlay(a_project(*parts, **nose), spread_deg).measures


def test_border_of_the_jet_inside_the_pack():
    # An opening 400 wide and higher than the core: two borders, each as long as the core is high
    tall = an_opening(rectangle_outline(-200, -500, 200, 500))
    assert _measures(a_core(size_mm=(600, 400)), openings=[tall]).jet_border_mm == pytest.approx(800)


def test_tanks_carry_the_border_too():
    # An opening lower than the core and wider than core and tanks: two borders across both
    low = an_opening(rectangle_outline(-500, -100, 500, 100))
    assert _measures(a_core(size_mm=(600, 400), tank_mm=50), openings=[low]).jet_border_mm == pytest.approx(2 * 700)


def test_border_around_a_shadow_counts():
    lamp = an_obstruction(rectangle_outline(-50, -50, 50, 50), 0, 50)
    measures = _measures(a_core(), openings=[OPEN_NOSE], obstructions=[lamp])
    assert measures.jet_border_mm == pytest.approx(400)


def test_border_of_an_octagon_is_its_outline():
    assert _measures(a_core(size_mm=(700, 500)), openings=[an_opening(OCTAGON)]).jet_border_mm == pytest.approx(
        2 * 440 + 2 * 240 + 4 * 100
    )


def test_border_along_the_packs_own_outline_is_none():
    core = a_core(size_mm=(600, 400))
    assert _measures(core, openings=[an_opening(rectangle_outline(-300, -200, 300, 200))]).jet_border_mm == 0
    assert _measures(core, openings=[OPEN_NOSE]).jet_border_mm == 0
    assert _measures(core).jet_border_mm == 0


def test_shadow_that_shares_an_edge_with_the_opening_leaves_no_border_there():
    # A lamp drawn exactly over one of two openings, whose leaning edge crosses the other: only that one lets air in.
    lamp = corners((-200, 50), (-200, 0.1), (50, 50))
    openings = [an_opening(BOW_TIE, "one"), an_opening(lamp, "two")]
    core = a_core(size_mm=(50, 50), at_mm=(100, 0, 50))
    assert _measures(core, openings=openings, obstructions=[an_obstruction(lamp)]).jet_border_mm == 0


def test_clear_depth_is_weighted_by_the_openings_areas():
    # 100 mm deep over 30 000 mm², 60 mm over 10 000 mm²
    openings = [
        an_opening(rectangle_outline(0, 0, 300, 100), "upper", 0.0),
        an_opening(rectangle_outline(0, -200, 100, -100), "lower", 40.0),
    ]
    assert _measures(a_core(at_mm=(100, 0, 0)), openings=openings).clear_depth_mm == pytest.approx(90)


def test_clear_depth_of_an_opening_behind_the_front_face_is_nought():
    inside = an_opening(rectangle_outline(0, 0, 100, 100), x_mm=150.0)
    assert _measures(a_core(at_mm=(100, 0, 0)), openings=[inside]).clear_depth_mm == 0
    assert _measures(a_core()).clear_depth_mm == 0


def test_clear_depth_reaches_to_the_foremost_part_whatever_it_is():
    pusher = a_fan(at_mm=(40, 0, 0))
    assert _measures(a_core(at_mm=(100, 0, 0)), pusher, openings=[OPEN_NOSE]).clear_depth_mm == pytest.approx(40)


def test_outline_of_the_pack_runs_around_the_overall_sizes():
    radiator = a_core("radiator", (600, 400), (100, 0, 0), tank_mm=50)
    lower = a_core("lower", (600, 100), (50, 0, -200), tank_mm=50)
    # 700 wide; from 200 down to -250
    assert _measures(radiator, lower).pack_outline_mm == pytest.approx(2 * (700 + 450))
    assert _measures().pack_outline_mm == 0


def test_uncovered_opening_is_what_meets_neither_core_nor_tank():
    opening = an_opening(rectangle_outline(-400, -100, 400, 100))
    core = a_core(size_mm=(600, 400), tank_mm=50)
    assert _measures(core, openings=[opening]).uncovered_opening_mm2 == pytest.approx(2 * 50 * 200)


def test_uncovered_opening_ends_at_the_window_and_at_shadows():
    opening = an_opening(rectangle_outline(-400, -100, 400, 100))
    core = a_core(size_mm=(600, 400))
    window = rectangle_outline(-350, -250, 350, 250)
    lamp = an_obstruction(rectangle_outline(300, 0, 400, 100), 0, 50)
    measures = _measures(core, openings=[opening], window=window, obstructions=[lamp])
    assert measures.uncovered_opening_mm2 == pytest.approx(50 * 200 + 50 * 100)


def test_uncovered_part_of_an_octagon_by_hand():
    # The core covers the middle 440: left are two trapeziums of 360 and 240 over 80.
    core = a_core(size_mm=(440, 400))
    measures = _measures(core, openings=[an_opening(OCTAGON)])
    assert measures.uncovered_opening_mm2 == pytest.approx(2 * 80 * (360 + 240) / 2)


def test_uncovered_opening_grows_with_the_jet():
    core = a_core(size_mm=(600, 400), at_mm=(100, 0, 0))
    opening = an_opening(rectangle_outline(-300, -100, 300, 100))
    spread = math.degrees(math.atan(0.2))
    assert _measures(core, openings=[opening], spread_deg=spread).uncovered_opening_mm2 == pytest.approx(2 * 20 * 240)


def test_edge_rooms_are_those_of_the_four_sides_each_held_between_nought_and_fifteen():
    core = a_core(size_mm=(600, 400), tank_mm=50)
    window = rectangle_outline(-360, -205, 400, 190)
    # left 10, right 50 → 15, below 5, above −10 → 0
    measures = _measures(core, window=window)
    assert measures.edge_rooms_mm == pytest.approx((10, 5, 15, 0))
    assert measures.edge_lengths_mm == pytest.approx((400, 700, 400, 700))


def test_edge_rooms_without_a_window_are_full():
    assert _measures(a_core()).edge_rooms_mm == (15, 15, 15, 15)
    assert _measures(window=OCTAGON).edge_rooms_mm == (15, 15, 15, 15)
    assert _measures(window=OCTAGON).edge_lengths_mm == (0, 0, 0, 0)


def test_openings_report_their_own_areas():
    openings = [an_opening(OCTAGON, "one"), an_opening(rectangle_outline(0, 0, 10, 20), "two")]
    measures = _measures(a_core(), openings=openings, spread_deg=7.0)
    assert measures.opening_area_mm2 == pytest.approx((600 * 360 - 4 * 2400, 200))


def test_moving_a_covered_core_leaves_the_uncovered_opening_alone():
    still, moved = (build_overlay(a_demanding_pack(y), 7.0).measures for y in (0.0, 20.0))
    assert moved.uncovered_opening_mm2 == pytest.approx(still.uncovered_opening_mm2)


def test_each_side_of_the_pack_lies_in_the_jet_as_far_as_its_air_reaches():
    """Left, bottom, right, top of a core of 600 × 400 behind the octagon of 600 × 360, moved up by 40 mm."""
    core = a_core(size_mm=(600, 400), at_mm=(100.0, 0.0, 40.0))
    # The octagon's left and right sides, 600 apart, are 240 mm long; its slopes reach in 80 mm over 60 mm of height. It ends at
    # 180 mm, below the core's top at 240; the core's bottom, at -160, crosses the slopes 26.67 mm outside the flat of 440 mm.
    found = _measures(core, openings=[an_opening(OCTAGON)]).edges_in_jet_frac
    assert found == pytest.approx((240 / 400, (440 + 2 * 80 / 60 * 20) / 600, 240 / 400, 0.0), abs=1e-4)


def test_a_shadow_ahead_of_the_pack_takes_its_part_of_a_side_out_of_the_jet():
    beam = an_obstruction(rectangle_outline(-1000, -50, 1000, 50), 10, 60)
    found = _measures(a_core(size_mm=(600, 400)), openings=[OPEN_NOSE], obstructions=[beam]).edges_in_jet_frac
    assert found == pytest.approx((0.75, 1.0, 0.75, 1.0), abs=1e-4)


def test_without_opening_or_pack_no_side_lies_in_a_jet():
    assert _measures(a_core()).edges_in_jet_frac == (0, 0, 0, 0)
    assert _measures(openings=[OPEN_NOSE]).edges_in_jet_frac == (0, 0, 0, 0)
