"""Holding numbers in a range."""

from __future__ import annotations

import numpy as np

from grillestack.physics.arrays import clamped


def test_numbers_outside_move_to_the_nearer_end_and_the_others_stay() -> None:
    assert clamped(np.array([-5, 0, 3, 9]), 0.0, 4.0).tolist() == [0.0, 0.0, 3.0, 4.0]


def test_whole_numbers_become_floats() -> None:
    assert clamped(np.array([1, 2]), 0.0, 9.0).dtype == np.float64
    assert clamped(7, 0.0, 9.0).dtype == np.float64
