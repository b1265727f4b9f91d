"""From the overlay's pieces in mm to the layout that air and heat are solved on, in SI."""

from __future__ import annotations

import dataclasses
import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.chambers import Chambers
from grillestack.assess.core_construction import CoreGround, core_ground
from grillestack.assess.defaults import DIRTY_CORE_FACTOR, default_value
from grillestack.assess.further_coolers import is_marched
from grillestack.assess.seals import NO_LEAK, leads_nowhere, leak_areas
from grillestack.geometry.overlay import SUPPORT_PLATE, Overlay
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project
from grillestack.physics.grille_loss import opening_loss_coefficient
from grillestack.physics.layout import (
    PLENUM_BESIDE_JET,
    PLENUM_IN_JET,
    Layer,
    LayerDuty,
    PackLayout,
    TubePass,
)
from grillestack.units.convert import m2_from_mm2, m_from_mm

IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]
FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ideal:
    """What of the real nose and pack is left out, for asking what each of them costs.

    `open_nose`: an opening as large as the radiator's core, without grille, obstruction or support plate before it.
    `no_tanks`: tanks, side plates and frames of other cores let air by. `full_shroud`: every uncovered piece of the radiator
    leads to the largest chamber, and a shroud's air reaches its fans without loss. `no_leak`: no gap at the edges and nothing open beside the pack.
    """

    open_nose: bool = False
    no_tanks: bool = False
    full_shroud: bool = False
    no_leak: bool = False


AS_IT_STANDS = Ideal()


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A layout with the names that lead back to the document."""

    layout: PackLayout
    core_ids: tuple[str, ...]
    fan_ids: tuple[str, ...]
    zone_in_jet: BoolArray
    node_names: tuple[str, ...]


def lay_out(project: Project, overlay: Overlay, stack: Sequence[Core], ideal: Ideal = AS_IT_STANDS) -> LaidOut:
    """Return the layout of this pack; `stack` holds the cores in the overlay's order."""
    chambers = Chambers(project, overlay, undivided=ideal.full_shroud)
    off_jet: BoolArray = np.asarray((overlay.off_opening & overlay.core_hit).any(axis=1))
    if ideal.open_nose:
        off_jet = np.zeros_like(off_jet)
    upstream = np.where(off_jet, PLENUM_BESIDE_JET, PLENUM_IN_JET)
    upstream = np.where(overlay.pusher >= 0, chambers.of_fan[overlay.pusher], upstream)
    downstream = chambers.behind_pieces()
    radiator = next((n for n, core in enumerate(stack) if core.role is CoreRole.RADIATOR), None)
    if ideal.full_shroud and radiator is not None:
        uncovered = overlay.core_hit[:, radiator] & (downstream == chambers.bay)
        downstream = np.where(uncovered, chambers.largest(overlay, downstream), downstream)
    blocked_by = _blockers(project, overlay, stack, radiator, downstream == chambers.bay)
    if ideal.no_tanks:
        blocked_by[:, : len(stack)] = False
    if ideal.open_nose and SUPPORT_PLATE in overlay.solid_parts:
        blocked_by[:, len(stack)] &= ~overlay.blocked_by[:, overlay.solid_parts.index(SUPPORT_PLATE)]
    keys = np.column_stack([overlay.core_hit, blocked_by, upstream, downstream]).astype(np.int64)
    first, zone = _groups(keys)
    area_mm2: FloatArray = np.bincount(zone, weights=overlay.area_mm2, minlength=first.size).astype(float)
    area_m2 = m2_from_mm2(area_mm2)
    paths = chambers.paths(project)
    layers = _layers(project, overlay, stack, radiator)
    core_m2 = layers[radiator].projected_area_m2 * layers[radiator].area_factor if radiator is not None else 1.0
    leaks = NO_LEAK if ideal.no_leak else leak_areas(project, overlay)
    layout = PackLayout(
        layers=layers,
        radiator=radiator,
        piece_zone=zone,
        piece_share=m2_from_mm2(overlay.area_mm2) / area_m2[zone],
        zone_area_m2=area_m2,
        zone_hit=overlay.core_hit[first],
        zone_blocked_by=blocked_by[first],
        zone_upstream=upstream[first],
        zone_downstream=downstream[first],
        chambers=chambers.count,
        fans=tuple(path for _, path in paths),
        opening_area_m2=np.array([core_m2]) if ideal.open_nose else _opening_areas_m2(overlay),
        opening_loss=np.zeros(1) if ideal.open_nose else _opening_losses(project),
        lateral_area_m2=m_from_mm(overlay.measures.jet_border_mm) * m_from_mm(overlay.measures.clear_depth_mm),
        leak_area_m2=leaks.beside_jet_m2,
        jet_leak_area_m2=leaks.in_jet_m2,
        exit_area_m2=core_m2,
        flaps=chambers.flaps(project),
        passages=chambers.passages(project),
    )
    return LaidOut(
        layout=layout,
        core_ids=overlay.core_ids,
        fan_ids=tuple(fan_id for fan_id, _ in paths),
        zone_in_jet=~off_jet[first],
        node_names=chambers.names,
    )


def _groups(keys: NDArray[np.int64]) -> tuple[IntArray, IntArray]:
    """Return the first row of each group of equal rows, and the group of every row."""
    if keys.shape[0] == 0:
        return np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp)
    weights = np.ones(keys.shape[1], dtype=np.int64)
    spans = keys.max(axis=0) + 1
    weights[1:] = np.cumprod(spans[:-1])
    if math.prod(int(span) for span in spans) < 2**62:
        _, first, inverse = np.unique(keys @ weights, return_index=True, return_inverse=True)
    else:
        _, first, inverse = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    return first.astype(np.intp), inverse.reshape(-1).astype(np.intp)


@functools.lru_cache(maxsize=256)
def _opening_loss(free_area_frac: float | None) -> float:
    share = default_value("free_area_frac") if free_area_frac is None else free_area_frac
    return float(opening_loss_coefficient(share))


def _opening_areas_m2(overlay: Overlay) -> FloatArray:
    return m2_from_mm2(np.array(overlay.measures.opening_area_mm2, dtype=float))


def _opening_losses(project: Project) -> FloatArray:
    return np.array([_opening_loss(opening.free_area_frac) for opening in project.nose.openings], dtype=float)


def _blockers(
    project: Project, overlay: Overlay, stack: Sequence[Core], radiator: int | None, to_bay: BoolArray
) -> BoolArray:
    """Return whose solids block each piece: a column per core, then what is always there."""
    blocked = np.zeros((overlay.n_pieces, len(stack) + 1), dtype=bool)
    number_of = {core.id: number for number, core in enumerate(stack)}
    for column, owner in enumerate(overlay.solid_parts):
        blocked[:, len(stack) if owner == SUPPORT_PLATE else number_of[owner]] |= overlay.blocked_by[:, column]
    blocked[:, len(stack)] |= to_bay & leads_nowhere(project, overlay, radiator)
    return blocked


def _layers(project: Project, overlay: Overlay, stack: Sequence[Core], radiator: int | None) -> tuple[Layer, ...]:
    charge = next((n for n, core in enumerate(stack) if core.role is CoreRole.CHARGE_AIR_COOLER), None)
    dirt = DIRTY_CORE_FACTOR if project.environment.dirty_core else 1.0
    layers = []
    for number, core in enumerate(stack):
        duty = LayerDuty.GIVEN_HEAT
        if number == radiator:
            duty = LayerDuty.RADIATOR
        elif number == charge:
            duty = LayerDuty.CHARGE_AIR
        elif is_marched(core):
            duty = LayerDuty.GIVEN_INLET
        layers.append(_layer(overlay, number, core, duty, core_ground(core), dirt))
    return tuple(layers)


def _layer(overlay: Overlay, number: int, core: Core, duty: LayerDuty, ground: CoreGround, loss_factor: float) -> Layer:
    alone, cos_tilt = ground.alone, overlay.core_cos_tilt_frac[number]
    return dataclasses.replace(
        alone,
        duty=duty,
        loss_factor=loss_factor,
        projected_area_m2=alone.projected_area_m2 * cos_tilt,
        area_factor=1.0 / cos_tilt,
        sub_rows=1 if duty is LayerDuty.GIVEN_HEAT else alone.sub_rows,
        passes=_passes(overlay, number, core),
        pieces=np.flatnonzero(overlay.core_hit[:, number]),
    )


def _passes(overlay: Overlay, number: int, core: Core) -> tuple[TubePass, ...]:
    """Return the passes in the order of the tube fluid; without a stated inlet it enters at the low end, low side first."""
    pose = project_part(core)
    y0, y1, z0, z1 = (int(edge) for edge in overlay.core_spans[number])
    pieces = np.flatnonzero(overlay.core_hit[:, number])
    column, row = overlay.iy[pieces] - y0, overlay.iz[pieces] - z0
    widths, heights = np.diff(overlay.y_lines_mm[y0 : y1 + 1]), np.diff(overlay.z_lines_mm[z0 : z1 + 1])
    step, strip, breadths, steps = (
        (column, row, heights, y1 - y0) if pose.tube_axis == "y" else (row, column, widths, z1 - z0)
    )
    if pose.inlet_at_low_side is False:
        strip, breadths = breadths.size - 1 - strip, breadths[::-1]
    middle = np.cumsum(breadths) - 0.5 * breadths
    pass_of_strip = np.minimum((middle / breadths.sum() * core.passes).astype(int), core.passes - 1)
    backwards = pose.inlet_at_low_end is False
    passes = []
    for turn in range(core.passes):
        strips = np.flatnonzero(pass_of_strip == turn)
        if strips.size == 0:
            continue
        mine = (strip >= strips[0]) & (strip <= strips[-1])
        along = steps - 1 - step[mine] if backwards else step[mine]
        cell = (strip[mine] - strips[0]) * steps + along
        order = np.argsort(cell, kind="stable")
        starts = np.searchsorted(cell[order], np.arange(strips.size * steps))
        passes.append(
            TubePass(
                pieces=pieces[mine][order],
                cell_starts=starts,
                strip_share=breadths[strips] / breadths[strips].sum(),
            )
        )
        backwards = not backwards
    return tuple(passes)
