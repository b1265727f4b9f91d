"""The pieces of a pack and what each says, on packs small enough to count by hand."""

from __future__ import annotations

import math
import pickle

import numpy as np
import pytest

from grillestack.geometry.fan_places import FanDuty
from grillestack.geometry.overlay import SUPPORT_PLATE, build_overlay
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole, TubeDirection
from grillestack.model.project import Project
from tests.geometry.packs import (
    OCTAGON,
    OPEN_NOSE,
    a_core,
    a_demanding_pack,
    a_fan,
    a_project,
    a_shroud,
    an_obstruction,
    an_opening,
)


def _area(overlay, chosen):
    return float(overlay.area_mm2[chosen].sum())


def test_empty_project_has_no_piece():
    overlay = build_overlay(Project(), 7.0)
    assert overlay.n_pieces == 0
    assert overlay.core_hit.shape == (0, 0)
    assert overlay.blocked_by.shape == (0, 0)
    assert overlay.foremost_id is None
    assert overlay.piece_corners == ()


def test_nose_without_a_pack_has_no_piece_but_its_opening():
    overlay = build_overlay(a_project(openings=[an_opening(OCTAGON)]), 7.0)
    assert overlay.n_pieces == 0
    assert overlay.measures.uncovered_opening_mm2 == pytest.approx(600 * 360 - 4 * 2400)


def test_one_core_in_an_open_nose_is_all_hit_and_all_in_the_opening():
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400)), openings=[OPEN_NOSE]), 7.0)
    assert overlay.area_mm2.sum() == pytest.approx(600 * 400)
    assert overlay.core_hit.all()
    assert overlay.in_opening.all()
    assert overlay.foremost_id == "core"
    assert overlay.blocked_by.shape == (overlay.n_pieces, 0)


def test_no_opening_lets_no_air_in():
    overlay = build_overlay(a_project(a_core()), 7.0)
    assert not overlay.in_opening.any()


def test_no_cell_of_a_core_is_larger_than_asked_for():
    overlay = build_overlay(a_demanding_pack(), 7.0, max_cell_mm=37.0)
    assert np.diff(overlay.y_lines_mm)[overlay.iy].max() <= 37 + 1e-9
    assert np.diff(overlay.z_lines_mm)[overlay.iz].max() <= 37 + 1e-9


def test_finer_cells_change_no_area():
    coarse, fine = (build_overlay(a_demanding_pack(13.7, -21.3), 7.0, max_cell_mm=mm) for mm in (500.0, 20.0))
    assert fine.n_pieces > 3 * coarse.n_pieces
    for name in ("in_opening", "swept"):
        for c in range(4):
            areas = [_area(o, getattr(o, name) & o.core_hit[:, c]) for o in (coarse, fine)]
            assert areas[0] == pytest.approx(areas[1], rel=1e-9)


def test_cores_come_front_to_back_and_by_document_order_on_ties():
    pack = a_project(
        a_core("rear", at_mm=(200, 0, 0)),
        a_core("twin-one", at_mm=(100, 0, 0)),
        a_core("twin-two", at_mm=(100, 0, 0)),
        a_core("front", at_mm=(50, 0, 0)),
    )
    assert build_overlay(pack, 7.0).core_ids == ("front", "twin-one", "twin-two", "rear")


def test_spans_of_a_core_enclose_it_on_the_grid():
    overlay = build_overlay(a_demanding_pack(), 7.0)
    y0, y1, z0, z1 = overlay.core_spans[overlay.core_ids.index("oil-cooler")]
    assert overlay.y_lines_mm[[y0, y1]].tolist() == [-225, 25]
    assert overlay.z_lines_mm[[z0, z1]].tolist() == [70, 190]


def test_passes_share_the_core_across_its_tubes():
    lying = build_overlay(a_project(a_core(passes=3, size_mm=(600, 300))), 7.0, max_cell_mm=1000.0)
    assert lying.z_lines_mm.tolist() == pytest.approx([-150, -50, 50, 150])
    assert lying.y_lines_mm.tolist() == [-300, 300]
    standing = build_overlay(
        a_project(a_core(passes=2, size_mm=(600, 300), tubes=TubeDirection.DOWN_FLOW)), 7.0, max_cell_mm=1000.0
    )
    assert standing.y_lines_mm.tolist() == [-300, 0, 300]
    assert standing.z_lines_mm.tolist() == [-150, 150]


def test_tank_ahead_and_tank_behind_both_block():
    # The rear core reaches 100 mm past the front one on both sides; tanks of 40 stand there.
    front = a_core("front", (400, 300), (100, 0, 0), tank_mm=40)
    rear = a_core("rear", (600, 300), (200, 0, 0))
    for order in ((front, rear), (a_core("front", (400, 300), (300, 0, 0), tank_mm=40), rear)):
        overlay = build_overlay(a_project(*order, openings=[OPEN_NOSE]), 7.0)
        assert overlay.solid_parts == ("front", "front")
        assert _area(overlay, overlay.blocked_by.any(axis=1)) == pytest.approx(2 * 40 * 300)


def test_own_tank_never_blocks_even_where_it_overlaps_by_a_hair():
    # The model lets a tank lie over its core by up to 0.01 mm: measured sizes are never that exact.
    core = a_core(size_mm=(600, 400), tank_mm=50, pose={"tilt_deg": 12.0})
    wide = a_core(size_mm=(600, 400), overall=core.overall, solids=a_core(size_mm=(599.99, 400), tank_mm=50.005).solids)
    for part in (core, wide):
        assert not build_overlay(a_project(part, openings=[OPEN_NOSE]), 7.0).blocked_by.any()


def test_support_plate_blocks_outside_its_window():
    window = rectangle_outline(-250, -200, 250, 200)
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400)), openings=[OPEN_NOSE], window=window), 7.0)
    assert overlay.solid_parts == (SUPPORT_PLATE,)
    assert _area(overlay, overlay.blocked_by[:, 0]) == pytest.approx(2 * 50 * 400)


def test_window_of_any_shape_cuts_exactly():
    overlay = build_overlay(a_project(a_core(size_mm=(600, 360)), openings=[OPEN_NOSE], window=OCTAGON), 7.0)
    assert _area(overlay, overlay.blocked_by[:, 0]) == pytest.approx(4 * 80 * 60 / 2)


def test_opening_of_any_shape_cuts_exactly():
    overlay = build_overlay(a_project(a_core(size_mm=(600, 360)), openings=[an_opening(OCTAGON)]), 0.0)
    assert _area(overlay, ~overlay.in_opening) == pytest.approx(4 * 80 * 60 / 2)


def test_shadows_keep_their_obstruction():
    beam = an_obstruction(rectangle_outline(-400, -30, 400, 30), 10, 60, "beam")
    lamp = an_obstruction(OCTAGON, 10, 60, "lamp")
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400)), openings=[OPEN_NOSE], obstructions=[beam, lamp]), 0.0)
    assert overlay.obstruction_ids == ("beam", "lamp")
    assert _area(overlay, overlay.shadow_of[:, 0]) == pytest.approx(600 * 60)
    assert _area(overlay, overlay.shadow_of[:, 1]) == pytest.approx(600 * 360 - 4 * 2400)
    assert overlay.shadow_falls.all()


def test_shadow_between_cores_counts_for_the_rear_one_only():
    latch = an_obstruction(rectangle_outline(0, 0, 100, 100), 150, 180)
    pack = a_project(
        a_core("front", at_mm=(100, 0, 0)),
        a_core("rear", at_mm=(200, 0, 0)),
        openings=[OPEN_NOSE],
        obstructions=[latch],
    )
    overlay = build_overlay(pack, 7.0)
    assert overlay.shadow_falls.tolist() == [[False, True]]
    assert not overlay.off_opening[:, 0].any()
    assert _area(overlay, overlay.off_opening[:, 1]) == pytest.approx(100 * 100)


def test_behind_means_another_core_ahead_on_the_same_piece():
    pack = a_project(
        a_core("front", (200, 200), (50, 0, 0)), a_core("rear", (600, 400), (100, 0, 0)), openings=[OPEN_NOSE]
    )
    overlay = build_overlay(pack, 7.0)
    assert not overlay.behind[:, 0].any()
    assert _area(overlay, overlay.behind[:, 1]) == pytest.approx(200 * 200)


def test_shroud_covers_only_if_a_fan_sits_in_it():
    core = a_core(size_mm=(600, 400))
    housing = a_shroud("with-fan", (300, 400), (150, -150, 0))
    idle = a_shroud("without", (300, 400), (150, 150, 0))
    overlay = build_overlay(a_project(core, idle, housing, a_fan(at_mm=(160, -150, 0))), 7.0)
    assert overlay.shroud_ids == ("without", "with-fan")
    assert overlay.fan_shroud == (1,)
    assert overlay.idle_shrouds == ("without",)
    assert _area(overlay, overlay.shroud == 1) == pytest.approx(300 * 400)
    assert _area(overlay, overlay.shroud == -1) == pytest.approx(300 * 400)
    assert (overlay.fan == -1).all()


def test_where_shrouds_overlap_the_first_one_counts():
    shrouds = (a_shroud("one", (400, 400), (150, -100, 0)), a_shroud("two", (400, 400), (150, 100, 0)))
    fans = (a_fan("fan-1", 200, (160, -200, 0)), a_fan("fan-2", 200, (160, 200, 0)))
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400)), *shrouds, *fans), 7.0)
    assert overlay.fan_shroud == (0, 1)
    assert _area(overlay, overlay.shroud == 0) == pytest.approx(400 * 400)
    assert _area(overlay, overlay.shroud == 1) == pytest.approx(200 * 400)


def test_bare_fan_has_the_circle_of_its_ring():
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400)), a_fan(diameter_mm=300)), 7.0)
    assert overlay.fan_duties == (FanDuty.PULLER,)
    assert _area(overlay, overlay.fan == 0) == pytest.approx(math.pi * 150**2, rel=1e-9)
    assert _area(overlay, overlay.swept) == pytest.approx(math.pi * 150**2, rel=1e-9)
    assert (overlay.pusher == -1).all()


def test_pusher_has_its_own_column():
    overlay = build_overlay(a_project(a_core(), a_fan(at_mm=(20, 0, 0))), 7.0)
    assert _area(overlay, overlay.pusher == 0) == pytest.approx(math.pi * 150**2, rel=1e-9)
    assert (overlay.fan == -1).all()
    assert overlay.foremost_id == "fan"


def test_overlapping_fans_are_swept_once_and_the_first_one_counts():
    fans = (a_fan("one", 200, (160, -50, 0)), a_fan("two", 200, (160, 50, 0)))
    overlay = build_overlay(a_project(a_core(), *fans), 7.0)
    # Two circles of radius r, their centres r apart, share r²·(2π/3 − √3/2); 64 corners are within 0.1 % of it.
    lens = 100**2 * (2 * math.pi / 3 - math.sqrt(3) / 2)
    assert _area(overlay, overlay.swept) == pytest.approx(2 * math.pi * 100**2 - lens, rel=1e-3)
    assert _area(overlay, overlay.fan == 0) == pytest.approx(math.pi * 100**2, rel=1e-9)


def test_tilted_core_is_lower_on_the_projection_plane():
    overlay = build_overlay(a_project(a_core(size_mm=(600, 400), pose={"tilt_deg": 30.0})), 7.0)
    assert overlay.area_mm2.sum() == pytest.approx(600 * 400 * math.sqrt(3) / 2)
    assert overlay.core_mm2 == (pytest.approx(600 * 400),)


def test_blocked_and_shaded_pieces_are_kept_for_the_core_alone():
    pack = a_demanding_pack(13.7, -21.3)
    overlay = build_overlay(pack, 7.0)
    radiator = overlay.core_hit[:, overlay.core_ids.index("radiator")]
    assert _area(overlay, radiator) == pytest.approx(640 * 460, rel=1e-12)
    assert _area(overlay, overlay.core_hit[:, 0]) == pytest.approx(600 * 380, rel=1e-12)


def test_outlines_of_equal_cores_that_nearly_coincide_make_no_extra_column():
    pack = a_project(a_core("one", at_mm=(50, 0, 0)), a_core("two", at_mm=(100, 3e-7, 0), role=CoreRole.COOLER))
    overlay = build_overlay(pack, 7.0, max_cell_mm=1000.0)
    assert overlay.n_pieces == 1
    assert overlay.core_hit.all()


def test_pieces_are_drawn_by_their_corners():
    overlay = build_overlay(a_project(a_core(size_mm=(100, 50), at_mm=(100, 10, 0))), 7.0, max_cell_mm=60.0)
    assert [sorted(map(tuple, rings[0].tolist())) for rings in overlay.piece_corners] == [
        [(-40, -25), (-40, 25), (10, -25), (10, 25)],
        [(10, -25), (10, 25), (60, -25), (60, 25)],
    ]


def test_overlay_travels_to_another_process():
    overlay = build_overlay(a_demanding_pack(), 7.0)
    twin = pickle.loads(pickle.dumps(overlay))
    assert twin.core_ids == overlay.core_ids
    assert (twin.area_mm2 == overlay.area_mm2).all()
    assert len(twin.piece_corners) == overlay.n_pieces
