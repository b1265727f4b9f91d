"""One sweep of the air through the stack: heat of every core at given air flows, temperatures carried from layer to layer."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.layout import IntArray, Layer, LayerDuty, PackLayout
from grillestack.physics.march import march_rows, wall_temperature_degc
from grillestack.physics.overall import conductance_w_per_m2_k
from grillestack.physics.tube_fluids import TubeFluids, tube_fouling_m2_k_per_w

FloatArray = NDArray[np.float64]

_PROBE_K = 10.0
_LEAST_CAPACITY_W_PER_K = 1e-12
HIGHEST_DEGC = 400.0
LOWEST_DEGC = -60.0


@dataclass(frozen=True, slots=True)
class Exchange:
    """What one layer offers its air: per zone C·e and e of one sub-row, and the whole UA; shape (B, Z)."""

    capacity_w_per_k: FloatArray
    effectiveness: FloatArray
    conductance_w_per_k: FloatArray


@dataclass(frozen=True, slots=True)
class Sweep:
    """Temperatures and heats after one sweep; Z zones, C layers.

    Attributes
    ----------
    zone_in_degc, zone_out_degc
        Mean air temperature into and out of each layer in the direction of flow; shape (B, Z, C).
    zone_exit_degc, zone_kept_frac
        Air leaving each zone for its node, and by how much it follows its inlet; shape (B, Z).
    heat_w, tube_in_degc, tube_out_degc, conductance_w_per_k
        Per layer; shape (B, C). The tube temperature of a layer whose heat is given is its wall.
    radiator_response_w_per_k
        Change of the radiator's heat with its inlet temperature; shape (B,).
    reversed_in_degc
        What reversed air brings to each layer, for the next sweep; shape (C, B, N).
    """

    zone_in_degc: FloatArray
    zone_out_degc: FloatArray
    zone_exit_degc: FloatArray
    zone_kept_frac: FloatArray
    heat_w: FloatArray
    tube_in_degc: FloatArray
    tube_out_degc: FloatArray
    conductance_w_per_k: FloatArray
    radiator_response_w_per_k: FloatArray
    reversed_in_degc: FloatArray


def sweep_layers(
    layout: PackLayout,
    conditions: Conditions,
    fluids: TubeFluids,
    zone_mass_kg_s: FloatArray,
    node_degc: FloatArray,
    zone_mean_degc: FloatArray,
    reversed_in_degc: FloatArray,
) -> Sweep:
    """Return the temperatures that follow from these flows and node temperatures.

    Parameters
    ----------
    zone_mass_kg_s
        Shape (B, Z); negative runs forward.
    zone_mean_degc
        Mean air temperature in each layer of the sweep before, for properties; shape (B, Z, C).
    reversed_in_degc
        From the sweep before; shape (C, B, N).
    """
    size, zones, count = conditions.size, layout.zone_area_m2.size, len(layout.layers)
    mean_of_zone = layout.mean_of_zone
    runs_back = zone_mass_kg_s < 0.0
    any_back = bool(runs_back.any())
    capacity = np.abs(zone_mass_kg_s) * AIR_HEAT_CAPACITY_J_PER_KG_K
    air = node_degc.take(layout.zone_upstream[layout.piece_zone], axis=1)
    piece_back = runs_back.take(layout.piece_zone, axis=1) if any_back else None
    shape = (size, zones, count)
    zone_in, zone_out = np.empty(shape), np.empty(shape)
    heat, tube_in, tube_out, conductance = (np.zeros((size, count)) for _ in range(4))
    kept = np.ones((size, zones))
    response = np.zeros(size)
    leaving: list[FloatArray] = []
    for number, layer in enumerate(layout.layers):
        entering = air if piece_back is None else np.where(piece_back, reversed_in_degc[number], air)
        exchange = _exchange(layout, conditions, fluids, number, layer, zone_mass_kg_s, capacity, zone_mean_degc)
        if layer.duty is LayerDuty.GIVEN_HEAT:
            out, wall = _given_heat(layout, layer, exchange, conditions.given_heat_w[:, number], entering)
            tube_in[:, number] = tube_out[:, number] = wall
        elif layer.duty is LayerDuty.CHARGE_AIR:
            tube_in[:, number] = fluids.charge_in_degc
            out, tube_out[:, number] = _march(
                layout, layer, exchange, entering, fluids.charge_capacity_w_per_k, fluids.charge_in_degc
            )
        elif layer.duty is LayerDuty.GIVEN_INLET:
            inlet = conditions.inlet_of(number)
            tube_in[:, number] = inlet
            out, tube_out[:, number] = _march(
                layout, layer, exchange, entering, fluids.given_capacity_w_per_k[:, number], inlet
            )
        else:
            out, tube_in[:, number], tube_out[:, number], response = _radiator(
                layout, layer, exchange, entering, fluids, conditions
            )
        before, after = entering @ mean_of_zone, out @ mean_of_zone
        zone_in[:, :, number], zone_out[:, :, number] = before, after
        heat[:, number] = (capacity * (after - before)).sum(axis=1)
        conductance[:, number] = exchange.conductance_w_per_k.sum(axis=1)
        # Where a core's heat is given, its wall or its top tank follows the air one to one, and all of a rise is left.
        if layer.duty is not LayerDuty.GIVEN_HEAT:
            taken = 1.0 - (1.0 - exchange.effectiveness) ** layer.sub_rows
            taken *= _answering_share(capacity * taken, before, tube_in[:, number], heat[:, number])[:, None]
            follows = (layer.duty is LayerDuty.RADIATOR) & (conditions.ask == Ask.TOP_TANK)
            kept *= 1.0 - np.where(follows[:, None], 0.0, taken)
        leaving.append(out)
        air = out
    exit_degc = air @ mean_of_zone
    if any_back:
        reversed_in_degc, front = _reversed_path(layout, node_degc, leaving)
        exit_degc = np.where(runs_back, front @ mean_of_zone, exit_degc)
    return Sweep(zone_in, zone_out, exit_degc, kept, heat, tube_in, tube_out, conductance, response, reversed_in_degc)


def _exchange(
    layout: PackLayout,
    conditions: Conditions,
    fluids: TubeFluids,
    number: int,
    layer: Layer,
    mass_kg_s: FloatArray,
    capacity: FloatArray,
    zone_mean_degc: FloatArray,
) -> Exchange:
    hit = conditions.present[:, number, None] & layout.zone_hit[None, :, number]
    area = layout.zone_area_m2[None, :] * layer.area_factor
    flux = np.abs(mass_kg_s) / area
    per_area = conductance_w_per_m2_k(
        layer.construction,
        flux,
        zone_mean_degc[:, :, number],
        fluids.conductance_w_per_m2_k[:, number, None],
        tube_fouling_m2_k_per_w(layer),
        layer.air_side.resistance_factor_at(flux),
    )
    if layer.air_side.conductance_factor != 1.0:
        per_area = per_area * layer.air_side.conductance_factor
    if conditions.heat_factor is not None:
        per_area = per_area * conditions.heat_factor[:, number, None]
    conductance = np.where(hit, per_area * area, 0.0)
    floor = np.maximum(capacity, _LEAST_CAPACITY_W_PER_K)
    effectiveness = -np.expm1(-conductance / (_rows_in_depth(layer) * floor))
    return Exchange(capacity * effectiveness, effectiveness, np.where(mass_kg_s == 0.0, 0.0, conductance))


def _answering_share(
    exchange_w_per_k: FloatArray, air_degc: FloatArray, tube_in_degc: FloatArray, heat_w: FloatArray
) -> FloatArray:
    """Return how much of what a tube of one temperature would give its tube fluid does, which nears the air; shape (B,).

    The heat is affine in the difference of the inlets, so what is shed now says it.
    """
    total = exchange_w_per_k.sum(axis=1)
    most = tube_in_degc * total - (exchange_w_per_k * air_degc).sum(axis=1)
    share = np.divide(heat_w, most, out=np.ones_like(total), where=np.abs(most) > total)
    within: FloatArray = np.minimum(np.maximum(share, 0.0), 1.0)
    return within


def _rows_in_depth(layer: Layer) -> int:
    """Return over how many rows the march goes; a wall of one temperature meets the air over its whole depth at once."""
    return 1 if layer.duty is LayerDuty.GIVEN_HEAT else layer.sub_rows


def _piece_exchange(layout: PackLayout, exchange: Exchange, pieces: IntArray) -> tuple[FloatArray, FloatArray]:
    zone = layout.piece_zone[pieces]
    per_piece = exchange.capacity_w_per_k.take(zone, axis=1) * layout.piece_share[pieces]
    return per_piece, exchange.effectiveness.take(zone, axis=1)


def _march(
    layout: PackLayout,
    layer: Layer,
    exchange: Exchange,
    entering: FloatArray,
    tube_capacity: FloatArray,
    tube_in: FloatArray,
    again: IntArray | None = None,
) -> tuple[FloatArray, FloatArray]:
    out = entering.copy()
    now = tube_in
    for tube_pass in layer.passes:
        per_piece, effectiveness = _piece_exchange(layout, exchange, tube_pass.pieces)
        behind, now = march_rows(
            tube_pass,
            per_piece,
            effectiveness,
            entering.take(tube_pass.pieces, axis=1),
            tube_capacity,
            now,
            layer.sub_rows,
            again,
        )
        out[:, tube_pass.pieces] = behind
    return out, now


def _radiator(
    layout: PackLayout,
    layer: Layer,
    exchange: Exchange,
    entering: FloatArray,
    fluids: TubeFluids,
    conditions: Conditions,
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """March once at the top tank temperature and once a little above: the heat is affine in it [SS2003]."""
    probed = np.flatnonzero(conditions.ask != Ask.HEAT)
    rows = np.concatenate([np.arange(conditions.size), probed])
    top = fluids.top_tank_degc[rows]
    top[conditions.size :] += _PROBE_K
    capacity = fluids.coolant_capacity_w_per_k
    out, leaving = _march(layout, layer, exchange, entering[rows], capacity, top, probed)
    heat = capacity[rows] * (top - leaving)
    response = np.zeros(conditions.size)
    response[probed] = (heat[conditions.size :] - heat[probed]) / _PROBE_K
    top, leaving_more, out_more = top[: conditions.size], leaving[conditions.size :], out[conditions.size :]
    out, leaving = out[: conditions.size], leaving[: conditions.size]
    solved = conditions.ask[probed] == Ask.TOP_TANK
    which = probed[solved]
    if which.size:
        wanted = conditions.heat_target_w[which] - heat[which]
        step = wanted / np.maximum(response[which], 1e-9)
        step = np.clip(top[which] + step, LOWEST_DEGC, HIGHEST_DEGC) - top[which]
        share = step / _PROBE_K
        out[which] += (out_more[solved] - out[which]) * share[:, None]
        leaving[which] += (leaving_more[solved] - leaving[which]) * share
        top = top.copy()
        top[which] += step
    return out, top, leaving, response


def _given_heat(
    layout: PackLayout, layer: Layer, exchange: Exchange, heat_w: FloatArray, entering: FloatArray
) -> tuple[FloatArray, FloatArray]:
    per_piece, effectiveness = _piece_exchange(layout, exchange, layer.pieces)
    air = entering.take(layer.pieces, axis=1)
    wall, total = wall_temperature_degc(heat_w, per_piece, air)
    gives = (heat_w > 0.0) & (total > 0.0)
    out = entering.copy()
    safe_wall = np.where(gives, wall, 0.0)
    out[:, layer.pieces] = air + np.where(gives[:, None], effectiveness * (safe_wall[:, None] - air), 0.0)
    return out, np.where(heat_w > 0.0, wall, np.nan)


def _reversed_path(
    layout: PackLayout, node_degc: FloatArray, leaving: list[FloatArray]
) -> tuple[FloatArray, FloatArray]:
    """Return what reversed air meets layer by layer from the rear, and with what temperature it reaches the front."""
    now = node_degc.take(layout.zone_downstream[layout.piece_zone], axis=1)
    entering = np.empty((len(leaving), *now.shape))
    for number in range(len(leaving) - 1, -1, -1):
        entering[number] = now
        now = leaving[number]
    return entering, now
