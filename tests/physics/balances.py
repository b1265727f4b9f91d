"""What must hold in a solved pack: sums of flows and heats, from flows and temperatures alone, and numbers that are numbers."""

from __future__ import annotations

from dataclasses import fields

import numpy as np

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.air_path import edge_nodes
from grillestack.physics.conditions import Conditions
from grillestack.physics.layout import PLENUM_IN_JET, LayerDuty, PackLayout
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


def arrays_of(solution: Solution) -> dict[str, np.ndarray]:
    """Return every array of numbers a caller may read, by name."""
    found = {}
    for part in (solution, solution.state, solution.sweep, solution.flow):
        for field in fields(part):
            value = getattr(part, field.name)
            if isinstance(value, np.ndarray) and value.dtype.kind == "f":
                found[f"{type(part).__name__}.{field.name}"] = value
    return found


def is_finite_but_for_walls(solution: Solution, layout: PackLayout) -> bool:
    """Return whether all is finite; the wall of a core whose heat is given may be infinite, or nothing without load."""
    given = [n for n, layer in enumerate(layout.layers) if layer.duty is LayerDuty.GIVEN_HEAT]
    for name, value in arrays_of(solution).items():
        if name in ("Sweep.tube_in_degc", "Sweep.tube_out_degc"):
            value = np.delete(value, given, axis=1)
        if not np.isfinite(value).all():
            return False
    return True
