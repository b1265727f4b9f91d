"""What is measured of a core, between its lines and beyond them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from grillestack.physics.air_side import FINS_ALONE, AirSide

TABLE = AirSide(flux_kg_s_m2=(2.0, 8.0), resistance_factor=(0.5, 2.0))


def test_without_a_table_the_air_side_is_that_of_the_fins():
    assert FINS_ALONE.resistance_factor_at(np.array([0.0, 3.0])) == 1.0
    assert FINS_ALONE.conductance_factor == 1.0


def test_a_line_gives_itself_back_and_the_middle_is_straight_in_the_logarithms():
    """By hand: 4 is the geometric mean of 2 and 8, and 1 that of 0.5 and 2."""
    assert TABLE.resistance_factor_at(np.array([2.0, 4.0, 8.0])) == pytest.approx([0.5, 1.0, 2.0])
    assert float(TABLE.resistance_factor_at(2.0 * math.sqrt(2.0))) == pytest.approx(math.sqrt(0.5))


def test_beyond_its_ends_the_factor_is_held_and_still_air_is_a_number():
    assert TABLE.resistance_factor_at(np.array([0.0, 1e-12, 1.9])) == pytest.approx([0.5, 0.5, 0.5])
    assert TABLE.resistance_factor_at(np.array([8.1, 1e6])) == pytest.approx([2.0, 2.0])


def test_shape_in_is_shape_out():
    assert np.shape(TABLE.resistance_factor_at(np.ones((3, 4)))) == (3, 4)
