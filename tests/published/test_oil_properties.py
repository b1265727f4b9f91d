"""Mineral oil against a textbook's table and what the trade knows of gearbox oil."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.oil import TRANSMISSION_OIL, mineral_oil

# Engine oil, unused: temperature K, density kg/m³, heat capacity J/(kg·K), viscosity Pa·s, conductivity W/(m·K).
# Source: Incropera, DeWitt and others, Fundamentals of Heat and Mass Transfer, 6th ed., table A.5; from memory.
ENGINE_OIL = np.array(
    [
        (300.0, 884.1, 1909.0, 0.486, 0.145),
        (320.0, 871.8, 1993.0, 0.141, 0.143),
        (340.0, 859.9, 2076.0, 0.0531, 0.139),
        (360.0, 847.8, 2161.0, 0.0252, 0.138),
        (380.0, 836.0, 2250.0, 0.0141, 0.136),
        (400.0, 825.1, 2337.0, 0.00874, 0.134),
        (420.0, 812.1, 2427.0, 0.00564, 0.133),
        (430.0, 806.5, 2471.0, 0.00470, 0.132),
    ]
)
# Read off the same table: the density at 15 °C and, on the straight lines of ASTM D341 between its rows, 40 and 100 °C.
AS_ON_ITS_DATA_SHEET = mineral_oil(890.7, 237.0e-6, 20.2e-6)


@pytest.mark.parametrize(
    ("name", "column", "tolerance"),
    [
        ("density_kg_m3", 1, 0.01),
        ("heat_capacity_j_per_kg_k", 2, 0.06),
        ("conductivity_w_per_m_k", 4, 0.12),
        ("viscosity_pa_s", 3, 0.04),
    ],
)
def test_three_figures_give_the_whole_table_of_an_engine_oil(name, column, tolerance):
    """Largest distances: density 0.9, heat capacity 5.1, conductivity 10.8 (the old relation lies below the table), viscosity 2.4 %."""
    ours = getattr(AS_ON_ITS_DATA_SHEET, name)(ENGINE_OIL[:, 0] - 273.15)
    assert np.max(np.abs(ours / ENGINE_OIL[:, column] - 1.0)) < tolerance


def test_conductivity_and_heat_capacity_err_to_the_safe_side_of_the_table():
    """Both lie below it, so heat in laminar tubes is never promised on their account."""
    celsius = ENGINE_OIL[:, 0] - 273.15
    assert np.all(AS_ON_ITS_DATA_SHEET.conductivity_w_per_m_k(celsius) < ENGINE_OIL[:, 4])
    assert np.all(AS_ON_ITS_DATA_SHEET.heat_capacity_j_per_kg_k(celsius) < ENGINE_OIL[:, 2])


def test_the_oil_that_stands_in_is_what_the_trade_calls_light():
    """Common practice, from memory: gearbox and steering oils 0.83 to 0.88 kg/L, 28 to 40 mm²/s at 40 °C, 5.5 to 8 at 100 °C,
    heat capacity near half that of water, conductivity near 0.13 W/(m·K)."""
    oil = TRANSMISSION_OIL
    assert 830.0 < oil.density_kg_m3(15.0) < 880.0
    assert 28.0e-6 < oil.kinematic_viscosity_m2_s(40.0) < 40.0e-6
    assert 5.5e-6 < oil.kinematic_viscosity_m2_s(100.0) < 8.0e-6
    assert 0.45 < oil.heat_capacity_j_per_kg_k(80.0) / 4186.0 < 0.55
    assert 0.12 < oil.conductivity_w_per_m_k(80.0) < 0.145
