"""What is measured of a core's heat, held against its fins and tubes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values

_LEAST_FLUX_KG_S_M2: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class AirSide:
    """By how much a core differs from the correlations on its fins and tubes; nothing, if nothing is measured.

    Attributes
    ----------
    conductance_factor
        On the whole conductance from tube fluid to air, at any air flow.
    flux_kg_s_m2, resistance_factor
        Mass fluxes of air per square metre of face, rising, and the measured resistance of the air side over that of the fins
        at each of them. Between them the factor runs straight in the logarithms of both; below the first and above the last it
        is held, so the resistance follows the trend of the fins from the nearest end.
    """

    conductance_factor: float = 1.0
    flux_kg_s_m2: tuple[float, ...] = ()
    resistance_factor: tuple[float, ...] = ()

    def resistance_factor_at(self, mass_flux_kg_s_m2: Numbers) -> Numbers:
        """Return the factor on the air side's resistance at these mass fluxes, same shape; 1 without a table."""
        if not self.flux_kg_s_m2:
            return 1.0
        flux = np.maximum(np.asarray(mass_flux_kg_s_m2, dtype=np.float64), _LEAST_FLUX_KG_S_M2)
        between: Values = np.interp(np.log(flux), np.log(self.flux_kg_s_m2), np.log(self.resistance_factor))
        factor: Values = np.exp(between)
        return factor


FINS_ALONE: Final = AirSide()
