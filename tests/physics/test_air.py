"""Air properties: units, shapes, range ends."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics import air

ANYTHING = np.array([-1e30, -273.15, -60.0, 0.0, 45.0, 300.0, 1e30])


def test_density_is_the_gas_law_worked_by_hand() -> None:
    # 101325 / (287.055 · 318.15)
    assert float(air.density_kg_m3(45.0, 101325.0)) == pytest.approx(101325.0 / 91326.548, rel=1e-6)
    assert pytest.approx(1.10948, abs=1e-5) == air.REFERENCE_AIR_DENSITY_KG_M3


def test_density_is_proportional_to_pressure() -> None:
    assert float(air.density_kg_m3(20.0, 2.0e5)) == pytest.approx(2.0 * float(air.density_kg_m3(20.0, 1.0e5)))


def test_temperatures_and_pressures_broadcast() -> None:
    assert air.density_kg_m3(np.zeros((3, 1)), np.full(4, 1.0e5)).shape == (3, 4)
    assert air.viscosity_pa_s(np.zeros((2, 3, 4))).shape == (2, 3, 4)
    assert np.ndim(air.conductivity_w_per_m_k(20.0)) == 0


@pytest.mark.parametrize(
    "of_temperature",
    [
        air.viscosity_pa_s,
        air.conductivity_w_per_m_k,
        air.charge_air_heat_capacity_j_per_kg_k,
        lambda t: air.density_kg_m3(t, 101325.0),
    ],
)
def test_outside_the_range_the_value_at_the_nearer_end_is_given(of_temperature) -> None:
    values = of_temperature(ANYTHING)
    assert np.all(np.isfinite(values) & (values > 0.0))
    assert values[0] == values[1] == values[2] == of_temperature(air.AIR_LOWEST_DEGC)
    assert values[-1] == values[-2] == of_temperature(air.AIR_HIGHEST_DEGC)


def test_no_pressure_gives_thin_air_and_not_none() -> None:
    thin = air.density_kg_m3(20.0, np.array([-1e5, 0.0, air.AIR_LOWEST_PRESSURE_PA]))
    assert np.all(thin == thin[-1])
    assert thin[-1] > 0.0


def test_charge_air_takes_more_heat_the_hotter_it_is() -> None:
    assert float(air.charge_air_heat_capacity_j_per_kg_k(25.0)) == air.AIR_HEAT_CAPACITY_J_PER_KG_K
    assert float(air.charge_air_heat_capacity_j_per_kg_k(125.0)) == pytest.approx(1016.0)


@pytest.mark.parametrize("altitude_m", [-501.0, 5001.0, float("nan"), float("inf")])
def test_an_altitude_without_roads_is_refused(altitude_m) -> None:
    with pytest.raises(ValueError, match="height of the road"):
        air.pressure_at_altitude_pa(altitude_m)


def test_pressure_falls_with_altitude_over_the_whole_range() -> None:
    heights = np.linspace(air.LOWEST_ALTITUDE_M, air.HIGHEST_ALTITUDE_M, 23)
    pressures = [air.pressure_at_altitude_pa(float(height)) for height in heights]
    assert np.all(np.diff(pressures) < 0.0)
    assert air.pressure_at_altitude_pa(0.0) == pytest.approx(101325.0)
