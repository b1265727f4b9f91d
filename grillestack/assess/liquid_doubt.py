"""How far the conductance of a further cooler is open because the film of the liquid in its tubes is."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np

from grillestack.assess.core_construction import bench_air_kg_m3, core_ground
from grillestack.assess.further_coolers import is_marched, runs_oil
from grillestack.assess.further_liquids import tube_flow_kg_s
from grillestack.model.parts import Core
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.overall import air_side_resistance_m2_k_per_w, wall_resistance_m2_k_per_w
from grillestack.physics.tube_fluids import tube_fouling_m2_k_per_w, tube_side

STRIP_FILM_FACTOR: Final = 2.0
"""The film between strips is right within this factor either way: the whole distance between air's relations and what liquids were
found to reach [HH1995], from memory."""

PLAIN_OIL_FACTOR: Final = 1.3
"""Oil in plain tubes: thicker at the cold wall, and of another make than assumed. Common practice, from memory."""

# Where the share of the film in the whole resistance is looked at: air at the face, and as warm as in the core.
_AIR_M_S: Final = 4.0
_AIR_DEGC: Final = 50.0


class LiquidDoubt(NamedTuple):
    """True over computed conductance of the whole core, low and high, and why."""

    low_factor: float
    high_factor: float
    source: str


def liquid_doubt(core: Core) -> LiquidDoubt | None:
    """Return how far this core's conductance is open, or nothing for one whose tubes are no less sure than a radiator's."""
    layer = core_ground(core).alone
    between_strips = layer.construction.inner_fin is not None
    if not is_marched(core) or core.tube_inlet_degc is None or not (between_strips or runs_oil(core)):
        return None
    coolant = ethylene_glycol(0.5)
    flow = np.array([tube_flow_kg_s(core, coolant)])
    film = 1.0 / float(tube_side(layer, flow, np.array([core.tube_inlet_degc]), coolant)[1][0])
    flux = _AIR_M_S * bench_air_kg_m3(_AIR_DEGC)
    others = float(air_side_resistance_m2_k_per_w(layer.construction, flux, _AIR_DEGC))
    others += wall_resistance_m2_k_per_w(layer.construction, tube_fouling_m2_k_per_w(layer))
    share = film / (film + others)
    factor = STRIP_FILM_FACTOR if between_strips else PLAIN_OIL_FACTOR
    where = "between the strips inside its tubes" if between_strips else "of oil in its tubes"
    return LiquidDoubt(
        1.0 / (1.0 + share * (factor - 1.0)),
        1.0 / (1.0 - share * (1.0 - 1.0 / factor)),
        f"the film {where}, {100.0 * share:.0f} % of the resistance, {factor:g} times either way, from memory",
    )
