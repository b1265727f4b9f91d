"""How easily heat passes from the fluid in the tubes to the air, per square metre of face."""

from __future__ import annotations

from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values
from grillestack.physics.construction import Construction
from grillestack.physics.fin_efficiency import air_fin_efficiency, surface_efficiency
from grillestack.physics.louvred_fin import air_film_w_per_m2_k

COOLANT_FOULING_M2_K_PER_W: Final = 0.5e-4
"""Deposit in the tubes of a cared-for coolant circuit. Common practice, from memory."""

TREATED_WATER_FOULING_M2_K_PER_W: Final = 1.76e-4
"""Deposit for treated water as tables for stationary exchangers give it. From memory."""

OIL_FOULING_M2_K_PER_W: Final = 1.76e-4
"""Deposit of lubricating oil as tables for stationary exchangers give it. From memory."""

CLEAN_M2_K_PER_W: Final = 0.0
"""No deposit: charge air, refrigerant."""

_LEAST_TUBE_CONDUCTANCE_W_PER_M2_K: Final = 1.0e-3


def conductance_w_per_m2_k(
    construction: Construction,
    mass_flux_kg_s_m2: Numbers,
    air_temperature_degc: Numbers,
    tube_conductance_w_per_m2_k: Numbers,
    tube_fouling_m2_k_per_w: float = COOLANT_FOULING_M2_K_PER_W,
    air_resistance_factor: Numbers = 1.0,
) -> Values:
    """Give the overall conductance UA per square metre of face.

    Parameters
    ----------
    construction : fins and tubes
    mass_flux_kg_s_m2 : air per square metre of face, any shape [kg/(s·m²)]; zero or reversed counts as creeping
    air_temperature_degc : temperature of the air in the core, any shape that broadcasts [°C]
    tube_conductance_w_per_m2_k : film inside the tubes times `inner_area_m2_per_m2`, so per square metre of FACE,
        any shape that broadcasts [W/(m²·K)]
    tube_fouling_m2_k_per_w : deposit on the inner area; `CLEAN_M2_K_PER_W` for charge air and refrigerant [m²·K/W]
    air_resistance_factor : measured resistance of the air side over that of the correlation, any shape that broadcasts [-]

    Returns
    -------
    conductance, the common shape, always above zero [W/(m²·K)]

    Valid for: as `louvred_fin.colburn_j`. Solder and braze are taken to conduct perfectly.

    Source: [INCROPERA]
    """
    return 1.0 / (
        air_side_resistance_m2_k_per_w(construction, mass_flux_kg_s_m2, air_temperature_degc) * air_resistance_factor
        + wall_resistance_m2_k_per_w(construction, tube_fouling_m2_k_per_w)
        + 1.0
        / np.maximum(np.asarray(tube_conductance_w_per_m2_k, dtype=np.float64), _LEAST_TUBE_CONDUCTANCE_W_PER_M2_K)
    )


def air_side_resistance_m2_k_per_w(
    construction: Construction, mass_flux_kg_s_m2: Numbers, air_temperature_degc: Numbers
) -> Values:
    """Give the resistance between tube wall and air per square metre of face, fin efficiency included.

    Parameters
    ----------
    construction : fins and tubes
    mass_flux_kg_s_m2 : air per square metre of face, any shape [kg/(s·m²)]
    air_temperature_degc : temperature of the air in the core, any shape that broadcasts [°C]

    Returns
    -------
    resistance, the common shape, finite [m²·K/W]

    Source: [CW1997], [INCROPERA]
    """
    film = air_film_w_per_m2_k(construction, mass_flux_kg_s_m2, air_temperature_degc)
    fin_area_frac = construction.fin_area_m2_per_m2 / construction.air_area_m2_per_m2
    working = surface_efficiency(air_fin_efficiency(construction, film), fin_area_frac)
    return 1.0 / (working * film * construction.air_area_m2_per_m2)


def wall_resistance_m2_k_per_w(construction: Construction, tube_fouling_m2_k_per_w: float) -> float:
    """Give the resistance of the tube wall and the deposit inside it per square metre of face.

    Parameters
    ----------
    construction : fins and tubes
    tube_fouling_m2_k_per_w : deposit on the inner area [m²·K/W]

    Returns
    -------
    resistance [m²·K/W]

    Source: [INCROPERA]
    """
    c = construction
    wall = c.tube_wall_m / (c.tube_conductivity_w_per_m_k * c.wall_area_m2_per_m2)
    return wall + tube_fouling_m2_k_per_w / c.inner_area_m2_per_m2
