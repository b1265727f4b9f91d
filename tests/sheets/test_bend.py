"""Bends: against the handbook's own formulas for 90°, a sum by hand, and the length of a drawn arc."""

from __future__ import annotations

import math

import pytest

from grillestack.sheets.bend import Bend, flat_length_mm


@pytest.mark.parametrize(
    ("thickness_mm", "radius_mm", "share", "of_thickness"),
    [
        # Machinery's handbook, straight bends of 90° in soft steel and aluminium: L = 0.71 T + 1.57 R; from memory
        (1.5, 3.0, 0.71 / (math.pi / 2), 0.71),
        (3.0, 3.0, 0.71 / (math.pi / 2), 0.71),
        # The same for soft brass and copper: L = 0.64 T + 1.57 R; from memory
        (2.0, 5.0, 0.64 / (math.pi / 2), 0.64),
    ],
)
def test_allowance_is_that_of_the_handbook(thickness_mm, radius_mm, share, of_thickness):
    bend = Bend(thickness_mm=thickness_mm, radius_mm=radius_mm, neutral_frac=share)
    assert bend.allowance_mm == pytest.approx(of_thickness * thickness_mm + 1.57 * radius_mm, abs=0.005)


def test_a_worked_example_by_hand():
    # 2 mm sheet, inside radius 3 mm, K = 0.44, 90°: BA = 1.5708 · (3 + 0.88) = 6.095; OSSB = 5 · tan 45° = 5; BD = 3.905.
    bend = Bend(thickness_mm=2.0, radius_mm=3.0, neutral_frac=0.44)
    assert bend.allowance_mm == pytest.approx(6.095, abs=0.001)
    assert bend.setback_mm == pytest.approx(5.0)
    assert bend.deduction_mm == pytest.approx(3.905, abs=0.001)
    # An angle 40 × 40 mm over its outer faces: 80 − 3.905
    assert flat_length_mm((40.0, 40.0), bend) == pytest.approx(76.095, abs=0.001)


def test_setback_of_an_open_bend_follows_the_tangent():
    # 45°: (2 + 1) · tan 22.5° = 3 · 0.41421
    bend = Bend(thickness_mm=1.0, radius_mm=2.0, neutral_frac=0.4, angle_deg=45.0)
    assert bend.setback_mm == pytest.approx(1.2426, abs=1e-4)
    assert bend.allowance_mm == pytest.approx(math.pi / 4 * 2.4)


def test_a_fibre_nearer_to_the_outside_makes_a_longer_blank():
    lengths = [
        flat_length_mm((30.0, 30.0), Bend(thickness_mm=2.0, radius_mm=2.0, neutral_frac=k)) for k in (0.3, 0.4, 0.5)
    ]
    assert lengths == sorted(lengths)
    assert lengths[0] < lengths[-1]


def test_a_strip_of_one_length_is_not_shortened():
    assert flat_length_mm((55.0,), Bend(thickness_mm=2.0, radius_mm=2.0, neutral_frac=0.44)) == 55.0
