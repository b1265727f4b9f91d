"""The judge's air: a hand sum, balances, and two ways to the same roots."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.independent import air
from tests.independent.random_packs import random_pack
from tests.independent.solver import Judge, question_of


def _loop(*b_values: float, head: float) -> air.Ways:
    """Return ways in a row from outside through every node and out again, all quadratic; the head is in the first."""
    count = len(b_values)
    b = np.array(b_values)
    heads = np.zeros(count)
    heads[0] = head
    return air.Ways(
        np.arange(-1, count - 1),
        np.append(np.arange(count - 1), -1),
        np.full(count, air.LEAST_A),
        b,
        b,
        heads,
        count - 1,
    )


def test_ways_in_a_row_add_their_losses():
    # 90 Pa over b = 4 + 5 + 1 Pa·s²/kg²: m = √(90 / 10) = 3 kg/s; behind the first way 90 - 4·9 = 54 Pa are left.
    pressure, mass = air.solve(_loop(4.0, 5.0, 1.0, head=90.0), np.zeros(2))
    assert mass == pytest.approx([3.0] * 3, rel=1e-4)
    assert pressure == pytest.approx([54.0, 9.0], rel=1e-4)


def test_ways_side_by_side_share_the_flow_as_their_losses_tell():
    # Equal drops: m1/m2 = √(b2/b1) = 3; together as one way of b = 1/(1/√1 + 1/√9)² = 9/16.
    net = air.Ways(
        np.array([-1, 0, 0]),
        np.array([0, -1, -1]),
        np.full(3, air.LEAST_A),
        np.array([7.0 / 16.0, 1.0, 9.0]),
        np.array([7.0 / 16.0, 1.0, 9.0]),
        np.array([64.0, 0.0, 0.0]),
        1,
    )
    _, mass = air.solve(net, np.zeros(1))
    assert mass == pytest.approx([8.0, 6.0, 2.0], rel=1e-4)


def test_a_flap_lets_next_to_nothing_back():
    there = _loop(1.0, head=4.0)
    flap = air.Ways(there.tail, there.tip, there.a, there.b, there.b / air.SHUT**2, np.array([-4.0]), there.nodes)
    assert there.flow(np.zeros(0))[0] == pytest.approx([2.0], rel=1e-4)
    assert flap.flow(np.zeros(0))[0] == pytest.approx([-2.0 * air.SHUT], rel=1e-4)


@pytest.mark.parametrize("seed", [2, 4, 11, 17])
def test_roots_within_roots_are_the_root_finders(seed):
    project = random_pack(seed, 20.0)
    judge = Judge(project, 20.0)
    asked = question_of(project, project.cases[0], judge.pack)
    state = judge.cold(asked)
    net = air.ways(
        judge.pack,
        judge.sizes,
        judge.opening_loss,
        judge.losses,
        judge.fans,
        asked.day,
        state.node,
        state.zone_in,
        state.zone_out,
    )
    pressure, mass = air.solve(net, state.pressure)
    assert np.abs(net.balance(mass)).max() < 1e-9 * (1.0 + np.abs(mass).max())
    assert np.abs(mass).max() > 0.01
    assert air.nested(air.passing(net), air.live_nodes(net)) == pytest.approx(pressure, rel=1e-6, abs=1e-5)


def test_a_node_that_no_way_touches_is_left_alone():
    lone = _loop(1.0, head=1.0)
    beside = air.Ways(lone.tail, lone.tip, lone.a, lone.b, lone.b_back, lone.head, 1)
    pressure, mass = air.solve(beside, np.zeros(1))
    assert pressure == pytest.approx([0.0])
    assert mass == pytest.approx([1.0], rel=1e-3)


def test_a_way_without_area_carries_nothing():
    closed = _loop(1.0, math.inf, head=1.0)
    _, mass = air.solve(closed, np.zeros(1))
    assert mass == pytest.approx([0.0, 0.0], abs=1e-9)
