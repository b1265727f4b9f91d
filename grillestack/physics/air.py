"""Properties of air: how dense, how viscous, how conductive, hot or cold, high or low.

Temperatures outside `AIR_LOWEST_DEGC` to `AIR_HIGHEST_DEGC` give the value at the nearer end.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from fluids import ATMOSPHERE_1976

from grillestack.physics.arrays import Numbers, Values, clamped

AIR_GAS_CONSTANT_J_PER_KG_K: Final = 287.055
"""Specific gas constant of dry air. Source: [US1976]."""

AIR_HEAT_CAPACITY_J_PER_KG_K: Final = 1006.0
"""Heat capacity of cooling air, within 0.4 % from -60 to 80 °C. Source: [AIR]."""

AIR_PRANDTL: Final = 0.705
"""Held constant, at most 1.3 % from the real gas between -20 and 180 °C. Source: [AIR]."""

ZERO_DEGC_K: Final = 273.15
STANDARD_PRESSURE_PA: Final = 101325.0
REFERENCE_AIR_TEMPERATURE_DEGC: Final = 45.0
"""Temperature at which every core's pressure loss is quoted."""

AIR_LOWEST_DEGC: Final = -60.0
AIR_HIGHEST_DEGC: Final = 300.0
AIR_LOWEST_PRESSURE_PA: Final = 1.0e3
AIR_HIGHEST_PRESSURE_PA: Final = 1.0e6
"""Pressures are held in this range; Mach numbers and compressors are not the business of this module."""

LOWEST_ALTITUDE_M: Final = -500.0
HIGHEST_ALTITUDE_M: Final = 5000.0


def _kelvin(temperature_degc: Numbers) -> Values:
    return clamped(temperature_degc, AIR_LOWEST_DEGC, AIR_HIGHEST_DEGC) + ZERO_DEGC_K


def density_kg_m3(temperature_degc: Numbers, pressure_pa: Numbers) -> Values:
    """Give the density of dry air as an ideal gas.

    Parameters
    ----------
    temperature_degc : temperature, any shape [°C]
    pressure_pa : absolute pressure, any shape that broadcasts [Pa]

    Returns
    -------
    density, the common shape [kg/m³]

    Valid for: -60 to 300 °C, 1 kPa to 1 MPa; held at the nearer
    end outside.

    Source: [US1976]
    """
    pressure = clamped(pressure_pa, AIR_LOWEST_PRESSURE_PA, AIR_HIGHEST_PRESSURE_PA)
    return pressure / (AIR_GAS_CONSTANT_J_PER_KG_K * _kelvin(temperature_degc))


REFERENCE_AIR_DENSITY_KG_M3: Final = STANDARD_PRESSURE_PA / (
    AIR_GAS_CONSTANT_J_PER_KG_K * (REFERENCE_AIR_TEMPERATURE_DEGC + ZERO_DEGC_K)
)
"""Density of air at 45 °C and 101325 Pa, the state at which core losses are quoted."""


def viscosity_pa_s(temperature_degc: Numbers) -> Values:
    """Give the dynamic viscosity of air after Sutherland.

    Parameters
    ----------
    temperature_degc : temperature, any shape [°C]

    Returns
    -------
    viscosity, same shape [Pa·s]

    Valid for: -60 to 180 °C within 1.2 % of the real gas, to 300 °C within 1.9 %; held at the nearer
    end outside.

    Source: [SUTH]
    """
    kelvin = _kelvin(temperature_degc)
    ratio = kelvin / ZERO_DEGC_K
    return 1.716e-5 * ratio * np.sqrt(ratio) * 383.55 / (kelvin + 110.4)


def conductivity_w_per_m_k(temperature_degc: Numbers) -> Values:
    """Give the thermal conductivity of air after Sutherland's form.

    Parameters
    ----------
    temperature_degc : temperature, any shape [°C]

    Returns
    -------
    conductivity, same shape [W/(m·K)]

    Valid for: -20 to 300 °C within 1.4 % of the real gas, at -60 °C 2.6 % low; held at the nearer
    end outside.

    Source: [SUTH]
    """
    kelvin = _kelvin(temperature_degc)
    ratio = kelvin / ZERO_DEGC_K
    return 0.02414 * ratio * np.sqrt(ratio) * 467.15 / (kelvin + 194.0)


def charge_air_heat_capacity_j_per_kg_k(temperature_degc: Numbers) -> Values:
    """Give the heat capacity of charge air, which rises with temperature.

    Parameters
    ----------
    temperature_degc : temperature, any shape [°C]

    Returns
    -------
    heat capacity at constant pressure, same shape [J/(kg·K)]

    Valid for: -60 to 300 °C; held at the nearer
    end outside.

    Source: [AIR]
    """
    return 1006.0 + 0.1 * (clamped(temperature_degc, AIR_LOWEST_DEGC, AIR_HIGHEST_DEGC) - 25.0)


def pressure_at_altitude_pa(altitude_m: float) -> float:
    """Give the standard day's pressure at an altitude; use it with the day's own temperature.

    Parameters
    ----------
    altitude_m : height above sea level [m]

    Returns
    -------
    absolute pressure [Pa]

    Valid for: -500 to 5000 m.

    Source: [US1976]

    Raises
    ------
    ValueError
        If the altitude lies outside that range.
    """
    if not LOWEST_ALTITUDE_M <= altitude_m <= HIGHEST_ALTITUDE_M:
        raise ValueError(
            f"Altitude {altitude_m:g} m is outside -500 to 5000 m: give the height of the road above the sea."
        )
    return float(ATMOSPHERE_1976(altitude_m).P)
