"""Properties of a mineral oil: how heavy, how viscous, how conductive; and the oil that stands for those of gearbox and steering."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values, clamped

OIL_LOWEST_DEGC: Final = -20.0
OIL_HIGHEST_DEGC: Final = 160.0

_ZERO_DEGC_K: Final = 273.15
_STANDARD_DEGC: Final = 15.0
_WATER_KG_M3: Final = 999.0
# What makes lubricating oils expand, as a share per kelvin times their density. Source: [D1250], from memory.
_EXPANSION_KG_M3_K: Final = 0.6278
_EXPANSION_BEND: Final = 0.8
# Source: [CRAGOE], from memory.
_HEAT_J_PER_KG_K: Final = 1683.0
_HEAT_RISE_J_PER_KG_K2: Final = 3.39
_CONDUCTIVITY_W_PER_M_K: Final = 0.117
_CONDUCTIVITY_FALL_PER_K: Final = 0.00054
# Added to the viscosity in mm²/s so that its double logarithm is straight over that of temperature. Source: [D341].
_WALTHER_MM2_S: Final = 0.7


@dataclass(frozen=True, kw_only=True)
class Oil:
    """One mineral oil, ready to be asked for its properties.

    Every property takes temperatures in °C of any shape and gives the same shape back.

    Valid for: -20 to 160 °C; held at the nearer end outside. Against the textbook's engine oil (from memory) the density is
    within 1 %, the heat capacity within 6 %, the conductivity within 12 %, and the viscosity between its two known points
    within 6 %.
    """

    density_at_15_degc_kg_m3: float
    walther_terms: tuple[float, float]

    def density_kg_m3(self, temperature_degc: Numbers) -> Values:
        """Give the density [kg/m³]. Source: [D1250]."""
        alpha = _EXPANSION_KG_M3_K / self.density_at_15_degc_kg_m3
        widened = alpha * (_held(temperature_degc) - _STANDARD_DEGC)
        return self.density_at_15_degc_kg_m3 * np.exp(-widened * (1.0 + _EXPANSION_BEND * widened))

    def heat_capacity_j_per_kg_k(self, temperature_degc: Numbers) -> Values:
        """Give the heat capacity [J/(kg·K)]. Source: [CRAGOE]."""
        rising = _HEAT_J_PER_KG_K + _HEAT_RISE_J_PER_KG_K2 * _held(temperature_degc)
        return rising / math.sqrt(self._gravity)

    def conductivity_w_per_m_k(self, temperature_degc: Numbers) -> Values:
        """Give the thermal conductivity [W/(m·K)]. Source: [CRAGOE]."""
        falling = 1.0 - _CONDUCTIVITY_FALL_PER_K * _held(temperature_degc)
        return _CONDUCTIVITY_W_PER_M_K / self._gravity * falling

    def kinematic_viscosity_m2_s(self, temperature_degc: Numbers) -> Values:
        """Give the kinematic viscosity [m²/s]: log log(ν + 0.7) is straight over log T. Source: [D341]."""
        kelvin = _held(temperature_degc) + _ZERO_DEGC_K
        constant, slope = self.walther_terms
        doubled = constant - slope * np.log10(kelvin)
        return 1e-6 * (10.0 ** (10.0**doubled) - _WALTHER_MM2_S)

    def viscosity_pa_s(self, temperature_degc: Numbers) -> Values:
        """Give the dynamic viscosity [Pa·s]. Source: [D341], [D1250]."""
        return self.kinematic_viscosity_m2_s(temperature_degc) * self.density_kg_m3(temperature_degc)

    @property
    def _gravity(self) -> float:
        return self.density_at_15_degc_kg_m3 / _WATER_KG_M3


def mineral_oil(
    density_at_15_degc_kg_m3: float, viscosity_at_40_degc_m2_s: float, viscosity_at_100_degc_m2_s: float
) -> Oil:
    """Give the oil with these three figures of a data sheet.

    Parameters
    ----------
    density_at_15_degc_kg_m3 : [kg/m³]
    viscosity_at_40_degc_m2_s, viscosity_at_100_degc_m2_s : kinematic, 1 mm²/s is 1e-6 [m²/s]

    Returns
    -------
    the oil

    Valid for: viscosities above 2 mm²/s

    Source: [D341]
    """
    thick, thin = (
        math.log10(math.log10(1e6 * viscosity + _WALTHER_MM2_S))
        for viscosity in (viscosity_at_40_degc_m2_s, viscosity_at_100_degc_m2_s)
    )
    warm, hot = math.log10(40.0 + _ZERO_DEGC_K), math.log10(100.0 + _ZERO_DEGC_K)
    slope = (thick - thin) / (hot - warm)
    return Oil(
        density_at_15_degc_kg_m3=density_at_15_degc_kg_m3,
        walther_terms=(thick + slope * warm, slope),
    )


TRANSMISSION_OIL: Final = mineral_oil(855.0, 34.0e-6, 7.2e-6)
"""A light oil of automatic gearboxes, power steering and hydraulics: 855 kg/m³ at 15 °C, 34 mm²/s at 40 °C, 7.2 mm²/s at 100 °C.
Typical of the trade, from memory."""


def _held(temperature_degc: Numbers) -> Values:
    return clamped(temperature_degc, OIL_LOWEST_DEGC, OIL_HIGHEST_DEGC)
