"""Fin efficiency: its limits and its direction."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.fin_efficiency import (
    air_fin_efficiency,
    inner_fin_efficiency,
    straight_fin_efficiency,
    surface_efficiency,
)
from grillestack.physics.typical_cores import TypicalCore, typical_construction

CORE = typical_construction(TypicalCore.ALUMINIUM_26_MM)
CHARGE_AIR = typical_construction(TypicalCore.BAR_AND_PLATE_64_MM)


def test_no_film_leaves_the_fin_fully_working() -> None:
    assert np.allclose(air_fin_efficiency(CORE, np.array([-1e30, -5.0, 0.0])), 1.0)


def test_an_endless_film_uses_only_the_root() -> None:
    assert 0.0 < float(air_fin_efficiency(CORE, 1e30)) < 1e-6


def test_efficiency_falls_as_the_film_pulls_harder() -> None:
    assert np.all(np.diff(air_fin_efficiency(CORE, np.linspace(1.0, 1000.0, 50))) < 0.0)


def test_thicker_or_better_conducting_fins_work_better() -> None:
    for better in (
        replace(CORE, fin_thickness_m=2 * CORE.fin_thickness_m),
        replace(CORE, fin_conductivity_w_per_m_k=2 * CORE.fin_conductivity_w_per_m_k),
    ):
        assert air_fin_efficiency(better, 150.0) > air_fin_efficiency(CORE, 150.0)


def test_short_fin_follows_its_series() -> None:
    # tanh(x)/x = 1 - x²/3 + ..., x² = 2 h L² / (k t)
    x_square = 2.0 * 10.0 * 1e-3**2 / 0.02
    assert float(straight_fin_efficiency(10.0, 0.02, 1e-3, 0.0)) == pytest.approx(1.0 - x_square / 3.0, abs=1e-6)


def test_a_plain_tube_has_no_inner_fin_to_lose_by() -> None:
    assert np.all(inner_fin_efficiency(CORE, np.array([0.0, 100.0, 1e6])) == 1.0)


def test_inner_fin_by_hand() -> None:
    k = CHARGE_AIR.fin_conductivity_w_per_m_k
    ml = 3.15e-3 * math.sqrt(2.0 * 300.0 / (k * 0.12e-3) * (1.0 + 0.12 / 3.2))
    assert float(inner_fin_efficiency(CHARGE_AIR, 300.0)) == pytest.approx(math.tanh(ml) / ml)


def test_bare_tube_works_fully_and_fins_by_their_share() -> None:
    assert float(surface_efficiency(np.float64(0.5), 0.8)) == pytest.approx(0.2 + 0.8 * 0.5)
    assert float(surface_efficiency(np.float64(0.5), 0.0)) == 1.0
