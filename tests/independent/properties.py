"""Air and coolant anew: perfect gas and Sutherland's forms; a glycol mixture fitted here to a reference library.

Sources: gas constant and pressure by height from the U.S. Standard Atmosphere 1976 (`fluids`); Sutherland's constants from
memory; the glycol from CoolProp's ASHRAE mixtures by volume, which stop at 100 °C and are carried on by the fit.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np
from CoolProp.CoolProp import PropsSI

AIR_CP = 1006.0
PRANDTL = 0.705
KELVIN = 273.15
KNEE_DEGC = 40.0


def _held_k(degc):
    return np.clip(degc, -60.0, 300.0) + KELVIN


def air_density(degc, pressure_pa):
    return pressure_pa / (287.055 * _held_k(degc))


def air_viscosity(degc):
    kelvin = _held_k(degc)
    return 1.716e-5 * (kelvin / KELVIN) ** 1.5 * (KELVIN + 110.4) / (kelvin + 110.4)


def air_conductivity(degc):
    kelvin = _held_k(degc)
    return 0.02414 * (kelvin / KELVIN) ** 1.5 * (KELVIN + 194.0) / (kelvin + 194.0)


def charge_cp(degc):
    return AIR_CP + 0.1 * (np.clip(degc, -60.0, 300.0) - 25.0)


REFERENCE_DENSITY = float(air_density(45.0, 101325.0))


@dataclass(frozen=True)
class Glycol:
    """Polynomials in °C, highest power first; the logarithm of viscosity in 1000/T, apart below and above 40 °C."""

    density_terms: np.ndarray
    cp_terms: np.ndarray
    conductivity_terms: np.ndarray
    hot_terms: np.ndarray
    cold_terms: np.ndarray

    def density(self, degc):
        return np.polyval(self.density_terms, _within(degc))

    def cp(self, degc):
        return np.polyval(self.cp_terms, _within(degc))

    def conductivity(self, degc):
        return np.polyval(self.conductivity_terms, _within(degc))

    def viscosity(self, degc):
        w = 1000.0 / (_within(degc) + KELVIN) - 1000.0 / (KNEE_DEGC + KELVIN)
        return np.exp(np.polyval(self.hot_terms if w <= 0.0 else self.cold_terms, w))


def _within(degc):
    return min(max(degc, -10.0), 130.0)


@functools.cache
def glycol(volume_frac: float) -> Glycol:
    """Return the mixture, fitted every 5 °C from 40 to 100 °C, its viscosity below 40 °C from -10 °C up."""
    warm, cold = np.arange(40.0, 100.1, 5.0), np.arange(-10.0, 40.1, 5.0)
    density, cp, conductivity, viscosity = (_looked_up(letter, warm, volume_frac) for letter in "DCLV")
    hot_terms = np.polyfit(_places(warm), np.log(viscosity), 2)
    w = _places(cold)
    rest = np.log(_looked_up("V", cold, volume_frac)) - hot_terms[2]
    linear, square = np.linalg.lstsq(np.column_stack([w, w * w]), rest, rcond=None)[0]
    return Glycol(
        np.polyfit(warm, density, 2),
        np.polyfit(warm, cp, 1),
        np.polyfit(warm, conductivity, 2),
        hot_terms,
        np.array([square, linear, hot_terms[2]]),
    )


def _looked_up(letter: str, degc: np.ndarray, volume_frac: float) -> np.ndarray:
    return np.array([PropsSI(letter, "T", t + KELVIN, "P", 2.0e5, f"INCOMP::AEG[{volume_frac:.4f}]") for t in degc])


def _places(degc: np.ndarray) -> np.ndarray:
    return 1000.0 / (degc + KELVIN) - 1000.0 / (KNEE_DEGC + KELVIN)
