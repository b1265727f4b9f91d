"""Ethylene glycol in water against CoolProp, printed tables and the boiling point of water."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from grillestack.physics.coolant import boiling_degc, ethylene_glycol

LETTERS = (
    ("D", "density_kg_m3", 1e-4),
    ("C", "heat_capacity_j_per_kg_k", 2e-4),
    ("L", "conductivity_w_per_m_k", 6e-4),
    ("V", "viscosity_pa_s", 0.014),
)


def _ashrae_glycol(letter: str, volume_frac: float, temperature_degc: float) -> float:
    fluid = f"INCOMP::AEG[{volume_frac}]"
    return float(PropsSI(letter, "T", temperature_degc + 273.15, "P", 3.0e5, fluid))


@pytest.mark.parametrize(("letter", "name", "tolerance"), LETTERS)
@pytest.mark.parametrize("volume_frac", [0.30, 0.325, 0.40, 0.475, 0.50, 0.55, 0.60])
def test_fit_follows_its_source_from_frost_to_boiling(letter, name, tolerance, volume_frac) -> None:
    """Source: CoolProp INCOMP::AEG (ASHRAE ethylene glycol by volume), side by side, -10 to 100 °C."""
    temperatures = np.arange(-10.0, 101.0, 2.5)
    reference = np.array([_ashrae_glycol(letter, volume_frac, float(t)) for t in temperatures])
    ours = getattr(ethylene_glycol(volume_frac), name)(temperatures)
    assert np.max(np.abs(ours / reference - 1.0)) < tolerance


@pytest.mark.parametrize(
    ("temperature_degc", "density", "heat_capacity", "conductivity", "viscosity_mpa_s"),
    [
        (20, 1073.3, 3281, 0.3803, None),
        (40, 1063.7, 3358, 0.3938, 2.192),
        (60, 1052.0, 3435, 0.4042, 1.444),
        (80, 1038.5, 3512, 0.4115, 0.986),
        (90, 1031.0, 3551, 0.4139, 0.824),
        (100, 1023.0, 3590, 0.4156, 0.694),
        (107, 1017.1, 3617, 0.4164, 0.618),
        (110, 1014.5, 3628, 0.4166, 0.589),
        (120, 1005.5, 3667, 0.4167, 0.503),
    ],
)
def test_half_and_half_agrees_with_an_independent_fit(
    temperature_degc, density, heat_capacity, conductivity, viscosity_mpa_s
) -> None:
    """Source: a second fit to the same library, made independently; above 100 °C both extrapolate.

    Largest distance: conductivity at 110 °C, 0.016 %.
    """
    coolant = ethylene_glycol(0.5)
    assert float(coolant.density_kg_m3(temperature_degc)) == pytest.approx(density, abs=0.06)
    assert float(coolant.heat_capacity_j_per_kg_k(temperature_degc)) == pytest.approx(heat_capacity, abs=0.6)
    assert float(coolant.conductivity_w_per_m_k(temperature_degc)) == pytest.approx(conductivity, abs=1e-4)
    if viscosity_mpa_s is not None:
        assert float(coolant.viscosity_pa_s(temperature_degc)) * 1e3 == pytest.approx(viscosity_mpa_s, abs=6e-4)


@pytest.mark.parametrize(
    ("temperature_degc", "heat_capacity_kj", "density", "conductivity", "viscosity_mpa_s"),
    [
        (20, 3.28, 1073, 0.38, 3.9),
        (60, 3.44, 1052, 0.404, 1.4),
        (100, 3.59, 1023, 0.416, 0.69),
        (110, 3.63, 1015, 0.416, 0.59),
    ],
)
def test_half_and_half_agrees_with_the_printed_table(
    temperature_degc, heat_capacity_kj, density, conductivity, viscosity_mpa_s
) -> None:
    """Source: ASHRAE Handbook Fundamentals, secondary coolants, 50 % by volume; from memory, to print precision."""
    coolant = ethylene_glycol(0.5)
    assert float(coolant.heat_capacity_j_per_kg_k(temperature_degc)) / 1e3 == pytest.approx(heat_capacity_kj, abs=0.006)
    assert float(coolant.density_kg_m3(temperature_degc)) == pytest.approx(density, abs=1.0)
    assert float(coolant.conductivity_w_per_m_k(temperature_degc)) == pytest.approx(conductivity, abs=0.001)
    assert float(coolant.viscosity_pa_s(temperature_degc)) * 1e3 == pytest.approx(viscosity_mpa_s, rel=0.035)


def test_half_by_volume_is_not_half_by_mass() -> None:
    """Source: CoolProp INCOMP::MEG by mass (another data set): 52.7 % by mass is 50 % by volume."""
    by_mass = float(PropsSI("D", "T", 353.15, "P", 3.0e5, "INCOMP::MEG[0.527]"))
    half = float(PropsSI("D", "T", 353.15, "P", 3.0e5, "INCOMP::MEG[0.5]"))
    ours = float(ethylene_glycol(0.5).density_kg_m3(80.0))
    assert abs(ours - by_mass) < abs(ours - half)


@pytest.mark.parametrize(
    ("system", "pressure_pa", "boils_at_degc"),
    [
        ("open, sea level", 101325.0, 108.0),
        ("1 bar cap, sea level", 201325.0, 129.5),
        ("0.9 bar cap, sea level", 191325.0, 127.8),
        ("open, 1500 m", 84559.7, 102.8),
        ("1 bar cap, 1500 m", 184559.7, 126.6),
        ("open, 3000 m", 70121.2, 97.5),
        ("1 bar cap, 3000 m", 170121.2, 124.0),
    ],
)
def test_half_and_half_boils_where_water_s_share_of_the_pressure_says(system, pressure_pa, boils_at_degc) -> None:
    """Source: Raoult's law with water alone volatile, water's saturation pressure from CoolProp (IAPWS-95)."""
    point = float(boiling_degc(ethylene_glycol(0.5), pressure_pa))
    assert point == pytest.approx(boils_at_degc, abs=0.06), system
    water_pressure = float(PropsSI("P", "T", point + 273.15, "Q", 0, "Water"))
    assert ethylene_glycol(0.5).water_mole_frac * water_pressure == pytest.approx(pressure_pa, rel=2e-4)


def test_half_and_half_boils_where_handbooks_say() -> None:
    """Source: handbooks, from memory: 106-108 °C open, about 129 °C under a 15 psi (1.034 bar) cap."""
    coolant = ethylene_glycol(0.5)
    assert 106.0 <= float(boiling_degc(coolant, 101325.0)) <= 108.1
    assert float(boiling_degc(coolant, 101325.0 + 103421.0)) == pytest.approx(129.4, abs=1.0)


@pytest.mark.parametrize(("water_pressure_pa", "saturation_k"), [(1.0e5, 372.755919), (1.0e6, 453.035632)])
def test_water_s_part_is_the_industrial_formulation(water_pressure_pa, saturation_k) -> None:
    """Source: IAPWS-IF97 release, verification table for equation 31; from memory."""
    coolant = ethylene_glycol(0.5)
    point = boiling_degc(coolant, water_pressure_pa * coolant.water_mole_frac)
    assert float(point) + 273.15 == pytest.approx(saturation_k, abs=2e-6)
