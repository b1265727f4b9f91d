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

# Warmer air is thinner and carries less; what else its warmth may do to the flows is well within this.
_FLOWS_MAY_GROW = 1.5


def heat_cannot_leave(
    layout: PackLayout,
    conditions: Conditions,
    ranges: EdgeRanges,
    mass_kg_s: FloatArray,
    fluids: TubeFluids,
    sweep: Sweep,
    unsettled: NDArray[np.bool_],
) -> NDArray[np.bool_]:
    """Return which problems have no steady state below the upper bound, whatever their unknown is; shape (B,).

    Fans that stir the same air round and round bring heat nowhere. All that outside air could carry at the bound, and all that
    tubes of given inlet could take up from air as hot as that, is held against what must leave: the heat targets; and, as
    long as nothing is settled, the given heats that any air reaches and that of the surfaces in the bay, which a settled
    problem may hold in dead air.

    Parameters
    ----------
    mass_kg_s
        The flows of a pass; shape (B, E).
    unsettled
        Which problems still move; shape (B,).
    """
    coming_in = np.maximum(mass_kg_s[:, ranges.openings], 0.0).sum(axis=1) + np.maximum(-mass_kg_s[:, ranges.exit], 0.0)
    coldest = np.where(conditions.ask == Ask.AMBIENT, LOWEST_DEGC, conditions.ambient_degc)
    can_leave = coming_in * AIR_HEAT_CAPACITY_J_PER_KG_K * (HIGHEST_DEGC - coldest)
    given_w = conditions.surface_heat_w
    zone_w_per_k = np.abs(mass_kg_s[:, ranges.zones]) * AIR_HEAT_CAPACITY_J_PER_KG_K
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            given_w = given_w + sweep.heat_w[:, number]
            continue
        if layer.duty is LayerDuty.RADIATOR:
            inlet = np.where(conditions.ask == Ask.HEAT, fluids.top_tank_degc, HIGHEST_DEGC)
            tube_w_per_k = fluids.coolant_capacity_w_per_k
        elif layer.duty is LayerDuty.CHARGE_AIR:
            inlet, tube_w_per_k = fluids.charge_in_degc, fluids.charge_capacity_w_per_k
        else:
            inlet, tube_w_per_k = conditions.inlet_of(number), fluids.given_capacity_w_per_k[:, number]
        air_w_per_k = (zone_w_per_k * layout.zone_hit[None, :, number]).sum(axis=1)
        taken_up = np.minimum(air_w_per_k, tube_w_per_k) * np.maximum(HIGHEST_DEGC - inlet, 0.0)
        can_leave = can_leave + np.where(conditions.present[:, number], taken_up, 0.0)
    must_leave = np.where(conditions.ask == Ask.HEAT, 0.0, conditions.heat_target_w) + np.where(unsettled, given_w, 0.0)
    impossible: NDArray[np.bool_] = _FLOWS_MAY_GROW * can_leave < must_leave
    return impossible
