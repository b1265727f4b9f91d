"""The inlet length of oil against independent relations, and the film of oil against what the trade reckons with."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from ht import laminar_entry_thermal_Hausen

from grillestack.physics.liquid_side import (
    LiquidState,
    inlet_length_nusselt,
    oil_film_w_per_m2_k,
    strip_film_w_per_m2_k,
)
from grillestack.physics.oil import TRANSMISSION_OIL
from grillestack.physics.typical_cores import TypicalCore, typical_construction


def _shah_between_plates(graetz: float) -> float:
    """Return the mean Nusselt number between plates of one temperature; Shah & London 1978, from memory."""
    x = 1.0 / graetz
    if x <= 0.0005:
        return 1.849 * x ** (-1.0 / 3.0)
    return 1.849 * x ** (-1.0 / 3.0) + 0.6 if x <= 0.006 else 7.541 + 0.0235 / x


@pytest.mark.parametrize("graetz", [5.0, 20.0, 60.0, 150.0, 300.0, 800.0, 1800.0])
def test_inlet_length_between_plates(graetz):
    """Two relations for the same thing: within 5 %."""
    assert 7.541 + float(inlet_length_nusselt(graetz)) == pytest.approx(_shah_between_plates(graetz), rel=0.05)


def test_flat_tubes_gain_in_the_order_of_round_ones():
    """`ht`: Hausen's relation for round tubes gains up to three times as much in the Nusselt number at equal Re·Pr·D/L."""
    for graetz in (20.0, 200.0, 2000.0):
        gained = float(laminar_entry_thermal_Hausen(Re=graetz, Pr=1.0, L=1.0, Di=1.0)) - 3.66
        assert 0.3 * gained < float(inlet_length_nusselt(graetz)) < gained


def test_oil_films_are_of_the_order_the_trade_reckons_with():
    """From memory: oil in plain flat tubes 100 to 500 W/(m²·K), with a turbulator on its whole area 200 to 1500."""
    state = LiquidState(
        viscosity_pa_s=TRANSMISSION_OIL.viscosity_pa_s(95.0),
        conductivity_w_per_m_k=TRANSMISSION_OIL.conductivity_w_per_m_k(95.0),
        heat_capacity_j_per_kg_k=TRANSMISSION_OIL.heat_capacity_j_per_kg_k(95.0),
    )
    strips = typical_construction(TypicalCore.OIL_PLATE_36_MM)
    flows = np.array([0.004, 0.008, 0.016])
    plain = oil_film_w_per_m2_k(replace(strips, inner_fin=None), flows, 0.3, state)
    assert np.all((plain > 100.0) & (plain < 500.0))
    turbulator = strip_film_w_per_m2_k(strips, flows, state)
    assert np.all((turbulator > 200.0) & (turbulator < 1500.0))
    # A turbulator more than doubles what the tube passes on: film times wetted area.
    bare = replace(strips, inner_fin=None)
    assert np.all(turbulator * strips.bore_perimeter_m > 2.0 * plain * bare.bore_perimeter_m)
