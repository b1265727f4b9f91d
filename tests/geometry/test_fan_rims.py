"""The way beside the fans' rings, by hand sums, by quadrature, and against the second solver's small steps."""

from __future__ import annotations

import math

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.integrate import quad
from scipy.special import ellipe

from grillestack.geometry.fan_rims import passages, swept_under_shroud
from grillestack.geometry.overlay import build_overlay
from grillestack.model.parts import Core, Fan, Shroud
from tests.geometry.packs import OPEN_NOSE, a_core, a_demanding_pack, a_fan, a_project, a_shroud
from tests.independent.random_packs import random_pack
from tests.independent.rims import passage_mm2

# The core's rear stands at 140 mm, the fan's ring of 300 mm at 170 mm, the shroud's plate at 230 mm.
CORE, SHROUD, FAN = a_core(), a_shroud(), a_fan(at_mm=(170.0, 0.0, 0.0))
RIM_MM = math.pi * 300.0


def _passages_mm2(project) -> tuple[float, ...]:
    return tuple(way.area_mm2 for way in passages(project))


def _passage_mm2(*parts) -> float:
    return _passages_mm2(a_project(*parts))[0]


def test_a_ring_before_a_core_leaves_its_rim_times_the_clear_depth():
    assert _passage_mm2(CORE, SHROUD, FAN) == pytest.approx(RIM_MM * 30.0, rel=1e-12)


def test_a_ring_against_the_fins_leaves_nothing():
    for x_mm in (140.0, 135.0, 110.0):
        assert _passage_mm2(CORE, SHROUD, a_fan(at_mm=(x_mm, 0.0, 0.0))) == pytest.approx(0.0, abs=1e-9)


def test_a_plate_ahead_of_the_ring_bounds_the_way_and_one_behind_does_not():
    assert _passage_mm2(CORE, a_shroud(depth_mm=2.0), FAN) == pytest.approx(RIM_MM * 12.0, rel=1e-12)
    assert _passage_mm2(CORE, a_shroud(depth_mm=500.0), FAN) == pytest.approx(RIM_MM * 30.0, rel=1e-12)


def test_two_rings_at_different_depths_add_their_areas():
    left, right = a_fan("left", 200.0, (150.0, -150.0, 0.0)), a_fan("right", 240.0, (180.0, 150.0, 0.0))
    by_hand = math.pi * (200.0 * 10.0 + 240.0 * 40.0)
    assert _passage_mm2(CORE, SHROUD, left, right) == pytest.approx(by_hand, rel=1e-12)


def test_only_the_rim_within_the_shroud_counts():
    on_the_side = a_fan(at_mm=(170.0, 300.0, 0.0))
    assert _passage_mm2(CORE, SHROUD, on_the_side) == pytest.approx(RIM_MM / 2 * 30.0, rel=1e-9)
    # Two sides 75 mm from the middle of a ring of 150 mm radius cut off 120° each.
    low = a_shroud(size_mm=(600.0, 150.0))
    assert _passage_mm2(CORE, low, FAN) == pytest.approx(RIM_MM * 30.0 / 3, rel=1e-9)


def test_of_two_cores_and_their_tanks_the_rearmost_counts_where_it_stands():
    # A second core stands behind the upper half of the ring, its rear 8 mm ahead of it; left of it a tank.
    behind = a_core("behind", (200.0, 400.0), (144.0, 0.0, 200.0), tank_mm=200.0, depth_mm=18.0)
    assert _passage_mm2(CORE, behind, SHROUD, FAN) == pytest.approx(RIM_MM / 2 * (30.0 + 8.0), rel=1e-9)
    bare = replace(behind, solids=(), overall=behind.overall)
    # The rim over y = -100 … 100 mm above the middle: twice asin(100/150) of its angle.
    share = 2 * math.asin(100.0 / 150.0) / (2 * math.pi)
    by_hand = RIM_MM * (share * 8.0 + (1 - share) * 30.0)
    assert _passage_mm2(CORE, bare, SHROUD, FAN) == pytest.approx(by_hand, rel=1e-9)


def test_twins_in_one_place_bound_the_way_like_one():
    assert _passage_mm2(CORE, a_core("twin"), SHROUD, FAN) == pytest.approx(RIM_MM * 30.0, rel=1e-12)
    crossed = [
        a_core(n, (700.0, 500.0), (100.0, 0.0, 0.0), pose={"tilt_deg": tilt}) for n, tilt in (("a", 8.0), ("b", -8.0))
    ]
    # Leant both ways through one line they bound the way by the further of the two everywhere: the mean of |sin| is 2/π.
    rear_mm = 100.0 + 40.0 / math.cos(math.radians(8.0)) + 150.0 * math.tan(math.radians(8.0)) * 2 / math.pi
    fan = a_fan(at_mm=(200.0, 0.0, 0.0))
    assert _passage_mm2(*crossed, a_shroud(size_mm=(700.0, 500.0)), fan) == pytest.approx(
        RIM_MM * (200.0 - rear_mm), rel=1e-3
    )


def test_what_begins_behind_the_ring_does_not_stand_ahead_of_it():
    after = a_core("after", at_mm=(300.0, 0.0, 0.0))
    assert _passage_mm2(CORE, after, SHROUD, FAN) == pytest.approx(RIM_MM * 30.0, rel=1e-12)


def test_where_nothing_stands_ahead_the_depth_begins_at_the_shroud():
    aside = a_core(size_mm=(100.0, 100.0), at_mm=(100.0, 2000.0, 0.0))
    assert _passage_mm2(aside, SHROUD, FAN) == pytest.approx(RIM_MM * 20.0, rel=1e-12)


def test_a_leaning_core_counts_at_each_place_as_it_leans():
    tilt = math.radians(10.0)
    leaning = a_core(size_mm=(600.0, 500.0), at_mm=(100.0, 0.0, 0.0), pose={"tilt_deg": 10.0})

    def depth_mm(angle: float) -> float:
        return max(170.0 - (100.0 + 40.0 / math.cos(tilt) + 150.0 * math.sin(angle) * math.tan(tilt)), 0.0)

    free = quad(lambda angle: 150.0 * depth_mm(angle), -math.pi / 2, math.pi / 2, points=[0.0], limit=200)[0] * 2
    assert free == pytest.approx(RIM_MM * (70.0 - 40.0 / math.cos(tilt)), rel=1e-6)
    assert _passage_mm2(leaning, SHROUD, FAN) == pytest.approx(free, rel=1e-4)
    # Leant by 25° it runs into the ring's plane above: there the way is shut, not less than shut.
    steep = a_core(size_mm=(600.0, 500.0), at_mm=(100.0, 0.0, 0.0), pose={"tilt_deg": 25.0})
    tilt = math.radians(25.0)
    shut = quad(lambda angle: 150.0 * depth_mm(angle), -math.pi / 2, math.pi / 2, limit=400)[0] * 2
    assert shut > 1.2 * RIM_MM * (70.0 - 40.0 / math.cos(tilt))
    assert _passage_mm2(steep, SHROUD, FAN) == pytest.approx(shut, rel=1e-3)


def test_the_rim_of_a_leaning_fan_is_an_ellipse():
    """Its length by the complete elliptic integral; the shroud's plate stands ahead of all of it."""
    fan = a_fan(at_mm=(400.0, 0.0, 0.0), tilt_deg=30.0)
    length_mm = 4 * 150.0 * ellipe(math.sin(math.radians(30.0)) ** 2)
    assert _passage_mm2(CORE, SHROUD, fan) == pytest.approx(length_mm * 90.0, rel=1e-6)


def test_a_rim_within_another_ring_parts_nothing():
    # Two rings of 150 mm radius, their middles 150 mm apart: each loses the 120° inside the other.
    left, right = a_fan("left", 300.0, (170.0, -75.0, 0.0)), a_fan("right", 300.0, (170.0, 75.0, 0.0))
    assert _passage_mm2(CORE, SHROUD, left, right) == pytest.approx(2 * RIM_MM * 30.0 * 2 / 3, rel=1e-4)
    small = a_fan("small", 100.0, (150.0, 0.0, 0.0))
    assert _passage_mm2(CORE, SHROUD, FAN, small) == pytest.approx(RIM_MM * 30.0, rel=1e-12)
    assert _passage_mm2(CORE, SHROUD, FAN, a_fan("twin", at_mm=(170.0, 0.0, 0.0))) == pytest.approx(RIM_MM * 30.0)


def test_a_shroud_without_a_fan_has_no_way_and_each_shroud_its_own():
    left = a_shroud("left", (300.0, 400.0), (150.0, -150.0, 0.0))
    right = a_shroud("right", (300.0, 400.0), (150.0, 150.0, 0.0))
    fan = a_fan(diameter_mm=200.0, at_mm=(170.0, 150.0, 0.0))
    assert _passages_mm2(a_project(CORE, left, right, fan)) == pytest.approx((0.0, math.pi * 200.0 * 30.0))
    assert _passages_mm2(a_project(CORE)) == ()


def test_the_mean_depth_is_told_over_the_rims_that_count():
    left, right = a_fan("left", 200.0, (150.0, -150.0, 0.0)), a_fan("right", 240.0, (180.0, 150.0, 0.0))
    (way,) = passages(a_project(CORE, SHROUD, left, right))
    assert way.rim_mm == pytest.approx(math.pi * 440.0, rel=1e-12)
    assert way.mean_depth_mm == pytest.approx((200.0 * 10.0 + 240.0 * 40.0) / 440.0, rel=1e-12)
    assert passages(a_project(CORE, SHROUD))[0].mean_depth_mm is None


def test_swept_is_what_lies_in_the_ring_of_the_shrouds_own_fan():
    left = a_shroud("left", (300.0, 400.0), (150.0, -150.0, 0.0))
    right = a_shroud("right", (300.0, 400.0), (150.0, 150.0, 0.0))
    # The left fan's ring reaches 50 mm under the right shroud: there it sweeps nothing of its own.
    fan, other = a_fan("one", 300.0, (170.0, -100.0, 0.0)), a_fan("two", 100.0, (170.0, 220.0, 0.0))
    overlay = build_overlay(a_project(CORE, left, right, fan, other, openings=[OPEN_NOSE]), 7.0)
    swept = swept_under_shroud(overlay)
    segment = 150.0**2 * math.acos(100.0 / 150.0) - 100.0 * math.sqrt(150.0**2 - 100.0**2)
    areas = [overlay.area_mm2[swept & (overlay.shroud == number)].sum() for number in (0, 1)]
    assert areas == pytest.approx([math.pi * 150.0**2 - segment, math.pi * 50.0**2], rel=2e-3)
    assert not swept[overlay.shroud < 0].any()
    bare = build_overlay(a_project(CORE, a_fan(at_mm=(170.0, 0.0, 0.0)), openings=[OPEN_NOSE]), 7.0)
    assert bare.swept.any()
    assert not swept_under_shroud(bare).any()


def test_a_pack_moved_as_a_whole_keeps_its_way():
    still = _passages_mm2(a_demanding_pack())
    pack = a_demanding_pack()
    parts = tuple(
        replace(p, placement=replace(p.placement, y_mm=p.placement.y_mm + 37.3, z_mm=p.placement.z_mm - 81.7))
        for p in pack.parts
    )
    assert _passages_mm2(replace(pack, parts=parts)) == pytest.approx(still, rel=1e-9)


@pytest.mark.parametrize("seed", range(60))
def test_random_packs_have_the_way_of_small_steps(seed):
    project = random_pack(seed, 10.0)
    cores = [p for p in project.parts if isinstance(p, Core)]
    fans = [p for p in project.parts if isinstance(p, Fan)]
    shrouds = [p for p in project.parts if isinstance(p, Shroud)]
    for shroud, found in zip(shrouds, _passages_mm2(project), strict=True):
        at, half = shroud.placement, shroud.width_mm / 2
        mine = [fan for fan in fans if abs(fan.placement.y_mm - at.y_mm) <= half]
        assert found == pytest.approx(passage_mm2(shroud, mine, cores), rel=3e-3, abs=20.0)


def test_the_way_changes_without_a_jump_as_a_fan_is_moved():
    places_mm = np.linspace(-200.0, 200.0, 801)
    found = np.array([_passage_mm2(CORE, SHROUD, FAN, a_fan("b", 200.0, (160.0, float(y), 30.0))) for y in places_mm])
    # Half a millimetre moves at most twice that of each rim's edge past each place it meets.
    assert np.abs(np.diff(found)).max() < 0.02 * found.max()
