"""The drag step as one would first write it: pairwise polygons, one problem after the other, one `ht` call per cell.

Same geometry, same fins and tubes, same problems as the program; nothing batched, nothing carried over from the step before. It exists to be timed, and its heats are held near the program's so that it times the same work.
"""

from __future__ import annotations

import math
import warnings

import ht
import numpy as np

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import LARGEST_CELL_MM
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import batch_of
from grillestack.geometry.overlay import build_overlay
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from grillestack.physics.air_path import build_edges, edge_ranges, incidence, open_zones
from grillestack.physics.layout import LayerDuty
from grillestack.physics.overall import conductance_w_per_m2_k
from grillestack.physics.solve import cold_state
from grillestack.physics.tube_fluids import tube_fluids
from tests.geometry.pairwise import judged_faces

# From a cold start the program itself needs 12 to 15 passes; these loops start cold each time.
PASSES = 12
# The top tank and the hottest day are roots: a plain root finder asks about this often.
ROOT_STEPS = 4


def drag_step(project: Project) -> list[float]:
    """Return the heat at the limit of each duty case [W], having done the work of one whole drag step."""
    judged_faces(project, 7.0)
    stack = cores(project)
    overlay = build_overlay(project, 7.0, LARGEST_CELL_MM)
    laid_out = lay_out(project, overlay, stack)
    further = [None if core.role is CoreRole.CONDENSER else 0.0 for core in stack]
    batch = batch_of(project, laid_out.layout, asked_cases(project), further)
    size = batch.conditions.size
    heats = [_one_problem(laid_out.layout, batch.conditions, row) for row in range(size)]
    for row in (*range(size // 4), *range(3 * size // 4, size)):
        for _ in range(ROOT_STEPS):
            _one_problem(laid_out.layout, batch.conditions, row)
    return heats[size // 4 : size // 2]


def _one_problem(layout, conditions, row: int) -> float:
    ranges, matrix = edge_ranges(layout), incidence(layout)
    zones_open = open_zones(layout, conditions)
    state = cold_state(layout, conditions)
    node = [float(value) for value in state.node_degc[row]]
    heat = 0.0
    pressures = np.zeros(layout.nodes)
    for _ in range(PASSES):
        edges = build_edges(
            layout, conditions, ranges, matrix, zones_open, state.ambient_degc, state.node_degc,
            state.zone_in_degc, state.zone_out_degc,
        )  # fmt: skip
        pressures, mass = _network(edges, matrix, row, pressures)
        fluids = tube_fluids(layout, conditions, state.ambient_degc, state.top_tank_degc, state.tube_mean_degc)
        air = [node[layout.zone_upstream[zone]] for zone in layout.piece_zone]
        for number, layer in enumerate(layout.layers):
            if not conditions.present[row, number]:
                continue
            gained = _layer(layout, conditions, fluids, row, number, layer, mass[ranges.zones], air)
            if layer.duty is LayerDuty.RADIATOR:
                heat = gained
    return heat


def _network(edges, matrix, row: int, pressures):
    count, nodes = matrix.shape
    for _ in range(40):
        mass = [0.0] * count
        jacobian = np.zeros((nodes, nodes))
        imbalance = np.zeros(nodes)
        for edge in range(count):
            if not edges.open[row, edge]:
                continue
            drive = sum(matrix[edge, n] * pressures[n] for n in range(nodes)) + edges.head_pa[row, edge]
            a, b = max(edges.linear[row, edge], 1e-4), edges.quadratic[row, edge]
            root = math.sqrt(a * a + 4.0 * b * abs(drive))
            mass[edge] = 2.0 * drive / (a + root)
            for n in range(nodes):
                imbalance[n] -= matrix[edge, n] * mass[edge]
                for k in range(nodes):
                    jacobian[n, k] += matrix[edge, n] * matrix[edge, k] / root
        if max(abs(imbalance)) < 1e-9:
            break
        for n in range(nodes):
            if jacobian[n, n] == 0.0:
                jacobian[n, n] = 1.0
        pressures = pressures + np.linalg.solve(jacobian, imbalance)
    return pressures, mass


def _layer(layout, conditions, fluids, row: int, number: int, layer, zone_mass, air) -> float:
    capacities = [abs(zone_mass[zone]) * 1006.0 for zone in range(len(zone_mass))]
    per_area = {}
    for zone in range(len(zone_mass)):
        if layout.zone_hit[zone, number]:
            flux = abs(zone_mass[zone]) / (layout.zone_area_m2[zone] * layer.area_factor)
            film = fluids.conductance_w_per_m2_k[row, number]
            per_area[zone] = float(conductance_w_per_m2_k(layer.construction, flux, 50.0, film))
    if layer.duty is LayerDuty.GIVEN_HEAT:
        return _given_heat(layout, conditions.given_heat_w[row, number], per_area, capacities, layer, air)
    radiator = layer.duty is LayerDuty.RADIATOR
    capacity = float((fluids.coolant_capacity_w_per_k if radiator else fluids.charge_capacity_w_per_k)[row])
    inlet = float((fluids.top_tank_degc if radiator else fluids.charge_in_degc)[row])
    gained = 0.0
    for tube_pass in layer.passes:
        ends = [*tube_pass.cell_starts[1:].tolist(), tube_pass.pieces.size]
        for _ in range(layer.sub_rows):
            for strip in range(tube_pass.strips):
                tube = capacity * tube_pass.strip_share[strip] / layer.sub_rows
                now = inlet
                for step in range(tube_pass.steps):
                    cell = strip * tube_pass.steps + step
                    for piece in tube_pass.pieces[tube_pass.cell_starts[cell] : ends[cell]].tolist():
                        zone = layout.piece_zone[piece]
                        c_air = capacities[zone] * layout.piece_share[piece]
                        if c_air <= 0.0:
                            continue
                        area = layout.zone_area_m2[zone] * layout.piece_share[piece] * layer.area_factor
                        conductance = per_area[zone] * area / layer.sub_rows
                        least, most = min(c_air, tube), max(c_air, tube)
                        kind = "crossflow, mixed Cmax" if c_air <= tube else "crossflow, mixed Cmin"
                        with warnings.catch_warnings():
                            warnings.simplefilter("ignore")
                            share = ht.effectiveness_from_NTU(conductance / least, least / most, subtype=kind)
                        moved = share * least * (now - air[piece])
                        now -= moved / tube
                        air[piece] += moved / c_air
                        gained += moved
    return gained


def _given_heat(layout, heat_w: float, per_area, capacities, layer, air) -> float:
    exchanges, carried = {}, 0.0
    for piece in layer.pieces.tolist():
        zone = layout.piece_zone[piece]
        c_air = capacities[zone] * layout.piece_share[piece]
        area = layout.zone_area_m2[zone] * layout.piece_share[piece] * layer.area_factor
        share = 1.0 - math.exp(-per_area[zone] * area / c_air) if c_air > 0.0 else 0.0
        exchanges[piece] = (share, c_air * share)
        carried += c_air * share * air[piece]
    total = sum(exchange for _, exchange in exchanges.values())
    if heat_w <= 0.0 or total <= 0.0:
        return 0.0
    wall = (heat_w + carried) / total
    for piece, (share, _) in exchanges.items():
        air[piece] += share * (wall - air[piece])
    return heat_w
