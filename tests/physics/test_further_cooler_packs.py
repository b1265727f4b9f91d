"""Packs drawn at random whose condensers are coolers of oil or coolant, at any inlet temperature and flow."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.conditions import Conditions
from grillestack.physics.core_loss import fit_loss
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.oil import TRANSMISSION_OIL
from grillestack.physics.solve import solve
from grillestack.physics.typical_cores import TypicalCore, typical_construction
from tests.physics.random_packs import random_conditions, random_pack

PROBLEMS = 4
KINDS = (TypicalCore.OIL_PLATE_36_MM, TypicalCore.ALUMINIUM_26_MM)


def drawn(seed: int) -> tuple[PackLayout, Conditions]:
    rng = np.random.default_rng(seed)
    layout = random_pack(rng)
    conditions = random_conditions(rng, layout, PROBLEMS)
    inlet, flow = (np.zeros((PROBLEMS, len(layout.layers))) for _ in range(2))
    layers = []
    for number, plain in enumerate(layout.layers):
        layer = plain
        if layer.duty is LayerDuty.GIVEN_HEAT:
            construction = typical_construction(KINDS[int(rng.integers(2))])
            layer = replace(
                layer,
                duty=LayerDuty.GIVEN_INLET,
                construction=construction,
                loss=fit_loss(construction),
                oil=TRANSMISSION_OIL if rng.random() < 0.6 else None,
                sub_rows=4 if construction.inner_fin is not None else 1,
                tube_count=layer.projected_area_m2 / layer.tube_length_m * construction.tubes_per_m,
            )
            inlet[:, number] = rng.uniform(-30.0, 170.0, PROBLEMS)
            flow[:, number] = np.exp(rng.uniform(np.log(1e-4), np.log(1.5), PROBLEMS))
        layers.append(layer)
    given = replace(
        conditions,
        given_heat_w=np.zeros_like(conditions.given_heat_w),
        given_inlet_degc=inlet,
        given_flow_kg_s=flow,
    )
    return replace(layout, layers=tuple(layers)), given


# Seeds whose pack has at least one condenser.
SEEDS = [seed for seed in range(40) if any(one.duty is LayerDuty.GIVEN_INLET for one in drawn(seed)[0].layers)][:16]


@pytest.mark.parametrize("seed", SEEDS)
def test_what_each_liquid_gives_the_air_takes_and_nothing_is_not_a_number(seed):
    layout, conditions = drawn(seed)
    solution = solve(layout, conditions)
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_INLET:
            lost = solution.sweep.tube_in_degc[:, number] - solution.sweep.tube_out_degc[:, number]
            gave = solution.fluids.given_capacity_w_per_k[:, number] * lost
            assert gave == pytest.approx(solution.sweep.heat_w[:, number], rel=1e-9, abs=1e-6)
    assert np.isfinite(solution.sweep.heat_w).all()
    assert np.isfinite(solution.sweep.tube_out_degc).all()
    assert solution.change_k[solution.converged] == pytest.approx(0.0, abs=1e-4)


def test_all_of_them_settle_or_are_seen_to_have_no_answer():
    solutions = [solve(*drawn(seed)) for seed in SEEDS]
    assert np.mean([solution.converged.mean() for solution in solutions]) > 0.7
    assert all((solution.converged | solution.hopeless).all() for solution in solutions)


@pytest.mark.parametrize("seed", SEEDS[:6])
def test_no_liquid_leaves_hotter_or_colder_than_anything_that_enters_the_core(seed):
    layout, conditions = drawn(seed)
    solution = solve(layout, conditions)
    for number, layer in enumerate(layout.layers):
        if layer.duty is not LayerDuty.GIVEN_INLET:
            continue
        hit = layout.zone_hit[:, number]
        air = solution.sweep.zone_in_degc[:, hit, number]
        inlet, outlet = solution.sweep.tube_in_degc[:, number], solution.sweep.tube_out_degc[:, number]
        low, high = np.minimum(air.min(axis=1), inlet), np.maximum(air.max(axis=1), inlet)
        assert np.all(outlet >= low - 1e-6)
        assert np.all(outlet <= high + 1e-6)
