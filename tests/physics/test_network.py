"""Pressures and flows of the air network against hand sums, against nested roots, and at the edge of sense."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.network import LEAST_LINEAR_PA_S_PER_KG, Edges, Flow, solve_network
from tests.physics import nested_roots
from tests.physics.nested_roots import Edge, Net, Zone, random_net

LARGEST_IMBALANCE_KG_S = 1e-9


def edges_of(rows: list[Edge], ends: list[tuple[int, int]]) -> Edges:
    """Return one network: nodes are numbered from 0, outside air is -1."""
    nodes = 1 + max(max(pair) for pair in ends)
    incidence = np.zeros((len(ends), nodes))
    for edge, (tail, tip) in enumerate(ends):
        if tail >= 0:
            incidence[edge, tail] += 1.0
        if tip >= 0:
            incidence[edge, tip] -= 1.0
    return Edges(
        linear=np.array([[row.a for row in rows]]),
        quadratic=np.array([[row.b for row in rows]]),
        head_pa=np.array([[row.head for row in rows]]),
        open=np.array([[row.is_open for row in rows]]),
        incidence=incidence,
        reverse_quadratic=np.array([[row.b if row.back is None else row.back for row in rows]]),
    )


def solved(rows: list[Edge], ends: list[tuple[int, int]], start: np.ndarray | None = None) -> Flow:
    edges = edges_of(rows, ends)
    return solve_network(edges, np.zeros((1, edges.incidence.shape[1])) if start is None else start)


def solved_net(net: Net, start: np.ndarray | None = None) -> Flow:
    return solved(net.edges(), net.ends(), start)


def test_two_edges_in_series_share_the_head_as_their_sums_say():
    """By hand: (1 + 3)·2 + (2 + 4)·2² = 32, and behind the first edge 32 − 1·2 − 2·2² = 22."""
    flow = solved([Edge(1.0, 2.0, head=32.0), Edge(3.0, 4.0)], [(-1, 0), (0, -1)])
    assert flow.mass_kg_s[0] == pytest.approx([2.0, 2.0], rel=1e-9)
    assert flow.pressure_pa[0] == pytest.approx([22.0], rel=1e-9)


def test_parallel_edges_each_take_what_the_common_drop_drives():
    """By hand: 10 Pa drive 2 through 5·m, 2 through 1·m + 2·m², 1 through 9·m + 1·m²; 5 kg/s cost 3·5 + 4·5² = 115 before."""
    rows = [Edge(3.0, 4.0, head=125.0), Edge(5.0, 0.0), Edge(1.0, 2.0), Edge(9.0, 1.0)]
    flow = solved(rows, [(-1, 0), (0, -1), (0, -1), (0, -1)])
    assert flow.mass_kg_s[0] == pytest.approx([5.0, 2.0, 2.0, 1.0], rel=1e-9)
    assert flow.pressure_pa[0] == pytest.approx([10.0], rel=1e-9)


def test_quadratic_edges_in_series_add_and_in_parallel_add_as_one_over_root():
    """Two parallel edges of b are one of b/4, so 1 + 12/4 = 4 in all, and 400 Pa drive 10 kg/s; the floor of a is felt at 1e-5."""
    flow = solved([Edge(0.0, 1.0, head=400.0), Edge(0.0, 12.0), Edge(0.0, 12.0)], [(-1, 0), (0, -1), (0, -1)])
    assert flow.mass_kg_s[0] == pytest.approx([10.0, 5.0, 5.0], rel=1e-5)
    a = LEAST_LINEAR_PA_S_PER_KG
    exact = 2.0 * 400.0 / (1.5 * a + math.sqrt((1.5 * a) ** 2 + 4.0 * 4.0 * 400.0))
    assert flow.mass_kg_s[0, 0] == pytest.approx(exact, rel=1e-9)


def test_a_fan_at_standstill_draws_bay_air_forward_through_the_leak():
    """By hand, all edges linear: of 10 kg/s through the fan 4 come back through the leak and 6 through opening and exit.

    Plenum −1·6 = −6, behind the zone −6 − 2·10 = −26, bay −26 + 54 − 1·10 = 18 = 3·6, leak (−6 − 18)/6 = −4.
    """
    rows = [Edge(1.0, 0.0), Edge(2.0, 0.0), Edge(1.0, 0.0, head=54.0), Edge(6.0, 0.0), Edge(3.0, 0.0)]
    flow = solved(rows, [(-1, 0), (0, 1), (1, 2), (0, 2), (2, -1)])
    assert flow.mass_kg_s[0] == pytest.approx([6.0, 10.0, 10.0, -4.0, 6.0], rel=1e-9)
    assert flow.pressure_pa[0] == pytest.approx([-6.0, -26.0, 18.0], rel=1e-9)


def test_a_wide_mouth_before_a_narrow_gap_settles_at_the_hand_sum():
    """By hand: 704 = (25 + 5e7)·m². A full step on such an edge lands as far beyond rest as it began before it."""
    flow = solved([Edge(0.0, 25.0, head=704.0), Edge(0.0, 5e7)], [(-1, 0), (0, -1)])
    assert flow.mass_kg_s[0] == pytest.approx([math.sqrt(704.0 / (25.0 + 5e7))] * 2, rel=1e-6)
    assert flow.imbalance_kg_s[0] <= LARGEST_IMBALANCE_KG_S
    assert flow.steps < 30


@pytest.mark.parametrize("gap_cm2", [0.01, 1.0, 100.0])
def test_a_pack_behind_a_gap_of_any_width_settles(gap_cm2):
    """All air must turn sideways through the gap before it meets the pack: opening wide, gap narrow, fan on."""
    net = Net(
        openings=[Edge(0.0, 25.0, head=704.0)],
        lateral=Edge(0.0, 1.5 / (2.0 * 1.15 * (gap_cm2 * 1e-4) ** 2)),
        zones=[Zone(Edge(4000.0, 1.2e5), beside_jet=True, chamber=0) for _ in range(12)],
        fans=[(Edge(0.0, 330.0, head=60.0), 0)],
        leak=Edge(0.0, 2e5),
        exit=Edge(0.0, 1.1e4, head=80.0),
        chambers=1,
    )
    _is_what_nested_roots_say(net)


def _is_what_nested_roots_say(net: Net) -> None:
    flows, pressures = net.solved()
    flow = solved_net(net)
    largest = max(abs(m) for m in flows)
    assert flow.imbalance_kg_s[0] <= LARGEST_IMBALANCE_KG_S
    # At rest an edge answers 1e-13 Pa, the resolution of the roots, with 1e-9 kg/s.
    assert flow.mass_kg_s[0] == pytest.approx(flows, rel=1e-7, abs=1e-7 * largest + 2e-9)
    carries = np.array([edge.is_open for edge in net.edges()])
    touched = np.abs(edges_of(net.edges(), net.ends()).incidence[carries]).sum(axis=0) > 0.0
    spread = max(abs(p) for p in pressures)
    assert flow.pressure_pa[0][touched] == pytest.approx(
        np.array(pressures)[touched], rel=1e-7, abs=1e-7 * spread + 1e-9
    )


@pytest.mark.parametrize("seed", range(30))
def test_newton_and_nested_roots_find_the_same_flows(seed):
    _is_what_nested_roots_say(random_net(np.random.default_rng(seed)))


@pytest.mark.nightly
@pytest.mark.parametrize("block", range(10))
def test_newton_and_nested_roots_find_the_same_flows_over_many_networks(block):
    for seed in range(1000 + 100 * block, 1100 + 100 * block):
        _is_what_nested_roots_say(random_net(np.random.default_rng(seed)))


def test_the_random_networks_hold_reversed_flow_closed_edges_and_both_kinds_of_plenum():
    nets = [random_net(np.random.default_rng(seed)) for seed in range(30)]
    flows = [net.solved()[0] for net in nets]
    assert sum(min(each) < -1e-3 for each in flows) >= 5
    assert sum(any(zone.beside_jet for zone in net.zones) for net in nets) >= 10
    assert sum(not all(edge.is_open for edge in net.edges()) for net in nets) >= 10
    assert {net.chambers for net in nets} == {0, 1, 2}


@pytest.mark.parametrize("seed", range(12))
def test_relief_flaps_open_one_way_only_as_nested_roots_say(seed):
    """A flap from each chamber to the bay, 2500 times as costly backwards as forwards: open at speed, all but shut at idle."""
    rng = np.random.default_rng(seed)
    net = random_net(rng)
    flaps = tuple((Edge(0.0, b := rng.uniform(20.0, 2000.0), back=2500.0 * b), k) for k in range(net.chambers))
    _is_what_nested_roots_say(replace(net, flaps=flaps))


def test_a_flap_passes_fifty_times_less_backwards_than_forwards():
    """By hand: 100 = b·m², b = 4 forwards and 10 000 backwards: 5 and 0.1 kg/s."""
    for head, expected in ((100.0, 5.0), (-100.0, -0.1)):
        flow = solved([Edge(0.0, 1e-6, head=head), Edge(0.0, 4.0, back=1e4)], [(-1, 0), (0, -1)])
        assert flow.mass_kg_s[0] == pytest.approx([expected, expected], rel=1e-4)


def test_closed_edges_carry_exactly_nothing_however_hard_they_are_pressed():
    rows = [Edge(1.0, 2.0, head=1e4), Edge(1.0, 1.0, head=1e6, is_open=False), Edge(3.0, 4.0)]
    flow = solved(rows, [(-1, 0), (-1, 0), (0, -1)])
    assert flow.mass_kg_s[0, 1] == 0.0
    alone = solved([rows[0], rows[2]], [(-1, 0), (0, -1)])
    assert flow.mass_kg_s[0, [0, 2]] == pytest.approx(alone.mass_kg_s[0], rel=1e-9)


def test_a_node_that_no_open_edge_touches_keeps_its_pressure():
    rows = [Edge(1.0, 2.0, head=32.0), Edge(3.0, 4.0), Edge(1.0, 1.0, is_open=False)]
    flow = solved(rows, [(-1, 0), (0, -1), (0, 1)], np.array([[0.0, 7.5]]))
    assert flow.pressure_pa[0] == pytest.approx([22.0, 7.5], rel=1e-9)
    assert flow.mass_kg_s[0, 2] == 0.0


def test_nothing_drives_nothing():
    net = random_net(np.random.default_rng(5))
    still = [Edge(edge.a, edge.b, 0.0, edge.is_open) for edge in net.edges()]
    flow = solved(still, net.ends())
    assert not flow.mass_kg_s.any()
    assert not flow.pressure_pa.any()


@pytest.mark.parametrize("seed", range(8))
def test_any_start_leads_to_the_same_flow(seed):
    net = random_net(np.random.default_rng(seed))
    cold = solved_net(net)
    rng = np.random.default_rng(100 + seed)
    for far_pa in (10.0, 1e3, 1e5):
        start = rng.uniform(-far_pa, far_pa, cold.pressure_pa.shape)
        other = solved_net(net, start)
        assert other.imbalance_kg_s[0] <= LARGEST_IMBALANCE_KG_S
        assert other.mass_kg_s == pytest.approx(cold.mass_kg_s, rel=1e-8, abs=1e-9)


def test_a_network_solved_in_a_batch_is_the_network_solved_alone():
    rng = np.random.default_rng(3)
    net = random_net(rng)
    one = edges_of(net.edges(), net.ends())
    count = 6
    factor = rng.uniform(0.3, 3.0, (count, one.linear.shape[1]))
    batch = Edges(
        one.linear * factor, one.quadratic * factor, one.head_pa * factor, one.open.repeat(count, 0), one.incidence
    )
    together = solve_network(batch, np.zeros((count, one.incidence.shape[1])))
    for row in range(count):
        mine = Edges(
            *(part[row : row + 1] for part in (batch.linear, batch.quadratic, batch.head_pa, batch.open)), one.incidence
        )
        alone = solve_network(mine, np.zeros((1, one.incidence.shape[1])))
        assert together.mass_kg_s[row] == pytest.approx(alone.mass_kg_s[0], rel=1e-9, abs=1e-10)


def test_more_ram_never_means_less_air_through_opening_and_exit():
    """A theorem of monotone networks: more head in one edge sends no less through that edge."""
    for seed in range(10):
        net = random_net(np.random.default_rng(seed))
        rows = net.edges()
        before = solved(rows, net.ends()).mass_kg_s[0, 0]
        pushed = [Edge(rows[0].a, rows[0].b, rows[0].head + 50.0, rows[0].is_open), *rows[1:]]
        assert solved(pushed, net.ends()).mass_kg_s[0, 0] >= before - 1e-10


@pytest.mark.parametrize("seed", range(40))
def test_absurd_coefficients_still_give_finite_flows(seed):
    rng = np.random.default_rng(seed)
    net = random_net(rng)

    def absurd() -> float:
        return float(10.0 ** rng.uniform(-12.0, 12.0))

    rows = [Edge(absurd(), absurd(), rng.uniform(-1e4, 1e4), edge.is_open) for edge in net.edges()]
    flow = solved(rows, net.ends())
    assert np.isfinite(flow.mass_kg_s).all()
    assert np.isfinite(flow.pressure_pa).all()


def test_the_floor_of_the_linear_term_is_the_one_the_nested_roots_use():
    assert LEAST_LINEAR_PA_S_PER_KG == nested_roots.LEAST_LINEAR
