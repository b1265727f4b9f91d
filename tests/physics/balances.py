"""What must balance in a solved pack, summed from flows and temperatures alone."""

from __future__ import annotations

import numpy as np

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.air_path import edge_nodes
from grillestack.physics.conditions import Conditions
from grillestack.physics.layout import PLENUM_IN_JET, PackLayout
from grillestack.physics.solve import Solution


def heat_gained_w(solution: Solution, conditions: Conditions, row: int) -> float:
    """Return what all cores and the surfaces in the bay give the air."""
    return float(solution.sweep.heat_w[row].sum() + conditions.surface_heat_w[row])


def heat_carried_out_w(layout: PackLayout, solution: Solution, row: int) -> float:
    """Return what the air takes along through the exit, and back through the openings, above the air of the day."""
    mass, node = solution.flow.mass_kg_s[row], solution.state.node_degc[row]
    ambient = float(solution.ambient_degc[row])
    leaving = max(float(mass[solution.ranges.exit]), 0.0) * (node[layout.bay] - ambient)
    back = -np.minimum(mass[solution.ranges.openings], 0.0).sum() * (node[PLENUM_IN_JET] - ambient)
    return float(CP * (leaving + back))


def worst_imbalance_kg_s(layout: PackLayout, solution: Solution) -> float:
    """Return the largest difference between what enters and what leaves a node, summed edge by edge."""
    tails, tips = edge_nodes(layout)
    worst = 0.0
    for mass in solution.flow.mass_kg_s:
        for node in range(layout.nodes):
            worst = max(worst, abs(float(mass[tips == node].sum() - mass[tails == node].sum())))
    return worst
