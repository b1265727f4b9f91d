"""Heat of a core by itself and the conductance found from it, against `ht`, book formulas and what benches do."""

from __future__ import annotations

import warnings

import ht
import numpy as np
import pytest

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K
from grillestack.physics.core_alone import conductance_from_heat, exchanged_w, heat_alone_w
from grillestack.physics.layout import LayerDuty
from grillestack.physics.measured_table import measured_air_side
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.benches import CHARGE, RADIATOR, VELOCITY_M_S, alone, bench, finer

FACE_M2 = 0.7 * 0.46


def _streams(at, heat, found):
    """Return air capacity and tube capacity of the lines [W/K]."""
    air = at.flux_kg_s_m2 * FACE_M2 * AIR_HEAT_CAPACITY_J_PER_KG_K
    return air, at.tube_flow_kg_s * at.coolant.heat_capacity_j_per_kg_k(found.tube_mean_degc)


@pytest.mark.parametrize("flow_kg_s", [0.25, 1.7])
def test_effectiveness_of_the_found_conductance_in_one_row(flow_kg_s):
    """`ht.effectiveness_from_NTU`, one tube row: tube fluid mixed over the depth, air unmixed. To 1e-9."""
    at = bench(flow_kg_s=flow_kg_s)
    heat = 0.9 * heat_alone_w(RADIATOR, at)
    found = conductance_from_heat(RADIATOR, at, heat)
    for air, tube, q, per_area in zip(*_streams(at, heat, found), heat, found.conductance_w_per_m2_k, strict=True):
        least, most = min(air, tube), max(air, tube)
        kind = "crossflow, mixed Cmax" if air <= tube else "crossflow, mixed Cmin"
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            effectiveness = ht.effectiveness_from_NTU(per_area * FACE_M2 / least, least / most, subtype=kind)
        assert q == pytest.approx(effectiveness * least * 60.0, rel=1e-9)


@pytest.mark.parametrize(("core", "rows"), [(TypicalCore.ALUMINIUM_56_MM, 2), (TypicalCore.COPPER_BRASS_52_MM, 3)])
def test_effectiveness_of_rows_in_depth(core, rows):
    """`ht.temperature_effectiveness_air_cooler`, rows in one pass; its stream 1 must be read as the air. To 1e-5."""
    layer, at = finer(alone(LayerDuty.RADIATOR, core), 200), bench(flow_kg_s=1.2)
    heat = 0.9 * heat_alone_w(layer, at)
    found = conductance_from_heat(layer, at, heat)
    for air, tube, q, per_area in zip(*_streams(at, heat, found), heat, found.conductance_w_per_m2_k, strict=True):
        of_air = ht.temperature_effectiveness_air_cooler(
            R1=air / tube, NTU1=per_area * FACE_M2 / air, rows=rows, passes=1, coerce=False
        )
        assert q == pytest.approx(of_air * air * 60.0, rel=1e-5)


@pytest.mark.parametrize("passes", [2, 3])
def test_passes_side_by_side_multiply(passes):
    """1 − P is the product of those of the passes, each with its own fresh air (textbook, Shah & Sekulić, from memory)."""
    layer, at = alone(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM, passes=passes), bench()
    tube = at.tube_flow_kg_s * 3600.0
    heat = exchanged_w(layer, at, tube, np.full(5, 3500.0))
    air = at.flux_kg_s_m2 * FACE_M2 * AIR_HEAT_CAPACITY_J_PER_KG_K / passes
    one_pass = 1.0 - np.exp(-air * (1.0 - np.exp(-3500.0 * FACE_M2 / passes / air)) / tube)
    assert heat == pytest.approx(tube * 60.0 * (1.0 - (1.0 - one_pass) ** passes), rel=1e-9)


def test_heat_scales_with_the_inlet_difference_as_benches_take_it():
    """SAE J1994, from memory: heats are taken to another inlet temperature difference in proportion.

    Here at 50 and 60 K, tube flow steady, and at 120 and 140 K, charge air: within 0.5 %. What is left is the
    change of properties; near turbulence (2.4 kg/s) it is 4 to 15 %, which is why a table's temperatures matter there.
    """
    for layer, flow_kg_s, differences_k in ((RADIATOR, 0.9, (50.0, 60.0)), (CHARGE, 0.16, (120.0, 140.0))):
        per_kelvin = [
            heat_alone_w(layer, bench(difference_k=difference_k, flow_kg_s=flow_kg_s)) / difference_k
            for difference_k in differences_k
        ]
        assert per_kelvin[0] == pytest.approx(per_kelvin[1], rel=0.005)


def test_tables_at_two_differences_tell_one_air_side():
    """Same core, same bench, two inlet differences in proportion: the air side must come out nearly the same. Within 5 %."""
    heats = heat_alone_w(RADIATOR, bench(difference_k=60.0, flow_kg_s=0.9))
    one = measured_air_side(RADIATOR, bench(difference_k=60.0, flow_kg_s=0.9), VELOCITY_M_S, heats)
    two = measured_air_side(RADIATOR, bench(difference_k=50.0, flow_kg_s=0.9), VELOCITY_M_S, heats * 50.0 / 60.0)
    assert two.air_side.resistance_factor == pytest.approx(one.air_side.resistance_factor, rel=0.05)
