"""Packs on a plain grid, made by hand for the tests of air and heat; no geometry package involved."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.core_loss import fit_loss
from grillestack.physics.fan_curve import FanCurve
from grillestack.physics.grille_loss import opening_loss_coefficient
from grillestack.physics.layout import (
    FIRST_CHAMBER,
    PLENUM_BESIDE_JET,
    PLENUM_IN_JET,
    FanPath,
    FlapPath,
    Layer,
    LayerDuty,
    PackLayout,
    PassagePath,
    TubePass,
)
from grillestack.physics.tube_flow import Transition
from grillestack.physics.typical_cores import TypicalCore, typical_construction


@dataclass(frozen=True)
class PlainCore:
    """A core over the grid columns [left, right) and rows [low, high), tubes across or down."""

    duty: LayerDuty
    core: TypicalCore
    left: int
    right: int
    low: int
    high: int
    down_flow: bool = False
    sub_rows: int | None = None


def plain_pack(
    cores: list[PlainCore],
    *,
    columns: int = 12,
    rows: int = 8,
    cell_m: float = 0.06,
    shrouded_columns: int | None = None,
    off_jet_columns: int = 0,
    fan: FanCurve | None = None,
    opening_m2: float = 0.22,
    free_frac: float = 0.7,
    leak_m2: float = 0.004,
    lateral_m2: float = 0.02,
    jet_leak_m2: float = 0.0,
    unswept_columns: int = 0,
    passage_m2: float = 0.02,
    flap_m2: float = 0.0,
) -> PackLayout:
    """Return a pack whose every cell is one piece and one zone; shrouded from the first column on, the first of them unswept."""
    hit = np.zeros((rows, columns, len(cores)), dtype=bool)
    for number, core in enumerate(cores):
        hit[core.low : core.high, core.left : core.right, number] = True
    used = hit.any(axis=2)
    rows_of, columns_of = np.nonzero(used)
    count = rows_of.size
    index = np.full((rows, columns), -1)
    index[used] = np.arange(count)
    divided = fan is not None and (unswept_columns > 0 or flap_m2 > 0.0)
    chambers = (1 if fan else 0) + (1 if divided else 0)
    bay = FIRST_CHAMBER + chambers
    beside = FIRST_CHAMBER + 1 if divided else FIRST_CHAMBER
    limit = columns if shrouded_columns is None else shrouded_columns
    covered = np.where(columns_of < unswept_columns, beside, FIRST_CHAMBER)
    downstream = np.where(columns_of < limit, covered, bay) if fan else np.full(count, bay)
    upstream = np.where(columns_of >= columns - off_jet_columns, PLENUM_BESIDE_JET, PLENUM_IN_JET)
    radiator = next((n for n, core in enumerate(cores) if core.duty is LayerDuty.RADIATOR), None)
    layers = tuple(_layer(core, index, cell_m) for core in cores)
    return PackLayout(
        layers=layers,
        radiator=radiator,
        piece_zone=np.arange(count),
        piece_share=np.ones(count),
        zone_area_m2=np.full(count, cell_m**2),
        zone_hit=hit[rows_of, columns_of],
        zone_blocked_by=np.zeros((count, len(cores) + 1), dtype=bool),
        zone_upstream=upstream,
        zone_downstream=downstream,
        chambers=chambers,
        fans=(FanPath(curve=fan, upstream=FIRST_CHAMBER, downstream=bay),) if fan else (),
        opening_area_m2=np.array([opening_m2]),
        opening_loss=np.array([opening_loss_coefficient(free_frac)]),
        lateral_area_m2=lateral_m2 if off_jet_columns else 0.0,
        leak_area_m2=leak_m2,
        jet_leak_area_m2=jet_leak_m2,
        exit_area_m2=layers[radiator].projected_area_m2 if radiator is not None else 0.3,
        passages=(PassagePath(area_m2=passage_m2, upstream=beside, downstream=FIRST_CHAMBER),) if divided else (),
        flaps=(FlapPath(area_m2=flap_m2, upstream=beside, downstream=bay),) if fan and flap_m2 > 0.0 else (),
    )


def _layer(core: PlainCore, index: np.ndarray, cell_m: float) -> Layer:
    construction = typical_construction(core.core)
    cells = index[core.low : core.high, core.left : core.right]
    if core.down_flow:
        cells = cells.T
    strips, steps = cells.shape
    along, across = steps * cell_m, strips * cell_m
    inner = 4 if core.duty is LayerDuty.CHARGE_AIR else construction.tube_rows
    pieces = cells.ravel()
    return Layer(
        duty=core.duty,
        construction=construction,
        transition=Transition.BLENDED,
        loss=fit_loss(construction),
        loss_factor=1.0,
        projected_area_m2=along * across,
        area_factor=1.0,
        tube_length_m=along,
        tube_count=across * construction.tubes_per_m,
        sub_rows=core.sub_rows or inner,
        passes=(
            TubePass(pieces=pieces, cell_starts=np.arange(pieces.size), strip_share=np.full(strips, 1.0 / strips)),
        ),
        pieces=pieces,
    )


def asked(layout: PackLayout, *, size: int = 1, **given: object) -> Conditions:
    """Return usual conditions for `size` equal problems, with what is given in their place."""
    layers = len(layout.layers)

    def full(value: float) -> np.ndarray:
        return np.full(size, value)

    heat = np.zeros((size, layers))
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            heat[:, number] = 9000.0
    usual: dict[str, object] = {
        "ask": np.full(size, int(Ask.HEAT)),
        "present": np.ones((size, layers), dtype=bool),
        "ambient_degc": full(38.0),
        "air_pressure_pa": full(101_325.0),
        "road_speed_m_s": full(20.0),
        "ram_recovery_frac": full(0.85),
        "exit_pressure_factor": full(-0.1),
        "bay_loss_factor": full(4.0),
        "fan_speed_ratio": full(1.0),
        "surface_heat_w": full(0.0),
        "top_tank_degc": full(107.0),
        "heat_target_w": full(50_000.0),
        "coolant": ethylene_glycol(0.5),
        "coolant_flow_kg_s": full(1.7),
        "charge_flow_kg_s": full(0.15),
        "charge_inlet_degc": full(170.0),
        "charge_reference_degc": full(25.0),
        "charge_pressure_pa": full(240_000.0),
        "given_heat_w": heat,
    }
    for name, value in given.items():
        old = usual.get(name)
        usual[name] = (
            np.broadcast_to(np.asarray(value, dtype=old.dtype), old.shape).copy()
            if isinstance(old, np.ndarray) and np.ndim(value) <= old.ndim
            else value
        )
    return Conditions(**usual)  # type: ignore[arg-type]
