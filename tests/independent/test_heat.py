"""The judge's heat: one strip against an integrated differential equation, many rows against a reference library."""

from __future__ import annotations

import ht
import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tests.independent.heat import Exchanger, Fluid, given_heat, march


def _even(tubes: int, steps: int, rows: int) -> Exchanger:
    """Return a face of one pass, a pixel to each cell."""
    cells = np.arange(tubes * steps)
    return Exchanger(None, None, None, cells, ((cells, cells, tubes, steps),), rows, 1.0, 1.0)


def test_one_tube_cools_as_its_differential_equation_says():
    rng = np.random.default_rng(4)
    steps, flow = 7, 31.0
    air, capacity, units = rng.uniform(10.0, 60.0, steps), rng.uniform(2.0, 9.0, steps), rng.uniform(0.2, 3.0, steps)
    one = _even(1, steps, 1)
    behind, leaves = march(one, capacity, units, air, Fluid(flow, 0.0, 95.0))
    takes = capacity * (1.0 - np.exp(-units))
    now, means = 95.0, []
    for cell in range(steps):
        # Per unit of the cell's length: C·dT/dx = -K·(T - T_air); the second row sums T for its mean.
        found = solve_ivp(
            lambda _, y, k=cell: [-takes[k] / flow * (y[0] - air[k]), y[0]],
            (0.0, 1.0),
            [now, 0.0],
            rtol=1e-11,
            atol=1e-11,
        )
        now = found.y[0, -1]
        means.append(found.y[1, -1])
    assert leaves == pytest.approx(now, abs=1e-7)
    assert behind == pytest.approx(air + (1.0 - np.exp(-units)) * (np.array(means) - air), abs=1e-7)


@pytest.mark.parametrize("rows", [1, 3, 4])
def test_what_the_fluid_loses_the_air_gains(rows):
    rng = np.random.default_rng(rows)
    one = _even(5, 9, rows)
    capacity, air = rng.uniform(0.0, 4.0, 45), rng.uniform(10.0, 70.0, 45)
    capacity[::7] = 0.0
    behind, leaves = march(one, capacity, rng.uniform(0.1, 5.0, 45), air, Fluid(50.0, 0.0, 110.0))
    assert (capacity * (behind - air)).sum() == pytest.approx(50.0 * (110.0 - leaves), rel=1e-12)


@pytest.mark.parametrize(("units", "ratio"), [(1.0, 0.5), (2.0, 1.0), (3.0, 0.25)])
def test_many_rows_come_to_two_unmixed_streams_as_the_reference_library_has_them(units, ratio):
    """Source: `ht` 1.2, crossflow with both streams unmixed."""
    steps = 64
    one = _even(1, steps, steps)
    capacity, each = np.full(steps, 10.0 / steps), np.full(steps, units)
    _, leaves = march(one, capacity, each, np.zeros(steps), Fluid(10.0 / ratio, 0.0, 1.0))
    expected = ht.effectiveness_from_NTU(units, ratio, "crossflow")
    assert (1.0 - leaves) / ratio == pytest.approx(expected, rel=2e-4)


def test_one_row_comes_to_one_mixed_stream_as_the_reference_library_has_it():
    """Source: `ht` 1.2, crossflow with the larger stream mixed."""
    one = _even(1, 5, 1)
    _, leaves = march(one, np.full(5, 2.0), np.full(5, 2.0), np.zeros(5), Fluid(20.0, 0.0, 1.0))
    assert (1.0 - leaves) * 2.0 == pytest.approx(ht.effectiveness_from_NTU(2.0, 0.5, "crossflow, mixed Cmax"), rel=1e-9)


def test_a_given_heat_is_given_off_by_one_wall():
    capacity, units, air = np.array([3.0, 0.0, 8.0]), np.array([1.0, 2.0, 0.5]), np.array([20.0, 30.0, 40.0])
    behind, wall = given_heat(capacity, units, air, 700.0)
    assert (capacity * (behind - air)).sum() == pytest.approx(700.0, rel=1e-12)
    assert (behind - air) / (wall - air) == pytest.approx(1.0 - np.exp(-units))


def test_a_wall_without_heat_or_without_air_changes_nothing():
    air = np.array([20.0, 30.0])
    assert given_heat(np.ones(2), np.ones(2), air, 0.0) == (air, None)
    assert given_heat(np.zeros(2), np.ones(2), air, 500.0) == (air, None)
