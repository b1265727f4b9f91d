"""Offset strip fins outside their data."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.construction import InnerFin
from grillestack.physics.offset_strip import HIGHEST_STRIP_REYNOLDS, LOWEST_STRIP_REYNOLDS, colburn_j, fanning_f

FIN = InnerFin(spacing_m=1.9e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3)


@pytest.mark.parametrize("factor", [colburn_j, fanning_f])
def test_any_reynolds_number_gives_a_positive_factor(factor) -> None:
    values = factor(FIN, np.array([-1e30, -1.0, 0.0, 1e-30, 1.0, 1e3, 1e30]))
    assert np.all(np.isfinite(values) & (values > 0.0))


@pytest.mark.parametrize("factor", [colburn_j, fanning_f])
def test_below_the_range_factor_times_reynolds_is_held_and_above_the_factor(factor) -> None:
    at_end = float(factor(FIN, LOWEST_STRIP_REYNOLDS))
    assert float(factor(FIN, 12.0)) * 12.0 == pytest.approx(at_end * LOWEST_STRIP_REYNOLDS)
    assert float(factor(FIN, 1e7)) == float(factor(FIN, HIGHEST_STRIP_REYNOLDS))


@pytest.mark.parametrize("factor", [colburn_j, fanning_f])
def test_factors_fall_through_the_whole_range(factor) -> None:
    assert np.all(np.diff(factor(FIN, np.geomspace(10.0, 1e4, 200))) < 0.0)


def test_shorter_strips_move_more_heat_and_cost_more() -> None:
    short = InnerFin(spacing_m=1.9e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=1.6e-3)
    assert float(colburn_j(short, 1000.0)) > float(colburn_j(FIN, 1000.0))
    assert float(fanning_f(short, 1000.0)) > float(fanning_f(FIN, 1000.0))
