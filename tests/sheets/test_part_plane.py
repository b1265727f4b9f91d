"""Points of the nose in a part's own plane: turned, flipped and leaning parts, there and back."""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

from grillestack.geometry.projection import placed_point
from grillestack.model.parts import Placement
from grillestack.sheets.part_plane import in_nose, in_plane, own_point, plane_area
from tests.model.examples import a_radiator


def _core(**pose):
    return replace(a_radiator(), placement=Placement(x_mm=120.0, y_mm=30.0, z_mm=650.0, **pose))


def test_there_and_back_is_the_same_point():
    lot = random.Random(3)
    for _ in range(50):
        core = _core(tilt_deg=lot.uniform(-25, 25), quarter_turns=lot.randint(0, 3), flipped=lot.random() < 0.5)
        at = (lot.uniform(0, 300), lot.uniform(-300, 300), lot.uniform(400, 900))
        assert in_nose(core, in_plane(core, *at)) == pytest.approx(at)


def test_the_vehicles_right_lies_at_the_left_as_seen_from_ahead():
    assert own_point(_core(), 100.0, 20.0, 5.0).across_mm == pytest.approx(-100.0)
    assert own_point(_core(flipped=True), 100.0, 20.0, 5.0).across_mm == pytest.approx(100.0)


def test_a_lean_changes_neither_height_nor_depth_in_the_plane():
    upright, leaning = own_point(_core(), 50.0, 120.0, 10.0), own_point(_core(tilt_deg=20.0), 50.0, 120.0, 10.0)
    for one, other in zip(
        (upright.across_mm, upright.up_mm, upright.depth_mm),
        (leaning.across_mm, leaning.up_mm, leaning.depth_mm),
        strict=True,
    ):
        assert one == pytest.approx(other)


def test_a_quarter_turn_exchanges_width_and_height():
    lying, standing = plane_area(_core()), plane_area(_core(quarter_turns=1))
    assert (lying.width_mm, lying.height_mm) == pytest.approx((standing.height_mm, standing.width_mm))


def test_points_of_the_nose_are_those_of_the_part():
    core = _core(tilt_deg=12.0, quarter_turns=3, flipped=True)
    assert in_nose(core, own_point(core, 40.0, -70.0, 9.0)) == pytest.approx(placed_point(core, 40.0, -70.0, 9.0))
