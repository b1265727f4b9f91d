"""Films inside the tubes of further coolers: oil in flat tubes, and any liquid between the legs of a fin inside the tubes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics import offset_strip
from grillestack.physics.arrays import Numbers, Values
from grillestack.physics.construction import Construction, InnerFin
from grillestack.physics.fin_efficiency import inner_fin_efficiency, surface_efficiency
from grillestack.physics.tube_flow import LAMINAR_END_REYNOLDS, Transition, laminar_nusselt, nusselt_flat_tube

LIQUID_STRIP_FRAC: Final = 0.5
"""Of the film that relations drawn from air give between strips, liquids reach half. Source: [HH1995], from memory: up to twice
the measured one is foretold."""

_STRIP_EXPONENT: Final = 0.5403
_CREEPING_REYNOLDS: Final = 1.0e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidState:
    """A liquid at its mean temperature; any shapes that broadcast."""

    viscosity_pa_s: Values
    conductivity_w_per_m_k: Values
    heat_capacity_j_per_kg_k: Values

    @property
    def prandtl(self) -> Values:
        """Return the Prandtl number."""
        return self.viscosity_pa_s * self.heat_capacity_j_per_kg_k / self.conductivity_w_per_m_k


def oil_film_w_per_m2_k(
    construction: Construction,
    mass_flow_per_tube_kg_s: Numbers,
    pass_length_m: float,
    oil: LiquidState,
    transition: Transition = Transition.BLENDED,
) -> Values:
    """Give the film coefficient of oil in plain tubes, per square metre of bore, enhancement included.

    Unlike coolant, oil is far from evenly warm across the tube over most of its length, so the inlet length counts.

    Parameters
    ----------
    construction : fins and tubes, no inner fin
    mass_flow_per_tube_kg_s : oil in one tube, any shape [kg/s]; zero or reversed counts as laminar
    pass_length_m : tank to tank, one pass [m]
    oil : at its mean temperature
    transition : smooth or dimpled tube

    Returns
    -------
    film coefficient, the common shape [W/(m²·K)]

    Valid for: as `tube_flow.nusselt_flat_tube`. That oil is thicker at the cold wall is neglected: up to 10 % too much.

    Source: [SL1978], [GN2013], inlet length [EDM1979]
    """
    diameter_m = construction.bore_hydraulic_diameter_m
    reynolds = _mass_flux(construction, mass_flow_per_tube_kg_s) * diameter_m / oil.viscosity_pa_s
    steady = nusselt_flat_tube(reynolds, oil.prandtl, construction.bore_aspect, transition)
    laminar = np.clip(reynolds, 0.0, LAMINAR_END_REYNOLDS)
    gained = inlet_length_nusselt(laminar * oil.prandtl * (diameter_m / pass_length_m))
    nusselt = np.maximum(steady, laminar_nusselt(construction.bore_aspect) + gained)
    return nusselt * oil.conductivity_w_per_m_k * (construction.tube_enhancement_factor / diameter_m)


def inlet_length_nusselt(graetz: Numbers) -> Values:
    """Give what the inlet length adds to the mean Nusselt number of laminar flow between walls of one temperature.

    Parameters
    ----------
    graetz : Re·Pr·Dh/L, any shape [-]

    Returns
    -------
    addition to the Nusselt number, same shape [-]

    Valid for: a flow profile that is developed, as it is in oil long before its temperatures are

    Source: [EDM1979]
    """
    gz = np.asarray(graetz, dtype=np.float64)
    return 0.03 * gz / (1.0 + 0.016 * np.cbrt(gz) ** 2)


def strip_film_w_per_m2_k(construction: Construction, mass_flow_per_tube_kg_s: Numbers, liquid: LiquidState) -> Values:
    """Give the film coefficient of a liquid in a tube with an inner fin, per square metre of wetted area, fin efficiency included.

    Parameters
    ----------
    construction : fins and tubes with an inner fin
    mass_flow_per_tube_kg_s : liquid in one tube, any shape [kg/s]; zero or reversed counts as creeping
    liquid : at its mean temperature

    Returns
    -------
    working film coefficient, the common shape [W/(m²·K)]

    Valid for: nothing openly published for oil was found. `LIQUID_STRIP_FRAC` of the relation for gases, continued below its
    lowest Reynolds number by its own slope, and never less than steady laminar flow between the legs. Taken as right within
    a factor of two either way.

    Source: [MB1995], [HH1995], [SL1978], [INCROPERA]
    """
    c, fin = construction, construction.inner_fin
    if fin is None:
        raise ValueError("There is no fin inside the tubes.")
    reynolds = _mass_flux(c, mass_flow_per_tube_kg_s) * c.bore_hydraulic_diameter_m / liquid.viscosity_pa_s
    restarted = LIQUID_STRIP_FRAC * _strip_nusselt_over_cbrt_prandtl(fin, reynolds) * np.cbrt(liquid.prandtl)
    aspect = min(fin.spacing_m, fin.height_m) / max(fin.spacing_m, fin.height_m)
    nusselt = np.maximum(restarted, laminar_nusselt(aspect))
    film = nusselt * liquid.conductivity_w_per_m_k * (c.tube_enhancement_factor / c.bore_hydraulic_diameter_m)
    working: Values = film * surface_efficiency(inner_fin_efficiency(c, film), fin.fin_area_frac)
    return working


def _strip_nusselt_over_cbrt_prandtl(fin: InnerFin, reynolds: Values) -> Values:
    """Return j·Re; below the relation's range it falls with the relation's own slope."""
    moving = np.maximum(reynolds, _CREEPING_REYNOLDS)
    held = np.maximum(moving, offset_strip.LOWEST_STRIP_REYNOLDS)
    return offset_strip.colburn_j(fin, held) * held * (moving / held) ** (1.0 - _STRIP_EXPONENT)


def _mass_flux(c: Construction, mass_flow_per_tube_kg_s: Numbers) -> Values:
    return np.asarray(mass_flow_per_tube_kg_s, dtype=np.float64) / c.bore_area_m2
