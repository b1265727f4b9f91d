"""The common fixed point of air and heat: flows, temperatures and the one unknown of each problem."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.acceleration import Mixer
from grillestack.physics.air_path import EdgeRanges, build_edges, edge_ranges, incidence, open_zones
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC, Sweep, sweep_layers
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.mixing import Joints, joints, node_temperatures_degc
from grillestack.physics.network import Flow, solve_network
from grillestack.physics.no_way_out import heat_cannot_leave
from grillestack.physics.tube_fluids import TubeFluids, tube_fluids

FloatArray = NDArray[np.float64]

TOLERANCE_K = 1e-4
_PASSES_AT_MOST = 80
# So often in a row a node at its bound must want beyond it until that counts as: there is no answer within bounds.
_HELD_IN_VAIN = 4
_LONGEST_STEP_K = 150.0
_FAR_OFF_K = 5.0
# By then the flows are what they are, and a problem with an answer is settled or near it.
_ASK_WHETHER_ANY = 8
# Mixing begins when the first passes have settled what flows where.
_MIX_AFTER = 3


@dataclass(frozen=True, slots=True)
class State:
    """Where a fixed point stands, and where the next one may start; B problems, Z zones, C layers, N pieces."""

    ambient_degc: FloatArray
    top_tank_degc: FloatArray
    node_degc: FloatArray
    zone_in_degc: FloatArray
    zone_out_degc: FloatArray
    tube_mean_degc: FloatArray
    reversed_in_degc: FloatArray
    pressure_pa: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """The solved batch.

    Attributes
    ----------
    state
        Temperatures and pressures at the fixed point.
    sweep, flow, fluids
        The last sweep, air flow and tube sides; they belong together.
    ambient_degc, top_tank_degc, heat_w
        The radiator's; shape (B,). Without radiator the heat is 0.
    change_k
        How far the last pass still moved any node, tube or unknown, or all zones together weighed by their air; shape (B,).
    converged
        Whether that was below the tolerance; shape (B,).
    hopeless
        Where it was seen before the passes ran out that there is no answer within bounds; shape (B,).
    passes
        Passes taken.
    """

    state: State
    sweep: Sweep
    flow: Flow
    fluids: TubeFluids
    ranges: EdgeRanges
    zones_open: NDArray[np.bool_]
    ambient_degc: FloatArray
    top_tank_degc: FloatArray
    heat_w: FloatArray
    change_k: FloatArray
    converged: NDArray[np.bool_]
    hopeless: NDArray[np.bool_]
    passes: int


def cold_state(layout: PackLayout, conditions: Conditions) -> State:
    """Return a start that knows nothing but the inputs."""
    size, zones, count = conditions.size, layout.zone_area_m2.size, len(layout.layers)
    ambient = conditions.ambient_degc
    zone = np.broadcast_to(ambient[:, None, None], (size, zones, count))
    mean = np.broadcast_to(ambient[:, None], (size, count)).copy()
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.RADIATOR:
            mean[:, number] = conditions.top_tank_degc - 5.0
        elif layer.duty is LayerDuty.CHARGE_AIR:
            mean[:, number] = 0.5 * (ambient + conditions.charge_inlet_degc)
    return State(
        ambient_degc=ambient,
        top_tank_degc=conditions.top_tank_degc,
        node_degc=np.broadcast_to(ambient[:, None], (size, layout.nodes)),
        zone_in_degc=zone,
        zone_out_degc=zone + 15.0,
        tube_mean_degc=mean,
        reversed_in_degc=np.broadcast_to(ambient[None, :, None], (count, size, layout.piece_zone.size)),
        pressure_pa=np.zeros((size, layout.nodes)),
    )


def solve(
    layout: PackLayout, conditions: Conditions, start: State | None = None, tolerance_k: float = TOLERANCE_K
) -> Solution:
    """Return the fixed point of air and heat of every problem.

    Parameters
    ----------
    layout, conditions
        The pack and what is asked of it.
    start
        A state of the same shapes to start from, of these or of other conditions; the result does not depend on it beyond the
        tolerance.

    Notes
    -----
    One pass: densities from the temperatures of the pass before, flows, conductances, one sweep through the layers, mixing of
    the nodes, then one step of each problem's unknown. Never NaN; what has no answer ends at its bound and is not converged
    or carries no heat, which the caller must read.
    """
    ranges, matrix, joint = edge_ranges(layout), incidence(layout), joints(layout)
    zones_open = open_zones(layout, conditions)
    state = cold_state(layout, conditions) if start is None else _with_what_is_given(start, conditions)
    passes = 0
    mixer = Mixer()
    in_vain = np.zeros(conditions.size, dtype=np.intp)
    hopeless = np.zeros(conditions.size, dtype=np.bool_)
    while True:
        passes += 1
        arrived, sweep, flow, fluids = _one_pass(layout, conditions, ranges, matrix, joint, zones_open, state)
        before, after = _as_rows(state), _as_rows(arrived)
        weight = _weights(layout, flow.mass_kg_s[:, ranges.zones], arrived)
        moved = np.abs(after - before) * weight
        settled = 2 + layout.nodes + len(layout.layers)
        change = np.maximum(moved[:, :settled].max(axis=1), moved[:, settled:].sum(axis=1))
        in_vain = np.where(_is_held_in_vain(state, arrived), in_vain + 1, 0)
        hopeless |= in_vain >= _HELD_IN_VAIN
        done = bool(((change < tolerance_k) | hopeless).all()) or passes >= _PASSES_AT_MOST
        if done or passes >= _ASK_WHETHER_ANY:
            hopeless |= heat_cannot_leave(
                layout, conditions, ranges, flow.mass_kg_s, fluids, sweep, change > _FAR_OFF_K
            )
            done = done or bool(((change < tolerance_k) | hopeless).all())
        if done:
            state = arrived
            break
        begin = mixer.next_start(before, after, weight) if passes > _MIX_AFTER else after
        # Air that goes round warms by as much in pass after pass: of that the fit of past passes makes a way back.
        back = ((begin - before) * (after - before) * weight).sum(axis=1) < 0.0
        begin = np.where((back & (change > _FAR_OFF_K))[:, None], after, begin)
        # From far off its nodes leap by thousands of kelvins; nothing else is as straight as that.
        longest = np.where(np.arange(before.shape[1]) < settled, _LONGEST_STEP_K, np.inf)
        begin = before + np.minimum(np.maximum(begin - before, -longest), longest)
        begin = np.where(hopeless[:, None], after, begin)
        state = _from_rows(_held(begin, after, settled + 2 * arrived.zone_in_degc[0].size), arrived)
    heat = np.zeros(conditions.size) if layout.radiator is None else sweep.heat_w[:, layout.radiator]
    return Solution(
        state=state,
        sweep=sweep,
        flow=flow,
        fluids=fluids,
        ranges=ranges,
        zones_open=zones_open,
        ambient_degc=state.ambient_degc,
        top_tank_degc=state.top_tank_degc,
        heat_w=heat,
        change_k=change,
        converged=(change < tolerance_k) & ~hopeless,
        hopeless=hopeless,
        passes=passes,
    )


def _is_held_in_vain(begun: State, arrived: State) -> NDArray[np.bool_]:
    """Return whether a node begun at a bound wants beyond one; shape (B,)."""
    stands = (begun.node_degc >= HIGHEST_DEGC) | (begun.node_degc <= LOWEST_DEGC)
    wants = (arrived.node_degc > HIGHEST_DEGC) | (arrived.node_degc < LOWEST_DEGC - 1.0)
    vain: NDArray[np.bool_] = np.asarray(stands.any(axis=1) & wants.any(axis=1), dtype=np.bool_)
    return vain


def _with_what_is_given(start: State, conditions: Conditions) -> State:
    """Return the start with these conditions' ambient and top tank temperature wherever they are not the unknown."""
    return replace(
        start,
        ambient_degc=np.where(conditions.ask == Ask.AMBIENT, start.ambient_degc, conditions.ambient_degc),
        top_tank_degc=np.where(conditions.ask == Ask.TOP_TANK, start.top_tank_degc, conditions.top_tank_degc),
    )


def _one_pass(
    layout: PackLayout,
    conditions: Conditions,
    ranges: EdgeRanges,
    matrix: FloatArray,
    joint: Joints,
    zones_open: NDArray[np.bool_],
    old: State,
) -> tuple[State, Sweep, Flow, TubeFluids]:
    edges = build_edges(
        layout,
        conditions,
        ranges,
        matrix,
        zones_open,
        old.ambient_degc,
        old.node_degc,
        old.zone_in_degc,
        old.zone_out_degc,
    )
    flow = solve_network(edges, old.pressure_pa)
    fluids = tube_fluids(layout, conditions, old.ambient_degc, old.top_tank_degc, old.tube_mean_degc)
    sweep = sweep_layers(
        layout,
        conditions,
        fluids,
        flow.mass_kg_s[:, ranges.zones],
        old.node_degc,
        0.5 * (old.zone_in_degc + old.zone_out_degc),
        old.reversed_in_degc,
    )
    ambient, top = _step_unknowns(layout, conditions, old, sweep)
    node = node_temperatures_degc(
        layout,
        ranges,
        joint,
        flow.mass_kg_s,
        ambient,
        old.node_degc,
        sweep.zone_exit_degc,
        sweep.zone_kept_frac,
        conditions.surface_heat_w,
    )
    # In the zones and tubes these temperatures only set properties, which hold no further either.
    tube_mean = np.clip(np.nan_to_num(0.5 * (sweep.tube_in_degc + sweep.tube_out_degc)), LOWEST_DEGC, HIGHEST_DEGC)
    state = State(
        ambient,
        top,
        node,
        np.clip(sweep.zone_in_degc, LOWEST_DEGC, HIGHEST_DEGC),
        np.clip(sweep.zone_out_degc, LOWEST_DEGC, HIGHEST_DEGC),
        tube_mean,
        sweep.reversed_in_degc,
        flow.pressure_pa,
    )
    return state, sweep, flow, fluids


def _as_rows(state: State) -> FloatArray:
    """Return the temperatures of a state, one row per problem."""
    size = state.ambient_degc.size
    return np.concatenate(
        [
            state.ambient_degc[:, None],
            state.top_tank_degc[:, None],
            state.node_degc,
            state.tube_mean_degc,
            state.zone_in_degc.reshape(size, -1),
            state.zone_out_degc.reshape(size, -1),
            state.reversed_in_degc.transpose(1, 0, 2).reshape(size, -1),
        ],
        axis=1,
    )


def _held(rows: FloatArray, arrived: FloatArray, count: int) -> FloatArray:
    """Return the start of the next pass within its bounds; a node that wants beyond them never settles, and that is said.

    What reversed air brings stands behind the first `count` columns. It carries heat, so it may be as hot as any that arrived.
    """
    hottest = arrived[:, count:].max(axis=1, initial=HIGHEST_DEGC, keepdims=True)
    return np.concatenate(
        [np.clip(rows[:, :count], LOWEST_DEGC, HIGHEST_DEGC), np.clip(rows[:, count:], LOWEST_DEGC, hottest)], axis=1
    )


def _weights(layout: PackLayout, zone_mass_kg_s: FloatArray, state: State) -> FloatArray:
    """Return how much each temperature of a state counts: nodes and unknowns whole, zones by their share of the air.

    What reversed air brings shows in its zones one pass later, so it counts nothing of its own; but it is mixed with them,
    or the mixed start would not belong together.
    """
    size = zone_mass_kg_s.shape[0]
    through = np.abs(zone_mass_kg_s)
    share = through / np.maximum(through.sum(axis=1, keepdims=True), 1e-12)
    by_layer = share[:, :, None] * layout.zone_hit
    layers = state.tube_mean_degc.shape[1]
    whole = np.ones((size, 2 + state.node_degc.shape[1] + layers))
    spread = by_layer.reshape(size, -1)
    carried_along = np.zeros((size, state.reversed_in_degc[:, 0].size))
    return np.concatenate([whole, spread, spread, carried_along], axis=1)


def _from_rows(rows: FloatArray, like: State) -> State:
    """Return the state with these temperatures and the pressures of the other."""
    nodes = like.node_degc.shape[1]
    layers = like.tube_mean_degc.shape[1]
    zones = like.zone_in_degc[0].size
    parts = np.split(rows, np.cumsum([1, 1, nodes, layers, zones, zones]), axis=1)
    count, size, pieces = like.reversed_in_degc.shape
    shape = like.zone_in_degc.shape
    return State(
        parts[0][:, 0],
        parts[1][:, 0],
        parts[2],
        parts[4].reshape(shape),
        parts[5].reshape(shape),
        parts[3],
        parts[6].reshape(size, count, pieces).transpose(1, 0, 2),
        like.pressure_pa,
    )


def _step_unknowns(
    layout: PackLayout, conditions: Conditions, old: State, sweep: Sweep
) -> tuple[FloatArray, FloatArray]:
    ambient, top = old.ambient_degc, old.top_tank_degc
    if layout.radiator is None:
        return ambient, top
    top = np.where(conditions.ask == Ask.TOP_TANK, sweep.tube_in_degc[:, layout.radiator], top)
    # The heat falls by about the radiator's response for each kelvin of ambient; without response there is no way to step.
    excess = sweep.heat_w[:, layout.radiator] - conditions.heat_target_w
    step = np.where(
        sweep.radiator_response_w_per_k > 1e-6, excess / np.maximum(sweep.radiator_response_w_per_k, 1e-6), -200.0
    )
    moved = np.clip(ambient + np.clip(step, -60.0, 60.0), LOWEST_DEGC, conditions.top_tank_degc)
    return np.where(conditions.ask == Ask.AMBIENT, moved, ambient), top
