"""Properties of the coolant: how heavy, how viscous, how conductive, and when it boils.

Ethylene glycol in water by *volume*, as it is mixed in the workshop: 50 % by volume is 52.7 % by mass.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values, clamped

COOLANT_LOWEST_DEGC: Final = -10.0
COOLANT_HIGHEST_DEGC: Final = 130.0
LOWEST_GLYCOL_FRAC: Final = 0.30
HIGHEST_GLYCOL_FRAC: Final = 0.60

_ZERO_DEGC_K: Final = 273.15
_KNEE_PER_KK: Final = 1000.0 / (40.0 + _ZERO_DEGC_K)

# Fitted once by least squares to the ASHRAE ethylene glycol of a reference library, [AEG], every 5 °C from
# 40 to 100 °C. That library stops at 100 °C: above, these extrapolate, held against the printed [ASHRAE]
# values up to 110 °C. The first three tables are in powers of °C.
_GLYCOL_FRAC: Final = (0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60)
_DENSITY: Final = (
    (1051.756, -0.2768701, -0.002438296),
    (1059.408, -0.2923395, -0.002433115),
    (1066.819, -0.3078690, -0.002428851),
    (1074.039, -0.3234012, -0.002426175),
    (1081.101, -0.3388889, -0.002425763),
    (1087.992, -0.3542951, -0.002428287),
    (1094.631, -0.3695933, -0.002434420),
)
_HEAT_CAPACITY: Final = (
    (3588.746, 2.834417),
    (3495.942, 3.095881),
    (3400.988, 3.354493),
    (3303.484, 3.610498),
    (3203.225, 3.864041),
    (3100.496, 4.115165),
    (2996.363, 4.363814),
)
_CONDUCTIVITY: Final = (
    (0.4292350, 0.0013323350, -5.884296e-06),
    (0.4113822, 0.0012203130, -5.370316e-06),
    (0.3945723, 0.0011124960, -4.869035e-06),
    (0.3786967, 0.0010085670, -4.376167e-06),
    (0.3636764, 0.0009081711, -3.887425e-06),
    (0.3495068, 0.0008109193, -3.398522e-06),
    (0.3363025, 0.0007163861, -2.905171e-06),
)
# ln(viscosity in Pa·s) in powers of w = 1000/T - 1000/313.15 K: constant, then the two of 40 °C and above,
# then the two below 40 °C (fitted from -10 to 40 °C through the same value at 40 °C).
_LN_VISCOSITY: Final = (
    (-6.633873, 1.837560, -0.20927170, 2.104511, 0.7636477),
    (-6.500567, 1.875641, -0.27366880, 2.172402, 0.8290434),
    (-6.363079, 1.933905, -0.28804360, 2.245270, 0.8705486),
    (-6.235022, 2.018829, -0.25815610, 2.329878, 0.8852744),
    (-6.122798, 2.140715, -0.19135030, 2.436861, 0.8693512),
    (-6.016107, 2.313687, -0.09655540, 2.580723, 0.8179295),
    (-5.878474, 2.555692, 0.01571533, 2.779843, 0.7251794),
)

_GLYCOL_DENSITY_KG_M3: Final = 1113.0
_WATER_DENSITY_KG_M3: Final = 998.2
_GLYCOL_MOLAR_KG_MOL: Final = 0.06207
_WATER_MOLAR_KG_MOL: Final = 0.018015
"""Pure densities at 20 °C and molar masses. Source: [HANDBOOK], from memory."""

BOILING_LOWEST_PRESSURE_PA: Final = 2.0e4
BOILING_HIGHEST_PRESSURE_PA: Final = 1.0e6


@dataclass(frozen=True, kw_only=True)
class Coolant:
    """One mixture of ethylene glycol and water, ready to be asked for its properties.

    Every property takes temperatures in °C of any shape and gives the same shape back.

    Valid for: -10 to 130 °C; held at the nearer end outside. Up to 100 °C within 0.1 % of [AEG] in density,
    heat capacity and conductivity and 1.4 % in viscosity; from 100 to 130 °C extrapolated.
    """

    asked_volume_frac: float
    volume_frac: float
    density_terms: tuple[float, ...]
    heat_capacity_terms: tuple[float, ...]
    conductivity_terms: tuple[float, ...]
    ln_viscosity_terms: tuple[float, ...]

    @property
    def is_held_at_range_end(self) -> bool:
        """Give whether the mixture asked for lies outside 30-60 % and its properties are those of the nearer end."""
        return self.asked_volume_frac != self.volume_frac

    def density_kg_m3(self, temperature_degc: Numbers) -> Values:
        """Give the density [kg/m³], a quadratic in temperature. Source: [AEG]."""
        return _polynomial(self.density_terms, _held(temperature_degc))

    def heat_capacity_j_per_kg_k(self, temperature_degc: Numbers) -> Values:
        """Give the heat capacity [J/(kg·K)], linear in temperature. Source: [AEG]."""
        return _polynomial(self.heat_capacity_terms, _held(temperature_degc))

    def conductivity_w_per_m_k(self, temperature_degc: Numbers) -> Values:
        """Give the thermal conductivity [W/(m·K)], a quadratic in temperature. Source: [AEG]."""
        return _polynomial(self.conductivity_terms, _held(temperature_degc))

    def viscosity_pa_s(self, temperature_degc: Numbers) -> Values:
        """Give the dynamic viscosity [Pa·s], its logarithm a quadratic in 1/T. Source: [AEG]."""
        constant, hot, hot_square, cold, cold_square = self.ln_viscosity_terms
        w = 1000.0 / (_held(temperature_degc) + _ZERO_DEGC_K) - _KNEE_PER_KK
        above = np.minimum(w, 0.0)
        below = np.maximum(w, 0.0)
        return np.exp(constant + above * (hot + hot_square * above) + below * (cold + cold_square * below))

    @property
    def water_mole_frac(self) -> float:
        """Give the share of water among the molecules, which sets the boiling point."""
        glycol = self.volume_frac * _GLYCOL_DENSITY_KG_M3 / _GLYCOL_MOLAR_KG_MOL
        water = (1.0 - self.volume_frac) * _WATER_DENSITY_KG_M3 / _WATER_MOLAR_KG_MOL
        return water / (water + glycol)


def ethylene_glycol(volume_frac: float) -> Coolant:
    """Give the coolant with this share of ethylene glycol by volume.

    Parameters
    ----------
    volume_frac : share of glycol in the mixture by volume, 0.5 for 50/50

    Returns
    -------
    the coolant; its `is_held_at_range_end` says when the share was outside the range

    Valid for: 0.30 to 0.60; the properties of the nearer end outside. Between the fitted mixtures the terms are
    interpolated linearly, which errs by 0.05 % at most, in viscosity by 1 %.

    Source: [AEG]

    Raises
    ------
    ValueError
        If the share is not between 0 and 1.
    """
    if not 0.0 <= volume_frac <= 1.0:
        raise ValueError(f"Glycol share {volume_frac:g} is not between 0 and 1: give it by volume, 0.5 for 50/50.")
    held = min(max(volume_frac, LOWEST_GLYCOL_FRAC), HIGHEST_GLYCOL_FRAC)
    return Coolant(
        asked_volume_frac=volume_frac,
        volume_frac=held,
        density_terms=_between(_DENSITY, held),
        heat_capacity_terms=_between(_HEAT_CAPACITY, held),
        conductivity_terms=_between(_CONDUCTIVITY, held),
        ln_viscosity_terms=_between(_LN_VISCOSITY, held),
    )


def boiling_degc(coolant: Coolant, pressure_abs_pa: Numbers) -> Values:
    """Give the temperature at which the coolant boils, water alone being volatile (Raoult).

    Parameters
    ----------
    coolant : the mixture
    pressure_abs_pa : absolute pressure in the system: the day's air plus the cap, any shape [Pa]

    Returns
    -------
    boiling temperature, same shape [°C]

    Valid for: 0.2 to 10 bar absolute; held at the nearer end outside. Ideal mixing: handbook values for 50/50
    lie up to 2 K lower.

    Source: [IF97] equation 31 for water, Raoult's law
    """
    water_mpa = clamped(pressure_abs_pa, BOILING_LOWEST_PRESSURE_PA, BOILING_HIGHEST_PRESSURE_PA) / (
        coolant.water_mole_frac * 1.0e6
    )
    beta = np.sqrt(np.sqrt(water_mpa))
    e = beta * beta - 17.073846940092 * beta + 14.915108613530
    f = 1167.0521452767 * beta * beta + 12020.824702470 * beta - 4823.2657361591
    g = -724213.16703206 * beta * beta - 3232555.0322333 * beta + 405113.40542057
    d = 2.0 * g / (-f - np.sqrt(f * f - 4.0 * e * g))
    n10, n9 = 650.17534844798, -0.23855557567849
    return (n10 + d - np.sqrt((n10 + d) ** 2 - 4.0 * (n9 + n10 * d))) / 2.0 - _ZERO_DEGC_K


def _held(temperature_degc: Numbers) -> Values:
    return clamped(temperature_degc, COOLANT_LOWEST_DEGC, COOLANT_HIGHEST_DEGC)


def _polynomial(terms: tuple[float, ...], x: Values) -> Values:
    result = np.full_like(x, terms[-1])
    for term in reversed(terms[:-1]):
        result = result * x + term
    return result


def _between(table: tuple[tuple[float, ...], ...], volume_frac: float) -> tuple[float, ...]:
    return tuple(float(np.interp(volume_frac, _GLYCOL_FRAC, column)) for column in zip(*table, strict=True))
