"""What flows in the tubes: capacities, inlet temperatures and the conductance of each layer's tube side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import charge_air_heat_capacity_j_per_kg_k
from grillestack.physics.conditions import Conditions
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.tube_side import charge_film_w_per_m2_k, coolant_film_w_per_m2_k

FloatArray = NDArray[np.float64]

WALL_FILM_W_PER_M2_K: Final = 3500.0
"""Film inside the tubes of a condenser, on their inner area; typical, from memory."""

WEB_AREA_FACTOR: Final = 1.42
"""Inner area of a multi-port condenser tube with its webs, over that of the plain tube; typical, from memory."""

ZERO_DEGC_K: Final = 273.15


@dataclass(frozen=True, slots=True)
class TubeFluids:
    """Tube sides of one state; (B,) unless said otherwise.

    `conductance_w_per_m2_k` is the film times the inner area, per square metre of face; shape (B, C).
    """

    conductance_w_per_m2_k: FloatArray
    top_tank_degc: FloatArray
    coolant_capacity_w_per_k: FloatArray
    charge_in_degc: FloatArray
    charge_capacity_w_per_k: FloatArray


def charge_inlet_degc(conditions: Conditions, ambient_degc: FloatArray) -> FloatArray:
    """Return the charge inlet temperature: its absolute value scales with absolute ambient temperature."""
    ratio = (ambient_degc + ZERO_DEGC_K) / (conditions.charge_reference_degc + ZERO_DEGC_K)
    return (conditions.charge_inlet_degc + ZERO_DEGC_K) * ratio - ZERO_DEGC_K


def tube_fluids(
    layout: PackLayout,
    conditions: Conditions,
    ambient_degc: FloatArray,
    top_tank_degc: FloatArray,
    tube_mean_degc: FloatArray,
) -> TubeFluids:
    """Return the tube sides at these mean temperatures; `tube_mean_degc` has shape (B, C)."""
    size = conditions.size
    conductance = np.empty((size, len(layout.layers)))
    coolant_capacity = np.zeros(size)
    charge_capacity = np.zeros(size)
    coolant = conditions.coolant
    for number, layer in enumerate(layout.layers):
        inner = layer.construction.inner_area_m2_per_m2
        mean = tube_mean_degc[:, number]
        if layer.duty is LayerDuty.GIVEN_HEAT:
            conductance[:, number] = WALL_FILM_W_PER_M2_K * WEB_AREA_FACTOR * inner
        elif layer.duty is LayerDuty.CHARGE_AIR:
            flow = conditions.charge_flow_kg_s
            charge_capacity = flow * charge_air_heat_capacity_j_per_kg_k(mean)
            film = charge_film_w_per_m2_k(layer.construction, flow / layer.tube_count, mean, layer.transition)
            conductance[:, number] = film * inner
        else:
            flow = conditions.coolant_flow_kg_s
            heat_capacity = coolant.heat_capacity_j_per_kg_k(mean)
            coolant_capacity = flow * heat_capacity
            film = coolant_film_w_per_m2_k(
                layer.construction,
                flow / layer.tube_count,
                coolant.viscosity_pa_s(mean),
                coolant.conductivity_w_per_m_k(mean),
                heat_capacity,
                layer.transition,
            )
            conductance[:, number] = film * inner
    return TubeFluids(
        conductance, top_tank_degc, coolant_capacity, charge_inlet_degc(conditions, ambient_degc), charge_capacity
    )
