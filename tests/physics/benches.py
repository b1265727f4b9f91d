"""Cores by themselves on a test bench, made by hand; no document involved."""

from __future__ import annotations

import dataclasses

import numpy as np

from grillestack.physics.air import STANDARD_PRESSURE_PA, density_kg_m3
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.core_alone import Bench, even_passes
from grillestack.physics.core_loss import fit_loss
from grillestack.physics.layout import Layer, LayerDuty, TubePass
from grillestack.physics.tube_flow import Transition
from grillestack.physics.typical_cores import TypicalCore, typical_construction

AIR_DEGC = 25.0
AIR_KG_M3 = float(density_kg_m3(AIR_DEGC, STANDARD_PRESSURE_PA))
VELOCITY_M_S = np.array([2.0, 3.5, 5.0, 7.0, 10.0])


def alone(
    duty: LayerDuty, core: TypicalCore, *, passes: int = 1, width_m: float = 0.7, height_m: float = 0.46
) -> Layer:
    """Return a typical core with its tubes across."""
    construction = typical_construction(core)
    side_by_side = even_passes(passes)
    rows = construction.tube_rows * (4 if construction.inner_fin else 1)
    return Layer(
        duty=duty,
        construction=construction,
        transition=Transition.BLENDED,
        loss=fit_loss(construction),
        loss_factor=1.0,
        projected_area_m2=width_m * height_m,
        area_factor=1.0,
        tube_length_m=width_m * passes,
        tube_count=height_m * construction.tubes_per_m / passes,
        sub_rows=1 if duty is LayerDuty.GIVEN_HEAT else rows,
        passes=side_by_side,
        pieces=np.concatenate([one.pieces for one in side_by_side]),
    )


def finer(layer: Layer, steps: int) -> Layer:
    """Return the same core of one pass with that many cells."""
    one = TubePass(pieces=np.arange(steps), cell_starts=np.arange(steps), strip_share=np.ones(1))
    return dataclasses.replace(layer, passes=(one,), pieces=one.pieces)


def bench(velocity_m_s=VELOCITY_M_S, *, difference_k: float = 60.0, flow_kg_s: float = 1.7) -> Bench:
    """Return air of 25 °C at these velocities, the tube inlet hotter by the difference."""
    velocity = np.atleast_1d(np.asarray(velocity_m_s, dtype=float))
    same = np.ones_like(velocity)
    return Bench(
        flux_kg_s_m2=velocity * AIR_KG_M3,
        air_in_degc=AIR_DEGC * same,
        tube_in_degc=(AIR_DEGC + difference_k) * same,
        tube_flow_kg_s=flow_kg_s * same,
        coolant=ethylene_glycol(0.5),
    )


RADIATOR = alone(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM)
DEEP = alone(LayerDuty.RADIATOR, TypicalCore.COPPER_BRASS_70_MM, passes=2)
CHARGE = alone(LayerDuty.CHARGE_AIR, TypicalCore.BAR_AND_PLATE_64_MM, width_m=0.56, height_m=0.23)
CONDENSER = alone(LayerDuty.GIVEN_HEAT, TypicalCore.CONDENSER_16_MM)
BENCHES = {
    "radiator": (RADIATOR, bench()),
    "four rows, two passes": (DEEP, bench(difference_k=70.0, flow_kg_s=2.4)),
    "charge-air cooler": (CHARGE, bench(difference_k=140.0, flow_kg_s=0.16)),
    "condenser": (CONDENSER, bench(difference_k=30.0)),
}
