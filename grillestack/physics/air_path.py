"""From a pack's temperatures to the edges of its air network.

Order of the edges: openings, lateral, zones, fans, flaps, passages, leaks (in the jet, beside it), exit. Nodes: see `layout`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3, density_kg_m3
from grillestack.physics.conditions import Conditions
from grillestack.physics.layout import PLENUM_BESIDE_JET, PLENUM_IN_JET, PackLayout
from grillestack.physics.network import Edges

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

# Air that turns sideways ahead of the pack or under a shroud: into a passage with sharp edges 0.5, out of it 1.0. Air through a
# sharp gap: an order of magnitude. [IDELCHIK]
LATERAL_LOSS = 1.5
PASSAGE_LOSS = LATERAL_LOSS
LEAK_LOSS = 2.6
# A shut flap still leaks this share of its area, from memory.
SHUT_FLAP_FRAC = 0.02
_LEAST_AREA_M2 = 1e-9
# The acceleration term of cooled air may eat friction in the formula, never more than this share of it.
_LEAST_FRICTION_KEPT_FRAC = 0.1


@dataclass(frozen=True, slots=True)
class EdgeRanges:
    """Where each kind of edge stands in the arrays."""

    openings: slice
    lateral: int
    zones: slice
    fans: slice
    flaps: slice
    passages: slice
    jet_leak: int
    leak: int
    exit: int
    count: int


def edge_ranges(layout: PackLayout) -> EdgeRanges:
    """Return the places of the edges of this pack."""
    openings = layout.opening_area_m2.size
    zones = layout.zone_area_m2.size
    fans = len(layout.fans)
    first_zone = openings + 1
    first_fan = first_zone + zones
    first_flap = first_fan + fans
    first_passage = first_flap + len(layout.flaps)
    jet_leak = first_passage + len(layout.passages)
    return EdgeRanges(
        openings=slice(0, openings),
        lateral=openings,
        zones=slice(first_zone, first_fan),
        fans=slice(first_fan, first_flap),
        flaps=slice(first_flap, first_passage),
        passages=slice(first_passage, jet_leak),
        jet_leak=jet_leak,
        leak=jet_leak + 1,
        exit=jet_leak + 2,
        count=jet_leak + 3,
    )


def edge_nodes(layout: PackLayout) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the nodes each edge leaves and enters; −1 is outside air."""
    openings = layout.opening_area_m2.size
    leaves = [
        *[-1] * openings,
        PLENUM_IN_JET,
        *layout.zone_upstream.tolist(),
        *[fan.upstream for fan in layout.fans],
        *[flap.upstream for flap in layout.flaps],
        *[passage.upstream for passage in layout.passages],
        PLENUM_IN_JET,
        PLENUM_BESIDE_JET,
        layout.bay,
    ]
    enters = [
        *[PLENUM_IN_JET] * openings,
        PLENUM_BESIDE_JET,
        *layout.zone_downstream.tolist(),
        *[fan.downstream for fan in layout.fans],
        *[flap.downstream for flap in layout.flaps],
        *[passage.downstream for passage in layout.passages],
        layout.bay,
        layout.bay,
        -1,
    ]
    return np.array(leaves, dtype=np.intp), np.array(enters, dtype=np.intp)


def incidence(layout: PackLayout) -> FloatArray:
    """Return +1 where an edge leaves a node and −1 where it enters; shape (E, nodes)."""
    leaves, enters = edge_nodes(layout)
    matrix = np.zeros((leaves.size, layout.nodes))
    for edge, (tail, tip) in enumerate(zip(leaves.tolist(), enters.tolist(), strict=True)):
        if tail >= 0:
            matrix[edge, tail] += 1.0
        if tip >= 0:
            matrix[edge, tip] -= 1.0
    return matrix


def open_zones(layout: PackLayout, conditions: Conditions) -> BoolArray:
    """Return which zones carry air in which problem; shape (B, Z)."""
    present = conditions.present
    crossed = (present[:, None, :] & layout.zone_hit[None, :, :]).any(axis=2)
    blockers = np.concatenate([present, np.ones((present.shape[0], 1), dtype=bool)], axis=1)
    blocked = (blockers[:, None, :] & layout.zone_blocked_by[None, :, :]).any(axis=2)
    opened: BoolArray = np.logical_and(crossed, ~blocked)
    return opened


def build_edges(
    layout: PackLayout,
    conditions: Conditions,
    ranges: EdgeRanges,
    matrix: FloatArray,
    zones_open: BoolArray,
    ambient_degc: FloatArray,
    node_degc: FloatArray,
    zone_in_degc: FloatArray,
    zone_out_degc: FloatArray,
) -> Edges:
    """Return the edges at these temperatures.

    Parameters
    ----------
    ambient_degc, node_degc
        Shapes (B,) and (B, nodes).
    zone_in_degc, zone_out_degc
        Air into and out of every layer of every zone in the direction it flows; shape (B, Z, C).
    """
    pressure = conditions.air_pressure_pa
    size = conditions.size
    linear = np.zeros((size, ranges.count))
    quadratic = np.zeros((size, ranges.count))
    head = np.zeros((size, ranges.count))
    is_open = np.ones((size, ranges.count), dtype=bool)
    ambient_density = density_kg_m3(ambient_degc, pressure)
    node_density = density_kg_m3(node_degc, pressure[:, None])
    dynamic_pa = 0.5 * ambient_density * conditions.road_speed_m_s**2

    opening_area = np.maximum(layout.opening_area_m2, _LEAST_AREA_M2)
    is_open[:, ranges.openings] = layout.opening_area_m2 > _LEAST_AREA_M2
    quadratic[:, ranges.openings] = layout.opening_loss / (2.0 * ambient_density[:, None] * opening_area**2)
    if conditions.opening_loss_factor is not None:
        quadratic[:, ranges.openings] *= conditions.opening_loss_factor[:, None]
    head[:, ranges.openings] = (conditions.ram_recovery_frac * dynamic_pa)[:, None]

    quadratic[:, ranges.lateral] = LATERAL_LOSS / (
        2.0 * node_density[:, PLENUM_IN_JET] * max(layout.lateral_area_m2, _LEAST_AREA_M2) ** 2
    )
    is_open[:, ranges.lateral] = layout.lateral_area_m2 > _LEAST_AREA_M2

    linear[:, ranges.zones], quadratic[:, ranges.zones] = _zone_resistance(
        layout, conditions, zone_in_degc, zone_out_degc
    )
    is_open[:, ranges.zones] = zones_open

    _fan_edges(layout, conditions, ranges, node_density, linear, quadratic, head)

    for number, passage in enumerate(layout.passages):
        edge, area = ranges.passages.start + number, max(passage.area_m2, _LEAST_AREA_M2)
        quadratic[:, edge] = PASSAGE_LOSS / (2.0 * node_density[:, passage.upstream] * area**2)
        is_open[:, edge] = passage.area_m2 > _LEAST_AREA_M2
    if conditions.passage_loss_factor is not None:
        quadratic[:, ranges.passages] *= conditions.passage_loss_factor[:, None]

    for edge, area_m2, plenum in (
        (ranges.jet_leak, layout.jet_leak_area_m2, PLENUM_IN_JET),
        (ranges.leak, layout.leak_area_m2, PLENUM_BESIDE_JET),
    ):
        density = 0.5 * (node_density[:, plenum] + node_density[:, layout.bay])
        quadratic[:, edge] = LEAK_LOSS / (2.0 * density * max(area_m2, _LEAST_AREA_M2) ** 2)
        if conditions.leak_factor is not None:
            quadratic[:, edge] /= np.maximum(conditions.leak_factor, 1e-6) ** 2
        is_open[:, edge] = area_m2 > _LEAST_AREA_M2

    quadratic[:, ranges.exit] = conditions.bay_loss_factor / (
        2.0 * node_density[:, layout.bay] * max(layout.exit_area_m2, _LEAST_AREA_M2) ** 2
    )
    head[:, ranges.exit] = -conditions.exit_pressure_factor * dynamic_pa
    # Last, for it copies the losses of all edges.
    reverse = _flap_edges(layout, ranges, node_density, quadratic)
    return Edges(linear, quadratic, head, is_open, matrix, reverse)


def _fan_edges(
    layout: PackLayout,
    conditions: Conditions,
    ranges: EdgeRanges,
    node_density: FloatArray,
    linear: FloatArray,
    quadratic: FloatArray,
    head: FloatArray,
) -> None:
    speed = conditions.fan_speed_ratio
    for number, fan in enumerate(layout.fans):
        edge = ranges.fans.start + number
        ratio = speed if speed.ndim == 1 else speed[:, number]
        density = node_density[:, fan.upstream]
        relative = density / fan.curve.reference_density_kg_m3
        head[:, edge] = relative * fan.curve.c0_pa * ratio**2
        if conditions.fan_factor is not None:
            head[:, edge] *= conditions.fan_factor
        linear[:, edge] = relative * fan.curve.c1_pa_s_per_m3 * ratio / density
        quadratic[:, edge] = relative * fan.curve.c2_pa_s2_per_m6 / density**2


def _flap_edges(
    layout: PackLayout, ranges: EdgeRanges, node_density: FloatArray, quadratic: FloatArray
) -> FloatArray | None:
    """Set the flaps' losses; return the losses of all edges backwards, or nothing where both ways are alike."""
    if not layout.flaps:
        return None
    for number, flap in enumerate(layout.flaps):
        area = max(flap.area_m2, _LEAST_AREA_M2)
        quadratic[:, ranges.flaps.start + number] = LEAK_LOSS / (2.0 * node_density[:, flap.upstream] * area**2)
    reverse = quadratic.copy()
    reverse[:, ranges.flaps] /= SHUT_FLAP_FRAC**2
    return reverse


def _zone_resistance(
    layout: PackLayout,
    conditions: Conditions,
    zone_in_degc: FloatArray,
    zone_out_degc: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Return the series of each zone's cores: a core's a·v keeps its a, its b goes with density."""
    pressure = conditions.air_pressure_pa[:, None, None]
    a, b, factor, free = layout.layer_losses
    true_area = layout.zone_area_m2[:, None] * factor
    density_in = density_kg_m3(zone_in_degc, pressure)
    density_out = density_kg_m3(zone_out_degc, pressure)
    density = 2.0 * density_in * density_out / (density_in + density_out)
    friction = b / (REFERENCE_AIR_DENSITY_KG_M3 * density)
    acceleration = (1.0 / density_out - 1.0 / density_in) / free**2
    per_area = np.maximum(friction + acceleration, _LEAST_FRICTION_KEPT_FRAC * friction)
    hit = conditions.present[:, None, :] & layout.zone_hit
    shares = np.where(hit, 1.0, 0.0)
    if conditions.air_loss_factor is not None:
        shares = shares * conditions.air_loss_factor[:, None, :]
    linear = (shares * a / (density * true_area)).sum(axis=2)
    quadratic = (shares * per_area / true_area**2).sum(axis=2)
    return linear, quadratic
