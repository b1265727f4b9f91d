"""What flows in the tubes: capacities, inlet temperatures and the conductance of each layer's tube side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import charge_air_heat_capacity_j_per_kg_k
from grillestack.physics.conditions import Conditions
from grillestack.physics.coolant import Coolant
from grillestack.physics.layout import Layer, LayerDuty, PackLayout
from grillestack.physics.liquid_side import LiquidState, oil_film_w_per_m2_k, strip_film_w_per_m2_k
from grillestack.physics.overall import CLEAN_M2_K_PER_W, COOLANT_FOULING_M2_K_PER_W, OIL_FOULING_M2_K_PER_W
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

    `conductance_w_per_m2_k` is the film times the inner area, per square metre of face; shape (B, C). So is the shape of
    `given_capacity_w_per_k`, m·cp of the further coolers whose inlet is given.
    """

    conductance_w_per_m2_k: FloatArray
    top_tank_degc: FloatArray
    coolant_capacity_w_per_k: FloatArray
    charge_in_degc: FloatArray
    charge_capacity_w_per_k: FloatArray
    given_capacity_w_per_k: FloatArray


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
    given_capacity = np.zeros((size, len(layout.layers)))
    for number, layer in enumerate(layout.layers):
        mean = tube_mean_degc[:, number]
        if layer.duty is LayerDuty.CHARGE_AIR:
            charge_capacity, inside = tube_side(layer, conditions.charge_flow_kg_s, mean, conditions.coolant)
        elif layer.duty is LayerDuty.GIVEN_INLET:
            given_capacity[:, number], inside = tube_side(layer, conditions.flow_of(number), mean, conditions.coolant)
        else:
            capacity, inside = tube_side(layer, conditions.coolant_flow_kg_s, mean, conditions.coolant)
            if layer.duty is LayerDuty.RADIATOR:
                coolant_capacity = capacity
        conductance[:, number] = inside
    return TubeFluids(
        conductance,
        top_tank_degc,
        coolant_capacity,
        charge_inlet_degc(conditions, ambient_degc),
        charge_capacity,
        given_capacity,
    )


def tube_side(
    layer: Layer, flow_kg_s: FloatArray, mean_degc: FloatArray, coolant: Coolant
) -> tuple[FloatArray, FloatArray]:
    """Return m·cp of the tube flow, and the film times the inner area per square metre of face; shapes (B,).

    Where the heat is given no flow is looked at: the capacity is infinite and the film that of a condensing refrigerant.
    """
    inner = layer.construction.inner_area_m2_per_m2
    if layer.duty is LayerDuty.GIVEN_HEAT:
        return np.full(mean_degc.shape, np.inf), np.full(
            mean_degc.shape, WALL_FILM_W_PER_M2_K * WEB_AREA_FACTOR * inner
        )
    per_tube = flow_kg_s / layer.tube_count
    if layer.duty is LayerDuty.CHARGE_AIR:
        capacity = flow_kg_s * charge_air_heat_capacity_j_per_kg_k(mean_degc)
        return capacity, charge_film_w_per_m2_k(layer.construction, per_tube, mean_degc, layer.transition) * inner
    if layer.duty is LayerDuty.GIVEN_INLET:
        return _further_liquid(layer, flow_kg_s, mean_degc, coolant)
    heat_capacity = coolant.heat_capacity_j_per_kg_k(mean_degc)
    film = coolant_film_w_per_m2_k(
        layer.construction,
        per_tube,
        coolant.viscosity_pa_s(mean_degc),
        coolant.conductivity_w_per_m_k(mean_degc),
        heat_capacity,
        layer.transition,
    )
    return flow_kg_s * heat_capacity, film * inner


def tube_fouling_m2_k_per_w(layer: Layer) -> float:
    """Return the deposit in a layer's tubes: coolant and oil leave one, charge air and refrigerant do not."""
    if layer.duty is LayerDuty.GIVEN_INLET:
        return COOLANT_FOULING_M2_K_PER_W if layer.oil is None else OIL_FOULING_M2_K_PER_W
    return COOLANT_FOULING_M2_K_PER_W if layer.duty is LayerDuty.RADIATOR else CLEAN_M2_K_PER_W


def _further_liquid(
    layer: Layer, flow_kg_s: FloatArray, mean_degc: FloatArray, coolant: Coolant
) -> tuple[FloatArray, FloatArray]:
    """Return what `tube_side` does for oil or coolant of a circuit of its own."""
    liquid = coolant if layer.oil is None else layer.oil
    state = LiquidState(
        viscosity_pa_s=liquid.viscosity_pa_s(mean_degc),
        conductivity_w_per_m_k=liquid.conductivity_w_per_m_k(mean_degc),
        heat_capacity_j_per_kg_k=liquid.heat_capacity_j_per_kg_k(mean_degc),
    )
    c, per_tube = layer.construction, flow_kg_s / layer.tube_count
    if c.inner_fin is not None:
        film = strip_film_w_per_m2_k(c, per_tube, state)
    elif layer.oil is not None:
        film = oil_film_w_per_m2_k(c, per_tube, layer.pass_length_m, state, layer.transition)
    else:
        film = coolant_film_w_per_m2_k(
            c,
            per_tube,
            state.viscosity_pa_s,
            state.conductivity_w_per_m_k,
            state.heat_capacity_j_per_kg_k,
            layer.transition,
        )
    return flow_kg_s * state.heat_capacity_j_per_kg_k, film * c.inner_area_m2_per_m2
