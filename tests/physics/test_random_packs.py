"""Any pack under any conditions: never a number that is none, air and heat in balance, and settled wherever an answer is."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC
from grillestack.physics.layout import PLENUM_BESIDE_JET, PackLayout
from grillestack.physics.solve import Solution, solve
from tests.physics.balances import heat_carried_out_w, heat_gained_w, is_finite_but_for_walls, worst_imbalance_kg_s
from tests.physics.random_packs import random_conditions, random_pack

NORMAL = range(60)
_DEAD_AIR_KG_S = 1e-6


def _drawn(seed: int, size: int = 1) -> tuple[PackLayout, Conditions]:
    rng = np.random.default_rng(seed)
    layout = random_pack(rng)
    return layout, random_conditions(rng, layout, size)


def _stands_at_a_bound(solution: Solution, conditions: Conditions, row: int) -> bool:
    """Return whether there is no answer: a node would be beyond 400 °C, or the unknown ends where its search ends."""
    ask = conditions.ask[row]
    return bool(
        solution.state.node_degc[row].max() >= HIGHEST_DEGC
        or (ask == Ask.TOP_TANK and solution.top_tank_degc[row] >= HIGHEST_DEGC)
        or (ask == Ask.AMBIENT and solution.ambient_degc[row] <= LOWEST_DEGC)
    )


def _held(seed: int, size: int = 1) -> tuple[int, list[tuple[int, int]]]:
    """Check one draw; return how many of its problems have an answer, and which of those say that they did not settle."""
    layout, conditions = _drawn(seed, size)
    solution = solve(layout, conditions)
    assert is_finite_but_for_walls(solution, layout), seed
    assert worst_imbalance_kg_s(layout, solution) <= 1e-9, seed
    answered = [row for row in range(size) if not _stands_at_a_bound(solution, conditions, row)]
    for row in np.flatnonzero(solution.converged).tolist():
        if abs(solution.flow.mass_kg_s[row, solution.ranges.exit]) > _DEAD_AIR_KG_S:
            moved = np.abs(solution.sweep.heat_w[row]).sum() + conditions.surface_heat_w[row]
            gained = heat_gained_w(solution, conditions, row)
            carried = heat_carried_out_w(layout, solution, row)
            assert carried == pytest.approx(gained, abs=1e-3 * moved + 0.5), (seed, row)
        if row in answered and conditions.ask[row] != Ask.HEAT:
            assert solution.heat_w[row] == pytest.approx(conditions.heat_target_w[row], rel=1e-3), (seed, row)
    return len(answered), [(seed, row) for row in answered if not solution.converged[row]]


@pytest.mark.parametrize("seed", NORMAL)
def test_a_random_pack_is_in_balance_and_settled_where_it_has_an_answer(seed):
    _, unsettled = _held(seed)
    assert unsettled == []


@pytest.mark.nightly
@pytest.mark.parametrize(("first", "draws", "size"), [(10_000, 2200, 1), (50_000, 300, 8)])
def test_of_many_random_packs_with_an_answer_less_than_one_in_a_thousand_says_it_did_not_settle(first, draws, size):
    """Those left hold a node that next to no air enters and whose own warmth drives that air."""
    found = [_held(seed, size) for seed in range(first, first + draws)]
    answers, unsettled = sum(each[0] for each in found), [pair for each in found for pair in each[1]]
    assert answers > 0.4 * draws * size
    assert len(unsettled) < 1e-3 * answers, unsettled


def test_the_draws_are_as_wide_as_they_should_be():
    drawn = [_drawn(seed) for seed in NORMAL]
    layouts, conditions = [pair[0] for pair in drawn], [pair[1] for pair in drawn]
    off_jet = [float((layout.zone_upstream == PLENUM_BESIDE_JET).mean()) for layout in layouts]
    unshrouded = [float((layout.zone_downstream == layout.bay).mean()) for layout in layouts if layout.fans]
    assert sum(share > 0.0 for share in off_jet) >= 20
    assert sum(share > 0.0 for share in unshrouded) >= 20
    assert sum(not layout.fans for layout in layouts) >= 5
    assert {len(layout.layers) for layout in layouts} == {1, 2, 3, 4}
    assert {int(c.ask[0]) for c in conditions} == {0, 1, 2}
    assert sum(float(c.fan_speed_ratio[0]) == 0.0 for c in conditions) >= 10
    assert sum(float(c.road_speed_m_s[0]) == 0.0 for c in conditions) >= 10
    assert min(float(c.air_pressure_pa[0]) for c in conditions) < 65_000.0
    assert sum(float(c.coolant_flow_kg_s[0]) < 1e-3 for c in conditions) >= 2
    answers = [_held(seed)[0] for seed in NORMAL]
    assert sum(answers) >= 25
    reversed_zones = [(solve(*pair).flow.mass_kg_s < 0.0).any() for pair in drawn]
    assert sum(reversed_zones) >= 8
