"""A core by itself in an even stream of air, as on a test bench: its heat, and what conductance a measured heat asks for.

Everything is as in the pack: the same cells, rows in depth and passes, property temperatures half way between in and out.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K
from grillestack.physics.coolant import Coolant
from grillestack.physics.layout import Layer, LayerDuty, TubePass
from grillestack.physics.march import march_rows
from grillestack.physics.overall import conductance_w_per_m2_k
from grillestack.physics.tube_fluids import tube_fouling_m2_k_per_w, tube_side

FloatArray = NDArray[np.float64]

BENCH_STEPS: Final = 24
"""Cells along one pass; with four rows in depth the heat is within 1e-4 of that of ten times as many."""

MOST_OF_LIMIT_FRAC: Final = 0.999
"""Nearer to what an infinite conductance would exchange, a heat no longer tells the conductance."""

_HIGHEST_W_PER_M2_K: Final = 1e7
_LN_HIGHEST: Final = math.log(_HIGHEST_W_PER_M2_K)
_LN_LOWEST: Final = math.log(1e-6)
_STEPS_AT_MOST: Final = 80
_SETTLED: Final = 1e-12
_TUBE_PASSES: Final = 8
_AIR_PASSES: Final = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Even air and tube fluid of B measurements; every array has shape (B,).

    `flux_kg_s_m2` is air per square metre of face. Where the heat is given, the tube inlet temperature is that of the wall
    and the flow is not looked at.
    """

    flux_kg_s_m2: FloatArray
    air_in_degc: FloatArray
    tube_in_degc: FloatArray
    tube_flow_kg_s: FloatArray
    coolant: Coolant


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What measured heats say; shapes (B,).

    Attributes
    ----------
    conductance_w_per_m2_k
        Of the whole way from tube fluid to air, per square metre of face; infinite where no conductance would do.
    tube_conductance_w_per_m2_k
        Film times inner area per square metre of face, at the tube fluid's mean temperature.
    air_mean_degc, tube_mean_degc
        Half way between in and out.
    limit_w
        What an infinite conductance would exchange.
    """

    conductance_w_per_m2_k: FloatArray
    tube_conductance_w_per_m2_k: FloatArray
    air_mean_degc: FloatArray
    tube_mean_degc: FloatArray
    limit_w: FloatArray


def even_passes(pass_count: int) -> tuple[TubePass, ...]:
    """Return passes side by side over an even face: one strip each, all cells equal."""
    return tuple(
        TubePass(
            pieces=np.arange(turn * BENCH_STEPS, (turn + 1) * BENCH_STEPS),
            cell_starts=np.arange(BENCH_STEPS),
            strip_share=np.ones(1),
        )
        for turn in range(pass_count)
    )


def exchanged_w(
    layer: Layer, bench: Bench, tube_capacity_w_per_k: FloatArray, conductance_w_per_m2_k: FloatArray
) -> FloatArray:
    """Return the heat that goes over at these conductances per square metre of face; shape (B,).

    Parameters
    ----------
    layer
        A core with `even_passes`.
    tube_capacity_w_per_k
        m·cp of the tube flow; shape (B,).

    Source: [SS2003]
    """
    area_m2 = _face_m2(layer)
    air_capacity = bench.flux_kg_s_m2 * (area_m2 * AIR_HEAT_CAPACITY_J_PER_KG_K)
    if layer.duty is LayerDuty.GIVEN_HEAT:
        share = -np.expm1(-conductance_w_per_m2_k * area_m2 / air_capacity)
        return air_capacity * share * (bench.tube_in_degc - bench.air_in_degc)
    effectiveness = -np.expm1(-conductance_w_per_m2_k * area_m2 / (layer.sub_rows * air_capacity))
    count = layer.pieces.size
    warmed = np.zeros_like(air_capacity)
    now = bench.tube_in_degc
    for tube_pass in layer.passes:
        shape = (now.size, tube_pass.pieces.size)
        air = np.broadcast_to(bench.air_in_degc[:, None], shape)
        per_piece = np.broadcast_to((air_capacity * effectiveness / count)[:, None], shape)
        out, now = march_rows(
            tube_pass,
            per_piece,
            np.broadcast_to(effectiveness[:, None], shape),
            air,
            tube_capacity_w_per_k,
            now,
            layer.sub_rows,
        )
        warmed += (out - air).sum(axis=1)
    return air_capacity * warmed / count


def heat_alone_w(layer: Layer, bench: Bench) -> FloatArray:
    """Return the heat that the core gives off by itself, from its fins and tubes and what is measured of it; shape (B,)."""
    heat = np.zeros_like(bench.flux_kg_s_m2)
    resistance_factor = layer.air_side.resistance_factor_at(bench.flux_kg_s_m2)
    for _ in range(_AIR_PASSES):
        before = heat
        capacity, inside, _ = _tube_side_at(layer, bench, heat)
        per_area = conductance_w_per_m2_k(
            layer.construction,
            bench.flux_kg_s_m2,
            _air_mean_degc(layer, bench, heat),
            inside,
            tube_fouling_m2_k_per_w(layer),
            resistance_factor,
        )
        heat = exchanged_w(layer, bench, capacity, per_area * layer.air_side.conductance_factor)
        if np.all(np.abs(heat - before) <= _SETTLED * np.abs(heat)):
            break
    return heat


def conductance_from_heat(layer: Layer, bench: Bench, heat_w: FloatArray) -> Found:
    """Return the conductances at which the core gives off just these heats.

    Parameters
    ----------
    layer
        A core with `even_passes`; what is measured of it is not looked at.
    bench
        Tube fluid hotter than the air.
    heat_w
        More than zero; shape (B,).

    Notes
    -----
    The heat fixes the mean temperatures and with them all properties; what is left is one rising function of the conductance,
    solved by false position on ln(1 − Q/Q_limit), which is nearly straight in it.

    Source: [SS2003]
    """
    capacity, inside, tube_mean = _tube_side_at(layer, bench, heat_w)
    limit = exchanged_w(layer, bench, capacity, np.full_like(heat_w, _HIGHEST_W_PER_M2_K))
    possible = heat_w < MOST_OF_LIMIT_FRAC * limit
    aim = np.log(_units(np.where(possible, heat_w, 0.5 * limit), limit))

    def off(ln_conductance: FloatArray) -> FloatArray:
        missing: FloatArray = np.log(_units(exchanged_w(layer, bench, capacity, np.exp(ln_conductance)), limit)) - aim
        return missing

    solved = np.exp(_rising_root(off, np.full_like(aim, _LN_LOWEST), np.full_like(aim, _LN_HIGHEST)))
    return Found(
        conductance_w_per_m2_k=np.where(possible, solved, np.inf),
        tube_conductance_w_per_m2_k=inside,
        air_mean_degc=_air_mean_degc(layer, bench, heat_w),
        tube_mean_degc=tube_mean,
        limit_w=limit,
    )


def _face_m2(layer: Layer) -> float:
    return layer.projected_area_m2 * layer.area_factor


def _air_mean_degc(layer: Layer, bench: Bench, heat_w: FloatArray) -> FloatArray:
    return bench.air_in_degc + 0.5 * heat_w / (bench.flux_kg_s_m2 * (_face_m2(layer) * AIR_HEAT_CAPACITY_J_PER_KG_K))


def _tube_side_at(layer: Layer, bench: Bench, heat_w: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return m·cp, the film's conductance and the mean temperature that this heat leaves in the tubes."""
    mean = bench.tube_in_degc
    for _ in range(_TUBE_PASSES):
        capacity, inside = tube_side(layer, bench.tube_flow_kg_s, mean, bench.coolant)
        mean = bench.tube_in_degc - 0.5 * heat_w / capacity
    return capacity, inside, mean


def _units(heat_w: FloatArray, limit_w: FloatArray) -> FloatArray:
    """Return −ln(1 − Q/Q_limit), the number of transfer units if one stream stayed at its temperature."""
    units: FloatArray = -np.log1p(-np.minimum(heat_w / limit_w, 1.0 - 1e-15))
    return units


def _rising_root(function: Callable[[FloatArray], FloatArray], low: FloatArray, high: FloatArray) -> FloatArray:
    """Return where a rising function of each row crosses zero, by false position that halves a side that stays (Illinois)."""
    at_low, at_high = function(low), function(high)
    middle, side = low, np.zeros(low.shape)
    for _ in range(_STEPS_AT_MOST):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        value = function(middle)
        if np.all(np.abs(value) < _SETTLED):
            break
        below = value < 0.0
        # The end that stays a second time counts half, so that it cannot stay for ever.
        at_high = np.where(below, np.where(side < 0.0, 0.5 * at_high, at_high), value)
        at_low = np.where(below, value, np.where(side > 0.0, 0.5 * at_low, at_low))
        low, high = np.where(below, middle, low), np.where(below, high, middle)
        side = np.where(below, -1.0, 1.0)
    return middle
