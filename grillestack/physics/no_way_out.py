"""Whether what must leave the pack can leave it at all: with outside air, or into the tubes that take what comes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K
from grillestack.physics.air_path import EdgeRanges
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC, Sweep
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.tube_fluids import TubeFluids

FloatArray = NDArray[np.float64]

# Flows change with the air's temperature by less than this between the coldest and the hottest air of a solution.
_FLOWS_MAY_GROW = 3.0


def heat_cannot_leave(
    layout: PackLayout,
    conditions: Conditions,
    ranges: EdgeRanges,
    mass_kg_s: FloatArray,
    fluids: TubeFluids,
    sweep: Sweep,
) -> NDArray[np.bool_]:
    """Return which problems have no steady state below the upper bound, whatever their unknown is; shape (B,).

    Fans that stir the same air round and round bring heat nowhere. All that outside air could carry at the bound, and all that
    tubes of given inlet could take up from air as hot as that, is held against what must leave: the heat targets, the given
    heats that any air reaches, and that of the surfaces in the bay.

    Parameters
    ----------
    mass_kg_s
        The flows of a pass; shape (B, E).
    """
    coming_in = np.maximum(mass_kg_s[:, ranges.openings], 0.0).sum(axis=1) + np.maximum(-mass_kg_s[:, ranges.exit], 0.0)
    coldest = np.where(conditions.ask == Ask.AMBIENT, LOWEST_DEGC, conditions.ambient_degc)
    can_leave = coming_in * AIR_HEAT_CAPACITY_J_PER_KG_K * (HIGHEST_DEGC - coldest)
    must_leave = np.where(conditions.ask == Ask.HEAT, 0.0, conditions.heat_target_w) + conditions.surface_heat_w
    zone_w_per_k = np.abs(mass_kg_s[:, ranges.zones]) * AIR_HEAT_CAPACITY_J_PER_KG_K
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            must_leave = must_leave + sweep.heat_w[:, number]
            continue
        if layer.duty is LayerDuty.RADIATOR:
            taking, inlet = conditions.ask == Ask.HEAT, fluids.top_tank_degc
        elif layer.duty is LayerDuty.CHARGE_AIR:
            taking, inlet = np.ones(conditions.size, dtype=bool), fluids.charge_in_degc
        else:
            taking, inlet = np.ones(conditions.size, dtype=bool), conditions.inlet_of(number)
        air_w_per_k = (zone_w_per_k * layout.zone_hit[None, :, number]).sum(axis=1)
        can_leave = can_leave + np.where(taking, air_w_per_k * np.maximum(HIGHEST_DEGC - inlet, 0.0), 0.0)
    impossible: NDArray[np.bool_] = _FLOWS_MAY_GROW * can_leave < must_leave
    return impossible
