"""Air against CoolProp, the standard atmosphere and handbook values."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from fluids import ATMOSPHERE_1976

from grillestack.physics import air

TEMPERATURES_DEGC = (-20.0, 0.0, 25.0, 45.0, 80.0, 120.0, 180.0)


def _coolprop(letter: str, temperature_degc: float, pressure_pa: float = 101325.0) -> float:
    return float(PropsSI(letter, "T", temperature_degc + 273.15, "P", pressure_pa, "Air"))


@pytest.mark.parametrize("temperature_degc", TEMPERATURES_DEGC)
def test_air_stays_close_to_the_real_gas_of_a_reference_library(temperature_degc) -> None:
    """Source: CoolProp 'Air' (Lemmon 2000), side by side."""
    assert float(air.density_kg_m3(temperature_degc, 101325.0)) == pytest.approx(
        _coolprop("D", temperature_degc), rel=1e-3
    )
    assert float(air.viscosity_pa_s(temperature_degc)) == pytest.approx(_coolprop("V", temperature_degc), rel=0.012)
    assert float(air.conductivity_w_per_m_k(temperature_degc)) == pytest.approx(
        _coolprop("L", temperature_degc), rel=0.014
    )
    assert float(air.charge_air_heat_capacity_j_per_kg_k(temperature_degc)) == pytest.approx(
        _coolprop("C", temperature_degc), rel=0.005
    )
    assert pytest.approx(_coolprop("Prandtl", temperature_degc), rel=0.013) == air.AIR_PRANDTL
    if temperature_degc <= 80.0:
        assert pytest.approx(_coolprop("C", temperature_degc), rel=0.004) == air.AIR_HEAT_CAPACITY_J_PER_KG_K


def test_compressed_charge_air_is_still_a_perfect_gas() -> None:
    """Source: CoolProp 'Air', 2.5 bar at 50 and 170 °C, side by side."""
    for temperature_degc in (50.0, 170.0):
        real = _coolprop("D", temperature_degc, 2.5e5)
        assert float(air.density_kg_m3(temperature_degc, 2.5e5)) == pytest.approx(real, rel=2e-3)


@pytest.mark.parametrize(
    ("temperature_degc", "viscosity_upa_s", "conductivity_w_per_m_k"), [(45.0, 19.31, 0.02768), (180.0, 24.96, 0.03723)]
)
def test_sutherland_by_hand(temperature_degc, viscosity_upa_s, conductivity_w_per_m_k) -> None:
    """Source: the formulas worked by hand with their usual constants (from memory)."""
    assert float(air.viscosity_pa_s(temperature_degc)) * 1e6 == pytest.approx(viscosity_upa_s, abs=0.005)
    assert float(air.conductivity_w_per_m_k(temperature_degc)) == pytest.approx(conductivity_w_per_m_k, abs=5e-6)


@pytest.mark.parametrize(
    ("altitude_m", "pressure_pa", "density_at_40_degc_kg_m3"),
    [
        (0, 101325.0, 1.12720),
        (500, 95461.3, 1.06196),
        (1000, 89876.3, 0.99983),
        (1500, 84559.7, 0.94069),
        (2000, 79501.4, 0.88442),
        (3000, 70121.2, 0.78007),
        (4000, 61660.4, 0.68594),
    ],
)
def test_a_hot_day_in_the_mountains_has_the_height_s_pressure_and_its_own_temperature(
    altitude_m, pressure_pa, density_at_40_degc_kg_m3
) -> None:
    """Source: U.S. Standard Atmosphere 1976, table of pressures; density by the gas law."""
    pressure = air.pressure_at_altitude_pa(altitude_m)
    assert pressure == pytest.approx(pressure_pa, abs=0.06)
    assert float(air.density_kg_m3(40.0, pressure)) == pytest.approx(density_at_40_degc_kg_m3, abs=6e-6)


def test_the_standard_day_is_the_standard_atmosphere() -> None:
    """Source: `fluids.ATMOSPHERE_1976`, side by side: its own temperature gives its own density."""
    for altitude_m in np.arange(-500.0, 5001.0, 500.0):
        standard = ATMOSPHERE_1976(float(altitude_m))
        density = air.density_kg_m3(standard.T - 273.15, air.pressure_at_altitude_pa(float(altitude_m)))
        assert float(density) == pytest.approx(standard.rho, rel=1e-5)
