"""Temperatures of the nodes: the flow mean of what enters, by hand and by an iteration of its own."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K as CP
from grillestack.physics.air_path import edge_nodes, edge_ranges
from grillestack.physics.fan_curve import derive_fan_curve
from grillestack.physics.layout import FIRST_CHAMBER, PLENUM_BESIDE_JET, PLENUM_IN_JET, LayerDuty, PackLayout
from grillestack.physics.mixing import joints, node_temperatures_degc
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, plain_pack

AMBIENT = 38.0
CHAMBER = FIRST_CHAMBER
FAN = derive_fan_curve(1.0, 0.4)


def two_zones(*, off_jet_columns: int = 0, shrouded_columns: int | None = None) -> PackLayout:
    """Return a radiator of two zones side by side, a fan behind the shroud."""
    core = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_26_MM, 0, 2, 0, 1)
    return plain_pack(
        [core], columns=2, rows=1, fan=FAN, shrouded_columns=shrouded_columns, off_jet_columns=off_jet_columns
    )


def flows(layout: PackLayout, **kinds: object) -> np.ndarray:
    ranges = edge_ranges(layout)
    mass = np.zeros((1, ranges.count))
    for kind, value in kinds.items():
        mass[0, getattr(ranges, kind)] = value
    return mass


def mixed(layout, mass, exits, *, node=None, kept=0.0, surface_heat_w=0.0):
    zones = layout.zone_area_m2.size
    return node_temperatures_degc(
        layout,
        edge_ranges(layout),
        joints(layout),
        mass,
        np.array([AMBIENT]),
        np.full((1, layout.nodes), AMBIENT) if node is None else node,
        np.asarray(exits, dtype=float)[None, :],
        np.broadcast_to(np.asarray(kept, dtype=float), (1, zones)),
        np.array([surface_heat_w]),
    )[0]


def test_fresh_air_through_all_nodes_by_hand():
    """0.3 kg/s at 80 and 0.1 at 60 °C meet in the chamber at 75 °C, and the bay is no warmer."""
    layout = two_zones()
    mass = flows(layout, openings=0.4, zones=[0.3, 0.1], fans=0.4, exit=0.4)
    found = mixed(layout, mass, [80.0, 60.0])
    assert found[PLENUM_IN_JET] == pytest.approx(AMBIENT, abs=1e-6)
    assert found[CHAMBER] == pytest.approx(75.0, abs=1e-6)
    assert found[layout.bay] == pytest.approx(75.0, abs=1e-6)


def test_heat_of_surfaces_warms_the_bay_by_its_share_of_the_flow():
    """4024 W into 0.4 kg/s of 1006 J/kgK are 10 K."""
    layout = two_zones()
    mass = flows(layout, openings=0.4, zones=[0.3, 0.1], fans=0.4, exit=0.4)
    found = mixed(layout, mass, [80.0, 60.0], surface_heat_w=4024.0)
    assert found[layout.bay] - found[CHAMBER] == pytest.approx(10.0, abs=1e-6)
    assert found[CHAMBER] == pytest.approx(75.0, abs=1e-6)


def test_the_plenum_mixes_fresh_air_reversed_zones_and_the_leak():
    """T_p1 = (m_g·T_amb + Σ|m_rev|·T_out + …)/Σm, here (0.6·38 + 0.1·90 + 0.04·70)/0.74 with 0.04 from beside the jet."""
    layout = two_zones(shrouded_columns=1)
    mass = flows(layout, openings=0.6, lateral=-0.04, zones=[0.74, -0.1], fans=0.74, leak=-0.04, exit=0.6)
    found = mixed(layout, mass, [70.0, 90.0])
    assert found[CHAMBER] == pytest.approx(70.0, abs=1e-6)
    assert found[layout.bay] == pytest.approx(70.0, abs=1e-6)
    assert found[PLENUM_BESIDE_JET] == pytest.approx(70.0, abs=1e-6)
    assert found[PLENUM_IN_JET] == pytest.approx((0.6 * 38.0 + 0.1 * 90.0 + 0.04 * 70.0) / 0.74, abs=1e-6)


def test_air_that_enters_through_the_exit_is_of_the_day():
    """The car reverses or the wind is from behind: 0.2 kg/s of 38 °C meet 0.1 of 68 °C in the bay."""
    layout = two_zones()
    mass = flows(layout, openings=-0.3, zones=[0.1, -0.4], fans=-0.3, leak=0.0, exit=-0.3)
    found = mixed(layout, mass, [68.0, 50.0])
    assert found[layout.bay] == pytest.approx(AMBIENT, abs=1e-6)
    assert found[PLENUM_IN_JET] == pytest.approx(50.0, abs=1e-6)
    assert found[CHAMBER] == pytest.approx((0.3 * 38.0 + 0.1 * 68.0) / 0.4, abs=1e-6)


def test_a_stopped_fan_feeds_its_chamber_with_bay_air():
    layout = two_zones(shrouded_columns=1)
    mass = flows(layout, openings=0.2, zones=[-0.1, 0.3], fans=-0.1, exit=0.2)
    found = mixed(layout, mass, [95.0, 85.0])
    assert found[layout.bay] == pytest.approx(85.0, abs=1e-6)
    assert found[CHAMBER] == pytest.approx(85.0, abs=1e-6)
    assert found[PLENUM_IN_JET] == pytest.approx((0.2 * 38.0 + 0.1 * 95.0) / 0.3, abs=1e-6)


def test_a_node_that_nothing_enters_has_the_temperature_of_the_day_and_takes_no_heat():
    layout = two_zones()
    found = mixed(layout, flows(layout), [80.0, 60.0], surface_heat_w=5000.0)
    assert (found == AMBIENT).all()


def test_what_the_network_s_round_off_leaves_is_no_flow():
    """A fan without zones: its chamber is not stirred by 1e-11 kg/s of bay air, now in, now out."""
    layout = two_zones(shrouded_columns=0)
    for rest in (1e-11, -1e-11):
        mass = flows(layout, openings=0.4, zones=[0.3, 0.1], fans=rest, exit=0.4)
        found = mixed(layout, mass, [80.0, 60.0])
        assert found[CHAMBER] == AMBIENT
        assert found[layout.bay] == pytest.approx(75.0, abs=1e-6)


def test_air_that_only_goes_round_stays_finite():
    """Nothing fresh comes in: without the trace of outside air the equations would have no answer."""
    layout = two_zones(shrouded_columns=1)
    mass = flows(layout, zones=[0.3, -0.3], fans=0.3)
    found = mixed(layout, mass, [90.0, 90.0], kept=1.0, node=np.full((1, layout.nodes), 60.0))
    assert np.isfinite(found).all()


def _balanced_flows(rng: np.random.Generator, layout: PackLayout) -> np.ndarray:
    """Return flows that leave no node: random ones, and the balance through fan, lateral, opening and exit."""
    ranges = edge_ranges(layout)
    tails, tips = edge_nodes(layout)
    mass = np.zeros(ranges.count)
    mass[ranges.zones] = rng.uniform(-0.03, 0.08, layout.zone_area_m2.size)
    mass[ranges.leak] = rng.uniform(-0.05, 0.05)

    def missing(node: int) -> float:
        return float(mass[tips == node].sum() - mass[tails == node].sum())

    mass[ranges.fans] = missing(CHAMBER)
    mass[ranges.lateral] = -missing(PLENUM_BESIDE_JET)
    mass[ranges.openings] = -missing(PLENUM_IN_JET)
    mass[ranges.exit] = missing(layout.bay)
    return mass[None, :]


def _by_iteration(layout, mass, exits, surface_heat_w):
    tails, tips = edge_nodes(layout)
    zones = edge_ranges(layout).zones
    node = np.full(layout.nodes, AMBIENT)
    for _ in range(4000):
        new = node.copy()
        for n in range(layout.nodes):
            total = carried = 0.0
            for edge, m in enumerate(mass[0].tolist()):
                tail, tip = (tails[edge], tips[edge]) if m >= 0.0 else (tips[edge], tails[edge])
                if tip != n or m == 0.0:
                    continue
                came = (
                    exits[edge - zones.start]
                    if zones.start <= edge < zones.stop
                    else AMBIENT
                    if tail < 0
                    else node[tail]
                )
                total += abs(m)
                carried += abs(m) * came
            if total > 0.0:
                new[n] = (carried + (surface_heat_w / CP if n == layout.bay else 0.0)) / total
        if np.abs(new - node).max() < 1e-11:
            break
        node = new
    return node


@pytest.mark.parametrize("seed", range(8))
def test_all_nodes_at_once_are_what_passing_the_air_on_and_on_leads_to(seed):
    rng = np.random.default_rng(seed)
    core = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_26_MM, 0, 4, 0, 2)
    layout = plain_pack([core], columns=4, rows=2, fan=FAN, shrouded_columns=3, off_jet_columns=2)
    mass = _balanced_flows(rng, layout)
    exits = rng.uniform(50.0, 95.0, 8)
    assert mixed(layout, mass, exits, surface_heat_w=1500.0) == pytest.approx(
        _by_iteration(layout, mass, exits, 1500.0), abs=1e-4
    )


@pytest.mark.parametrize("seed", range(4))
def test_how_far_an_exit_follows_its_inlet_changes_the_way_but_not_the_goal(seed):
    """A zone's exit is 67 °C and a fifth of its inlet; any share taken for that fifth leads to the same nodes."""
    rng = np.random.default_rng(40 + seed)
    core = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_26_MM, 0, 4, 0, 2)
    layout = plain_pack([core], columns=4, rows=2, fan=FAN, shrouded_columns=3, off_jet_columns=2)
    mass = _balanced_flows(rng, layout)
    ahead = mass[0, edge_ranges(layout).zones] >= 0.0

    def settled(kept: float) -> np.ndarray:
        node = np.full((1, layout.nodes), AMBIENT)
        for _ in range(150):
            inlet = np.where(ahead, node[0, layout.zone_upstream], node[0, layout.zone_downstream])
            node = mixed(layout, mass, 67.0 + 0.2 * inlet, node=node, kept=kept)[None, :]
        return node[0]

    assert settled(0.0) == pytest.approx(settled(0.2), abs=1e-7)
    assert settled(0.6) == pytest.approx(settled(0.2), abs=1e-7)
