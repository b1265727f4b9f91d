"""Temperatures of the nodes where air streams meet: each is the flow mean of what enters it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K
from grillestack.physics.air_path import EdgeRanges, edge_nodes
from grillestack.physics.layout import PackLayout

FloatArray = NDArray[np.float64]

# A node that nothing enters has the temperature of the day; this much outside air keeps the equations solvable.
_TRACE_KG_S = 1e-9


@dataclass(frozen=True, slots=True)
class Joints:
    """Which edge leaves and enters which node, as matrices; E edges, n nodes."""

    leaves: FloatArray
    enters: FloatArray
    forward: FloatArray
    backward: FloatArray
    from_outside: FloatArray
    to_outside: FloatArray


def joints(layout: PackLayout) -> Joints:
    """Return the joints of this pack's network."""
    tails, tips = edge_nodes(layout)
    numbers = np.arange(layout.nodes)
    leaves = (tails[:, None] == numbers).astype(float)
    enters = (tips[:, None] == numbers).astype(float)
    forward = (enters[:, :, None] * leaves[:, None, :]).reshape(tails.size, -1)
    backward = (leaves[:, :, None] * enters[:, None, :]).reshape(tails.size, -1)
    return Joints(leaves, enters, forward, backward, (tails < 0).astype(float), (tips < 0).astype(float))


def node_temperatures_degc(
    layout: PackLayout,
    ranges: EdgeRanges,
    joint: Joints,
    mass_kg_s: FloatArray,
    ambient_degc: FloatArray,
    node_degc: FloatArray,
    zone_exit_degc: FloatArray,
    zone_kept_frac: FloatArray,
    surface_heat_w: FloatArray,
) -> FloatArray:
    """Return the node temperatures that balance the enthalpy of all nodes at once; shape (B, nodes).

    A zone's exit follows its inlet node by `zone_kept_frac`; at the fixed point this share does not matter, it only
    brings recirculating air there in fewer steps.
    """
    size, nodes = node_degc.shape
    # What the round-off of the network leaves is no flow: against the trace it would stir the node of a fan without zones.
    mass_kg_s = np.where(np.abs(mass_kg_s) > _TRACE_KG_S, mass_kg_s, 0.0)
    ahead, back = np.maximum(mass_kg_s, 0.0), np.maximum(-mass_kg_s, 0.0)
    follows = np.ones_like(mass_kg_s)
    follows[:, ranges.zones] = zone_kept_frac
    added = np.zeros_like(mass_kg_s)
    source = np.where(
        mass_kg_s[:, ranges.zones] >= 0.0, node_degc[:, layout.zone_upstream], node_degc[:, layout.zone_downstream]
    )
    added[:, ranges.zones] = zone_exit_degc - zone_kept_frac * source
    inflow = ahead @ joint.enters + back @ joint.leaves
    matrix = -((ahead * follows) @ joint.forward + (back * follows) @ joint.backward).reshape(size, nodes, nodes)
    diagonal = np.arange(nodes)
    matrix[:, diagonal, diagonal] += inflow + _TRACE_KG_S
    outside = (ahead * joint.from_outside) @ joint.enters + (back * joint.to_outside) @ joint.leaves + _TRACE_KG_S
    right = (ahead * added) @ joint.enters + (back * added) @ joint.leaves + outside * ambient_degc[:, None]
    right[:, layout.bay] += np.where(
        inflow[:, layout.bay] > _TRACE_KG_S, surface_heat_w / AIR_HEAT_CAPACITY_J_PER_KG_K, 0.0
    )
    mixed: FloatArray = np.linalg.solve(matrix, right[:, :, None])[:, :, 0].astype(float)
    return mixed
