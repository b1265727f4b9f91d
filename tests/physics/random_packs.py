"""Packs and conditions drawn at random, wider than any vehicle; every draw is that of its generator's seed alone."""

from __future__ import annotations

import numpy as np

from grillestack.physics.air import pressure_at_altitude_pa
from grillestack.physics.conditions import Conditions
from grillestack.physics.fan_curve import derive_fan_curve
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

RADIATORS = [core for core in TypicalCore if "radiator" in core.value]
CHARGE_AIR_COOLERS = [core for core in TypicalCore if "charge-air" in core.value]


def _between(rng: np.random.Generator, low: float, high: float) -> float:
    """Return a number whose logarithm is evenly spread."""
    return float(np.exp(rng.uniform(np.log(low), np.log(high))))


def random_pack(rng: np.random.Generator) -> PackLayout:
    """Return up to two condensers, often a cooler for charge air, a radiator of any size at the rear or, rarely, in front."""
    columns, rows = int(rng.integers(3, 15)), int(rng.integers(2, 11))

    def span(cells: int) -> tuple[int, int]:
        if rng.random() < 0.4:
            return 0, cells
        first = int(rng.integers(0, cells))
        return first, int(rng.integers(first + 1, cells + 1))

    def core(duty: LayerDuty, kinds: list[TypicalCore], *, full: bool = False) -> PlainCore:
        left, right = (0, columns) if full else span(columns)
        low, high = (0, rows) if full else span(rows)
        kind = kinds[int(rng.integers(len(kinds)))]
        return PlainCore(duty, kind, left, right, low, high, down_flow=bool(rng.random() < 0.4))

    cores = [core(LayerDuty.GIVEN_HEAT, [TypicalCore.CONDENSER_16_MM]) for _ in range(int(rng.integers(0, 3)))]
    if rng.random() < 0.7:
        cores.append(core(LayerDuty.CHARGE_AIR, CHARGE_AIR_COOLERS))
    radiator = core(LayerDuty.RADIATOR, RADIATORS, full=bool(rng.random() < 0.6))
    cores.insert(len(cores) if rng.random() < 0.85 else 0, radiator)
    fan = None
    if rng.random() < 0.8:
        fan = derive_fan_curve(float(rng.uniform(0.3, 2.0)), float(rng.uniform(0.3, 0.5)))
    # From a stream of their own, so that all else about a seed stays as it was.
    (beside,) = rng.spawn(1)
    return plain_pack(
        cores,
        columns=columns,
        rows=rows,
        cell_m=float(rng.uniform(0.03, 0.1)),
        fan=fan,
        shrouded_columns=None if rng.random() < 0.4 else int(rng.integers(0, columns + 1)),
        off_jet_columns=0 if rng.random() < 0.4 else int(rng.integers(0, columns + 1)),
        opening_m2=_between(rng, 0.01, 0.5),
        free_frac=float(rng.uniform(0.3, 1.0)),
        leak_m2=0.0 if rng.random() < 0.3 else _between(rng, 1e-5, 0.05),
        lateral_m2=0.0 if rng.random() < 0.2 else _between(rng, 1e-4, 0.1),
        jet_leak_m2=0.0 if beside.random() < 0.5 else _between(beside, 1e-5, 0.05),
        unswept_columns=0 if beside.random() < 0.4 else int(beside.integers(1, columns + 1)),
        passage_m2=0.0 if beside.random() < 0.2 else _between(beside, 1e-4, 0.2),
        flap_m2=0.0 if beside.random() < 0.7 else _between(beside, 1e-3, 0.06),
    )


def random_conditions(rng: np.random.Generator, layout: PackLayout, size: int = 1) -> Conditions:
    """Return any question at any speed, altitude and ambient; a tenth of the tube flows is next to nothing."""

    def flow(low: float, high: float) -> np.ndarray:
        tiny = np.exp(rng.uniform(np.log(1e-7), np.log(1e-3), size))
        return np.where(rng.random(size) < 0.1, tiny, rng.uniform(low, high, size))

    def or_zero(share: float, low: float, high: float) -> np.ndarray:
        return np.where(rng.random(size) < share, 0.0, rng.uniform(low, high, size))

    given = np.zeros((size, len(layout.layers)))
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            # A condenser sheds 5 to 60 kW from a square metre of face.
            given[:, number] = or_zero(0.2, 5e3, 60e3) * layer.projected_area_m2
    return asked(
        layout,
        size=size,
        ask=rng.integers(0, 3, size),
        ambient_degc=rng.uniform(-30.0, 52.0, size),
        air_pressure_pa=np.array([pressure_at_altitude_pa(float(h)) for h in rng.uniform(0.0, 4500.0, size)]),
        road_speed_m_s=or_zero(0.3, 0.0, 45.0),
        fan_speed_ratio=or_zero(0.3, 0.2, 1.1),
        surface_heat_w=or_zero(0.5, 0.0, 4000.0),
        top_tank_degc=rng.uniform(85.0, 120.0, size),
        heat_target_w=rng.uniform(2e3, 120e3, size),
        coolant_flow_kg_s=flow(0.1, 4.0),
        charge_flow_kg_s=flow(0.02, 0.6),
        charge_inlet_degc=rng.uniform(60.0, 230.0, size),
        given_heat_w=given,
    )
