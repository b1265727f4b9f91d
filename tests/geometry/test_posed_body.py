"""A part one way round: its outline, its reach in depth, and where it grows when hot."""

from __future__ import annotations

import pytest

from grillestack.geometry.posed_body import body_of, tubes_run_across
from grillestack.geometry.projection import Box
from grillestack.geometry.taken_space import Pose
from grillestack.model.outline import Rect
from grillestack.model.parts import CoreRole, Solid, SolidKind
from tests.geometry.packs import a_core, a_fan
from tests.geometry.rooms import a_cooler


def test_a_cooler_grows_along_its_tubes_whichever_way_they_run():
    cooler = a_cooler(ports=False)
    assert body_of(cooler, Pose(), 0.0, 6.0).growth == Box(-6.0, 0.0, 6.0, 0.0)
    assert body_of(cooler, Pose(1), 0.0, 6.0).growth == Box(0.0, -6.0, 0.0, 6.0)
    assert tubes_run_across(cooler, Pose(2))
    assert not tubes_run_across(cooler, Pose(3))


def test_nothing_else_grows():
    assert body_of(a_core(role=CoreRole.CONDENSER), Pose(), 0.0, 6.0).growth == Box(0.0, 0.0, 0.0, 0.0)


def test_tanks_that_stand_out_in_depth_count_and_change_sides_with_a_flip():
    tank = Solid(
        kind=SolidKind.TANK,
        rect=Rect(u_min_mm=-340.0, v_min_mm=-200.0, u_max_mm=-300.0, v_max_mm=200.0),
        front_mm=-3.0,
        depth_mm=52.0,
    )
    core = a_core(solids=(tank,), overall=Rect(u_min_mm=-340.0, v_min_mm=-200.0, u_max_mm=300.0, v_max_mm=200.0))
    plain, flipped = body_of(core, Pose()), body_of(core, Pose(0, flipped=True))
    assert (plain.front_mm, plain.rear_mm) == (-3.0, 49.0)
    assert (flipped.front_mm, flipped.rear_mm) == (-9.0, 43.0)  # 40 deep: 40 − 49 and 40 + 3
    assert (flipped.outline.y0_mm, flipped.outline.y1_mm) == (-300.0, 340.0)


def test_a_lean_shortens_heights_and_deepens_depths():
    body = body_of(a_core(), Pose(), 20.0)
    assert body.outline.z1_mm == pytest.approx(200 * 0.9396926)
    assert body.rear_mm == pytest.approx(40 / 0.9396926)


def test_a_fan_has_no_core():
    assert body_of(a_fan(), Pose()).core is None
