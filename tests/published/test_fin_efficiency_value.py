"""Efficiency of a straight fin against a worked value and the limits every textbook gives."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from grillestack.physics.fin_efficiency import air_fin_efficiency, straight_fin_efficiency
from grillestack.physics.typical_cores import TypicalCore, typical_construction


def test_fin_of_a_26_mm_core() -> None:
    """Source: tanh(mL)/(mL) worked separately: film 150, k 190, 0.07 thick, 7 high, 26 deep: 0.919827."""
    core = replace(typical_construction(TypicalCore.ALUMINIUM_26_MM), fin_conductivity_w_per_m_k=190.0)
    assert float(air_fin_efficiency(core, 150.0)) == pytest.approx(0.919827, abs=6e-7)


@pytest.mark.parametrize(("ml", "efficiency"), [(0.5, 0.9242), (1.0, 0.7616), (2.0, 0.4820), (3.0, 0.3317)])
def test_straight_fin_with_insulated_tip(ml, efficiency) -> None:
    """Source: Incropera, straight fin of rectangular profile, tanh(mL)/(mL) (from memory), to four digits."""
    # With sheet conductance 2 and length 1, mL is the root of the film.
    assert float(straight_fin_efficiency(ml**2, 2.0, 1.0, 0.0)) == pytest.approx(efficiency, abs=6e-5)
    assert math.tanh(ml) / ml == pytest.approx(efficiency, abs=6e-5)
