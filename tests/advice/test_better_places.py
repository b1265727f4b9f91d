"""The map of better places says at each place what the assessment of the pack with the core there says."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.better_places import LEAST_WORTH_K, better_places, reach_of
from grillestack.advice.room import has_room, window_margins
from grillestack.assess.assess import assess
from grillestack.assets.locate import demo_projects
from grillestack.model import edits
from grillestack.model.nose import Obstruction
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole, Fan
from grillestack.model.project import Project, cores
from grillestack.storage.project_file import read_project


@pytest.fixture(scope="module")
def demo():
    """The pack whose charge-air cooler stands in the middle of the radiator."""
    return read_project(demo_projects()[2])


@pytest.fixture(scope="module")
def cooler(demo):
    return cores(demo, CoreRole.CHARGE_AIR_COOLER)[0]


@pytest.fixture(scope="module")
def found(demo, cooler):
    return better_places(demo, cooler.id)


def _moved(project, part_id, spot):
    return edits.move_parts(project, [part_id], dy_mm=spot.dy_mm, dz_mm=spot.dz_mm)


def test_the_map_is_the_direct_assessment_at_its_places(demo, cooler, found):
    margin_k = assess(demo).deciding_case.margin_k
    every = (*found.spots, *found.finer_spots)
    for spot in every[:: max(1, len(every) // 8)]:
        direct = assess(_moved(demo, cooler.id, spot)).deciding_case.margin_k - margin_k
        # A trial is settled until the last step moved less than 0.03 K; what is left is far less.
        assert spot.change_k == pytest.approx(direct, abs=0.03)


def test_the_best_place_is_exact_and_beats_all_others_that_spoil_nothing(demo, cooler, found):
    margin_k = assess(demo).deciding_case.margin_k
    best = found.best
    assert best.change_k == assess(_moved(demo, cooler.id, best)).deciding_case.margin_k - margin_k
    assert best.change_k >= LEAST_WORTH_K
    assert not best.spoils
    others = [spot.change_k for spot in (*found.spots, *found.finer_spots) if not spot.spoils]
    assert best.change_k >= max(others) - 0.03


def test_every_place_has_room_within_reach_and_none_of_the_grid_with_room_is_left_out(demo, cooler, found):
    depth, reach = assess(demo).depth, reach_of(demo, cooler)
    there = {(spot.dy_mm, spot.dz_mm) for spot in found.spots}
    for spot in (*found.spots, *found.finer_spots):
        assert reach.y0_mm <= spot.dy_mm <= reach.y1_mm
        assert reach.z0_mm <= spot.dz_mm <= reach.z1_mm
        assert has_room(demo, depth, _moved(demo, cooler.id, spot))
    assert (0.0, 0.0) in there
    ys, zs = sorted({y for y, _ in there}), sorted({z for _, z in there})
    for y in ys:
        for z in zs:
            place = edits.move_parts(demo, [cooler.id], dy_mm=y, dz_mm=z)
            assert ((y, z) in there) == has_room(demo, depth, place)


def test_places_that_clash_with_a_beam_are_left_out(demo, cooler, found):
    box_low = min(spot.dz_mm for spot in found.spots)
    beam = Obstruction(
        id="obstruction-99",
        name="Beam",
        outline=rectangle_outline(-900.0, 380.0, 900.0, 480.0),
        x_front_mm=cooler.placement.x_mm,
        x_rear_mm=cooler.placement.x_mm + 40.0,
    )
    nose = replace(demo.nose, obstructions=(*demo.nose.obstructions, beam))
    with_beam = better_places(edits.set_nose(demo, nose), cooler.id)
    assert with_beam.spots
    assert min(spot.dz_mm for spot in with_beam.spots) > box_low + 50.0


def test_a_core_reaches_as_far_as_the_hole_of_the_core_support(demo, cooler):
    reach, room = reach_of(demo, cooler), window_margins(demo.nose.support_window, cooler)
    assert (-reach.y0_mm, reach.y1_mm) == (room.left_mm, room.right_mm)
    assert (-reach.z0_mm, reach.z1_mm) == (room.down_mm, room.up_mm)


def test_without_a_core_support_it_reaches_as_far_as_radiator_and_openings(demo, cooler):
    bare = edits.set_nose(demo, replace(demo.nose, support_window=None))
    reach = reach_of(bare, cooler)
    assert reach.y0_mm <= 0.0 <= reach.y1_mm
    assert reach.z1_mm - reach.z0_mm > 100.0


def test_work_is_broken_off_when_told_so(demo, cooler):
    shares = []

    def go_on(share_frac):
        shares.append(share_frac)
        return len(shares) < 4

    assert better_places(demo, cooler.id, go_on) is None
    assert len(shares) == 4
    assert shares == sorted(shares)


def test_what_has_no_hottest_day_has_no_map_but_a_reason(demo):
    fan = next(part for part in demo.parts if isinstance(part, Fan))
    assert "core" in better_places(demo, fan.id).reason
    unknown = better_places(Project(), "nothing")
    assert unknown.spots == ()
    assert unknown.best is None
    no_opening = edits.set_nose(demo, replace(demo.nose, openings=()))
    assert "hottest day" in better_places(no_opening, cores(demo)[0].id).reason
