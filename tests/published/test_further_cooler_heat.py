"""A bare further cooler in even air against the effectiveness of crossed streams by `ht`."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from ht import effectiveness_from_NTU, temperature_effectiveness_air_cooler

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.heat import sweep_layers
from grillestack.physics.layout import LayerDuty
from grillestack.physics.oil import TRANSMISSION_OIL
from grillestack.physics.tube_fluids import tube_fluids
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

COLUMNS, ROWS, AIR_DEGC, INLET_DEGC = 6, 4, 35.0, 115.0


def _swept(kind: TypicalCore, air_kg_s: float, flow_kg_s: float, sub_rows: int, *, oil: bool):
    """Return heat, conductance and capacities of the cooler alone with even air."""
    layout = plain_pack(
        [PlainCore(LayerDuty.GIVEN_INLET, kind, 0, COLUMNS, 0, ROWS, sub_rows=sub_rows)], columns=COLUMNS, rows=ROWS
    )
    layout = replace(layout, layers=(replace(layout.layers[0], oil=TRANSMISSION_OIL if oil else None),))
    conditions = asked(layout, given_inlet_degc=np.array([[INLET_DEGC]]), given_flow_kg_s=np.array([[flow_kg_s]]))
    zones = layout.zone_area_m2.size
    fluids = tube_fluids(layout, conditions, conditions.ambient_degc, conditions.top_tank_degc, np.array([[105.0]]))
    sweep = sweep_layers(
        layout,
        conditions,
        fluids,
        np.full((1, zones), air_kg_s / zones),
        np.full((1, layout.nodes), AIR_DEGC),
        np.full((1, zones, 1), 60.0),
        np.full((1, 1, layout.piece_zone.size), AIR_DEGC),
    )
    return float(sweep.heat_w[0, 0]), float(sweep.conductance_w_per_k[0, 0]), float(fluids.given_capacity_w_per_k[0, 0])


@pytest.mark.parametrize("flow_kg_s", [0.02, 0.1, 0.6])
@pytest.mark.parametrize("air_kg_s", [0.1, 0.4])
@pytest.mark.parametrize("oil", [True, False], ids=["oil", "coolant"])
def test_one_row_is_epsilon_times_the_lesser_stream_times_the_difference_between_the_inlets(oil, air_kg_s, flow_kg_s):
    """One row: the liquid mixed over the depth, the air not. Q = ε·C_min·(T_i − T_a), ε by `ht`."""
    heat, conductance, tube = _swept(TypicalCore.ALUMINIUM_26_MM, air_kg_s, flow_kg_s, 1, oil=oil)
    air = air_kg_s * CP
    lesser, greater = min(air, tube), max(air, tube)
    kind = "crossflow, mixed Cmax" if tube >= air else "crossflow, mixed Cmin"
    epsilon = effectiveness_from_NTU(NTU=conductance / lesser, Cr=lesser / greater, subtype=kind)
    assert heat == pytest.approx(epsilon * lesser * (INLET_DEGC - AIR_DEGC), rel=1e-9)


@pytest.mark.parametrize("flow_kg_s", [0.05, 0.2, 0.8])
def test_oil_behind_strips_is_unmixed_over_four_rows(flow_kg_s):
    """Four rows, one pass by `ht` with air as its first stream; cells along the tubes leave 0.1 %."""
    heat, conductance, tube = _swept(TypicalCore.OIL_PLATE_36_MM, 0.3, flow_kg_s, 4, oil=True)
    air = 0.3 * CP
    p1 = temperature_effectiveness_air_cooler(R1=air / tube, NTU1=conductance / air, rows=4, passes=1, coerce=False)
    assert heat == pytest.approx(p1 * air * (INLET_DEGC - AIR_DEGC), rel=1e-3)


@pytest.mark.parametrize("flow_kg_s", [1e-6, 50.0])
def test_with_next_to_no_oil_and_with_any_amount_of_it_the_limits_hold(flow_kg_s):
    """ε → 1 of the oil's own stream where it creeps; 1 − exp(−NTU) of the air's where its temperature does not fall."""
    heat, conductance, tube = _swept(TypicalCore.OIL_PLATE_36_MM, 0.3, flow_kg_s, 1, oil=True)
    air = 0.3 * CP
    limit = min(tube, air * -np.expm1(-conductance / air)) * (INLET_DEGC - AIR_DEGC)
    assert heat == pytest.approx(limit, rel=2e-3)
