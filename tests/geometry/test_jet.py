"""How far the openings' air reaches, by hand sums."""

from __future__ import annotations

import math

import pytest
import shapely

from grillestack.geometry.jet import jet_of
from grillestack.geometry.projection import Box
from grillestack.model.nose import Nose
from grillestack.model.outline import rectangle_outline
from tests.geometry.packs import BOW_TIE, OCTAGON, an_obstruction, an_opening, corners

FIVE_TO_ONE_DEG = math.degrees(math.atan(0.2))


def _jet(openings=(), obstructions=(), spread_deg=FIVE_TO_ONE_DEG, front_mm=100.0):
    return jet_of(Nose(openings=tuple(openings), obstructions=tuple(obstructions)), spread_deg, front_mm)


def test_rectangle_grows_by_the_spread_and_stays_a_rectangle():
    jet = _jet([an_opening(rectangle_outline(-300, -100, 300, 100))])
    # 100 mm ahead of the pack, 1 in 5: 20 mm on every side
    assert jet.openings[0].reach.box.y0_mm == pytest.approx(-320)
    assert jet.openings[0].reach.box.z1_mm == pytest.approx(120)
    assert jet.openings[0].own_area_mm2 == 600 * 200
    assert jet.reach_cut is None


def test_each_opening_grows_from_its_own_place():
    outline = rectangle_outline(0, 0, 100, 100)
    jet = _jet([an_opening(outline, "near", 75.0), an_opening(outline, "far", -50.0)])
    assert [o.reach.box.y1_mm for o in jet.openings] == pytest.approx([105, 130])


def test_opening_behind_the_front_face_does_not_shrink():
    jet = _jet([an_opening(rectangle_outline(0, 0, 100, 100), x_mm=150.0)])
    assert jet.openings[0].reach.box == Box(0, 0, 100, 100)


def test_mitred_octagon_grows_by_the_hand_sum():
    # A convex polygon grown by d with mitred corners gains perimeter·d + d²·Σ tan(turn/2).
    turn = math.atan2(60, 80)
    perimeter = 2 * 440 + 2 * 240 + 4 * 100
    area = 600 * 360 - 4 * 80 * 60 / 2
    grown = area + perimeter * 20 + 400 * (4 * math.tan(turn / 2) + 4 * math.tan((math.pi / 2 - turn) / 2))
    jet = _jet([an_opening(OCTAGON)])
    assert jet.openings[0].own_area_mm2 == pytest.approx(area)
    assert jet.openings[0].reach.area_mm2 == pytest.approx(grown, rel=1e-12)
    assert jet.reach_cut is jet.openings[0].reach


def test_sharp_corner_is_cut_off_at_twice_the_growth():
    # A tip of about 11°: a full mitre would reach about ten times as far as the growth.
    jet = _jet([an_opening(corners((0, -20), (200, 0), (0, 20)))])
    tip = jet.openings[0].reach.edges_mm[:, 0].max()
    assert 220 < tip <= 200 + 2 * 20 + 1e-9


def test_shadow_shrinks_by_the_distance_from_the_obstructions_rear():
    beam = an_obstruction(rectangle_outline(-400, -30, 400, 30), x_front_mm=0, x_rear_mm=50)
    jet = _jet(obstructions=[beam])
    # 50 mm to the pack, 1 in 5: 10 mm on every side
    assert jet.shadows[0].shape.box.z1_mm == pytest.approx(20)
    assert jet.shadows[0].shape.box.y1_mm == pytest.approx(390)


def test_shadow_of_a_thin_bar_far_ahead_closes():
    bar = an_obstruction(rectangle_outline(-400, -5, 400, 5), x_front_mm=0, x_rear_mm=10)
    assert _jet(obstructions=[bar]).shadows[0].shape.area_mm2 == 0


def test_shadow_of_a_polygon_shrinks_too():
    lamp = an_obstruction(OCTAGON, x_front_mm=0, x_rear_mm=50)
    shape = _jet(obstructions=[lamp]).shadows[0].shape
    assert shape.area_mm2 < _jet(obstructions=[lamp], spread_deg=0.0).shadows[0].shape.area_mm2
    assert shape.edges_mm[:, 0].max() == pytest.approx(290)


def test_obstruction_behind_the_foremost_face_keeps_its_outline_for_cores_behind_it():
    latch = an_obstruction(rectangle_outline(0, 0, 50, 50), x_front_mm=130, x_rear_mm=160)
    shadow = _jet(obstructions=[latch]).shadows[0]
    assert shadow.shape.box == Box(0, 0, 50, 50)
    assert [shadow.falls_on(x) for x in (100, 130, 140, 160, 200)] == [False, False, True, True, True]


def test_stream_is_the_reach_less_the_shadows_ahead():
    opening = an_opening(rectangle_outline(-300, -100, 300, 100))
    ahead = an_obstruction(rectangle_outline(-50, -50, 50, 50), 0, 100, "ahead")
    among = an_obstruction(rectangle_outline(100, -50, 200, 50), 120, 140, "among")
    jet = _jet([opening], [ahead, among])
    assert jet.stream.area_mm2 == pytest.approx(640 * 240 - 100 * 100)


def test_overlapping_openings_count_once():
    jet = _jet([an_opening(OCTAGON, "one"), an_opening(OCTAGON, "two")], front_mm=0.0)
    assert jet.stream.area_mm2 == pytest.approx(600 * 360 - 4 * 80 * 60 / 2)


def test_outline_that_crosses_itself_gives_both_its_halves_and_is_named():
    jet = _jet([an_opening(BOW_TIE), an_opening(OCTAGON, "sound")], [an_obstruction(BOW_TIE)], front_mm=0.0)
    assert [o.crosses_itself for o in jet.openings] == [True, False]
    assert jet.shadows[0].crosses_itself
    # Two triangles of 200 high and 200 wide
    assert jet.openings[0].own_area_mm2 == pytest.approx(2 * 200 * 200 / 2)
    assert shapely.is_valid(jet.openings[0].reach.polygon)


def test_opening_without_area_lets_no_air_in_however_far_it_is():
    jet = _jet([an_opening(corners((0, 0), (100, 50), (200, 100)))])
    assert jet.openings[0].own_area_mm2 == 0
    assert jet.openings[0].reach.area_mm2 == 0
    assert not jet.openings[0].crosses_itself


def test_no_opening_has_no_stream():
    assert _jet().stream is None


def test_jet_is_kept_while_nose_spread_and_distance_stay():
    nose = Nose(openings=(an_opening(OCTAGON),))
    assert jet_of(nose, 7.0, 80.0) is jet_of(Nose(openings=(an_opening(OCTAGON),)), 7.0, 80.0)
    assert jet_of(nose, 7.0, 80.0) is not jet_of(nose, 7.0, 81.0)
