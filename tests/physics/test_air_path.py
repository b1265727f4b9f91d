"""From temperatures to the edges of the air network: every loss by hand, and which zones are open."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3, density_kg_m3
from grillestack.physics.air_path import (
    LATERAL_LOSS,
    LEAK_LOSS,
    PASSAGE_LOSS,
    build_edges,
    edge_nodes,
    edge_ranges,
    incidence,
    open_zones,
)
from grillestack.physics.fan_curve import derive_fan_curve, fan_pressure_pa
from grillestack.physics.layout import FIRST_CHAMBER, PLENUM_BESIDE_JET, PLENUM_IN_JET, FlapPath, LayerDuty, PackLayout
from grillestack.physics.network import Edges
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

FAN = derive_fan_curve(1.0, 0.4)
PRESSURE = 101_325.0
CONDENSER = PlainCore(LayerDuty.GIVEN_HEAT, TypicalCore.CONDENSER_16_MM, 0, 2, 0, 1)
RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_26_MM, 0, 3, 0, 1)


def pack(**given: object) -> PackLayout:
    """Return three zones: condenser and radiator, the same, radiator alone; the last one beside the jet and unshrouded."""
    return plain_pack(
        [CONDENSER, RADIATOR],
        **{"columns": 3, "rows": 1, "fan": FAN, "off_jet_columns": 1, "shrouded_columns": 2, **given},
    )


def edges(layout: PackLayout, *, ambient=38.0, node=38.0, zone_in=45.0, zone_out=45.0, **given: object) -> Edges:
    conditions = asked(layout, **given)
    size = conditions.size
    shape = (size, layout.zone_area_m2.size, len(layout.layers))
    return build_edges(
        layout,
        conditions,
        edge_ranges(layout),
        incidence(layout),
        open_zones(layout, conditions),
        np.full(size, ambient),
        np.broadcast_to(np.asarray(node, dtype=float), (size, layout.nodes)),
        np.broadcast_to(np.asarray(zone_in, dtype=float), shape),
        np.broadcast_to(np.asarray(zone_out, dtype=float), shape),
    )


def loss_pa(found: Edges, edge: int, mass_kg_s: float) -> float:
    return float(found.linear[0, edge] * mass_kg_s + found.quadratic[0, edge] * mass_kg_s * abs(mass_kg_s))


def rho(degc: float) -> float:
    return float(density_kg_m3(degc, PRESSURE))


def test_edges_leave_and_enter_the_nodes_the_design_names():
    layout = pack()
    ranges, bay = edge_ranges(layout), layout.bay
    tails, tips = edge_nodes(layout)
    ends = list(zip(tails.tolist(), tips.tolist(), strict=True))
    assert ends[ranges.openings] == [(-1, PLENUM_IN_JET)]
    assert ends[ranges.lateral] == (PLENUM_IN_JET, PLENUM_BESIDE_JET)
    assert ends[ranges.zones] == [
        (PLENUM_IN_JET, FIRST_CHAMBER),
        (PLENUM_IN_JET, FIRST_CHAMBER),
        (PLENUM_BESIDE_JET, bay),
    ]
    assert ends[ranges.fans] == [(FIRST_CHAMBER, bay)]
    assert ends[ranges.passages] == []
    assert ends[ranges.jet_leak] == (PLENUM_IN_JET, bay)
    assert ends[ranges.leak] == (PLENUM_BESIDE_JET, bay)
    assert ends[ranges.exit] == (bay, -1)
    assert len(ends) == ranges.count


def test_the_incidence_of_an_edge_is_one_where_it_leaves_and_minus_one_where_it_enters():
    layout = pack()
    matrix = incidence(layout)
    tails, tips = edge_nodes(layout)
    for edge, (tail, tip) in enumerate(zip(tails, tips, strict=True)):
        expected = np.zeros(layout.nodes)
        if tail >= 0:
            expected[tail] = 1.0
        if tip >= 0:
            expected[tip] = -1.0
        assert (matrix[edge] == expected).all()
    inner = (tails >= 0) & (tips >= 0)
    assert (matrix[inner].sum(axis=1) == 0.0).all()


def test_a_core_costs_its_own_curve_at_the_density_of_that_curve():
    """At 45 °C and 101325 Pa the loss of a zone is a·v + b·v², v = m/(ρ·A), the two cores of a zone added."""
    layout = pack()
    found, ranges = edges(layout), edge_ranges(layout)
    area, v = 0.06**2, 4.0
    mass = REFERENCE_AIR_DENSITY_KG_M3 * area * v
    fits = [layer.loss for layer in layout.layers]
    alone = [fit.a_pa_s_per_m * v + fit.b_pa_s2_per_m2 * v * v for fit in fits]
    assert loss_pa(found, ranges.zones.start, mass) == pytest.approx(sum(alone), rel=1e-12)
    assert loss_pa(found, ranges.zones.start + 2, mass) == pytest.approx(alone[1], rel=1e-12)
    assert loss_pa(found, ranges.zones.start, -mass) == pytest.approx(-sum(alone), rel=1e-12)


def test_thin_air_keeps_the_linear_term_per_velocity_and_loses_in_the_square():
    """Δp = a·v + b·(ρ/ρ_ref)·v² at 70 % of the pressure: friction of creeping flow knows no density."""
    layout = pack()
    found = edges(layout, air_pressure_pa=0.7 * PRESSURE)
    fit, v = layout.layers[1].loss, 4.0
    mass = 0.7 * REFERENCE_AIR_DENSITY_KG_M3 * 0.06**2 * v
    expected = fit.a_pa_s_per_m * v + 0.7 * fit.b_pa_s2_per_m2 * v * v
    assert loss_pa(found, edge_ranges(layout).zones.start + 2, mass) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("before", "behind"), [(38.0, 80.0), (45.0, 45.0), (20.0, 110.0), (60.0, 20.0)])
def test_heated_air_costs_its_acceleration_and_cooled_air_gives_it_back(before, behind):
    """Kays & London: G_c²(1/ρ2 − 1/ρ1) with G_c = m/(σA) beside friction at the mean specific volume; from memory."""
    layout = pack()
    found = edges(layout, zone_in=before, zone_out=behind)
    layer, mass, area = layout.layers[1], 0.014, 0.06**2
    first, last = rho(before), rho(behind)
    specific_volume = 0.5 * (1.0 / first + 1.0 / last)
    v = mass * specific_volume / area
    friction = (
        layer.loss.a_pa_s_per_m * v + layer.loss.b_pa_s2_per_m2 / REFERENCE_AIR_DENSITY_KG_M3 / specific_volume * v * v
    )
    flux = mass / (layer.construction.free_flow_frac * area)
    expected = friction + flux**2 * (1.0 / last - 1.0 / first)
    assert loss_pa(found, edge_ranges(layout).zones.start + 2, mass) == pytest.approx(expected, rel=1e-12)


def test_cooled_air_never_gives_so_much_back_that_the_edge_stops_rising():
    """A core that costs next to nothing, cooled by 280 K: a tenth of its friction is kept."""
    layout = pack()
    slight = replace(layout, layers=(layout.layers[0], replace(layout.layers[1], loss_factor=0.3)))
    found = edges(slight, zone_in=300.0, zone_out=20.0)
    mean = 2.0 * rho(20.0) * rho(300.0) / (rho(20.0) + rho(300.0))
    friction = 0.3 * layout.layers[1].loss.b_pa_s2_per_m2 / (REFERENCE_AIR_DENSITY_KG_M3 * mean) / (0.06**2) ** 2
    assert found.quadratic[0, edge_ranges(layout).zones.start + 2] == pytest.approx(0.1 * friction, rel=1e-12)


def test_dirt_and_the_multiplier_of_a_core_raise_its_loss_in_proportion():
    layout = pack()
    zone = edge_ranges(layout).zones.start + 2
    clean = loss_pa(edges(layout), zone, 0.014)
    radiator = replace(layout.layers[1], loss_factor=1.5)
    dirty = replace(layout, layers=(layout.layers[0], radiator))
    assert loss_pa(edges(dirty), zone, 0.014) == pytest.approx(1.5 * clean, rel=1e-12)
    spread = edges(layout, air_loss_factor=np.array([[1.0, 1.2]]))
    assert loss_pa(spread, zone, 0.014) == pytest.approx(1.2 * clean, rel=1e-12)


def test_a_tilted_core_is_crossed_at_its_true_face_s_velocity():
    layout = pack()
    more = 1.0 / math.cos(math.radians(30.0))
    tilted = replace(layout, layers=(layout.layers[0], replace(layout.layers[1], area_factor=more)))
    fit, v = layout.layers[1].loss, 4.0
    mass = REFERENCE_AIR_DENSITY_KG_M3 * 0.06**2 * more * v
    expected = fit.a_pa_s_per_m * v + fit.b_pa_s2_per_m2 * v * v
    assert loss_pa(edges(tilted), edge_ranges(layout).zones.start + 2, mass) == pytest.approx(expected, rel=1e-12)


def test_openings_lateral_gap_leak_and_exit_cost_their_loss_times_the_dynamic_pressure_of_their_own_air():
    layout = pack(opening_m2=0.2, leak_m2=0.004, lateral_m2=0.02, jet_leak_m2=0.003)
    node = np.array([40.0, 50.0, 70.0, 80.0])
    found, ranges = edges(layout, ambient=38.0, node=node), edge_ranges(layout)

    def dynamic(degc: float, area: float, mass: float, density: float | None = None) -> float:
        density = rho(degc) if density is None else density
        return 0.5 * density * (mass / (density * area)) ** 2

    assert loss_pa(found, ranges.openings.start, 0.6) == pytest.approx(
        layout.opening_loss[0] * dynamic(38.0, 0.2, 0.6), rel=1e-12
    )
    assert loss_pa(found, ranges.lateral, 0.05) == pytest.approx(LATERAL_LOSS * dynamic(40.0, 0.02, 0.05), rel=1e-12)
    between = 0.5 * (rho(50.0) + rho(80.0))
    assert loss_pa(found, ranges.leak, 0.01) == pytest.approx(LEAK_LOSS * dynamic(0.0, 0.004, 0.01, between), rel=1e-12)
    between = 0.5 * (rho(40.0) + rho(80.0))
    assert loss_pa(found, ranges.jet_leak, 0.01) == pytest.approx(
        LEAK_LOSS * dynamic(0.0, 0.003, 0.01, between), rel=1e-12
    )
    assert loss_pa(found, ranges.exit, 0.6) == pytest.approx(4.0 * dynamic(80.0, layout.exit_area_m2, 0.6), rel=1e-12)


def test_the_road_pushes_at_the_openings_and_draws_at_the_exit():
    """½·ρ·V² at 38 °C and 30 m/s, by hand 101325/(287.055·311.15)·450 = 510.5 Pa; 85 % of it ahead, 10 % of suction behind."""
    layout = pack()
    found, ranges = edges(layout, road_speed_m_s=30.0), edge_ranges(layout)
    dynamic = 101_325.0 / (287.055 * 311.15) * 450.0
    assert dynamic == pytest.approx(510.5, abs=0.05)
    assert found.head_pa[0, ranges.openings] == pytest.approx([0.85 * dynamic], rel=1e-12)
    assert found.head_pa[0, ranges.exit] == pytest.approx(0.1 * dynamic, rel=1e-12)
    assert found.head_pa[0, ranges.zones] == pytest.approx([0.0, 0.0, 0.0])
    pushed_back = edges(layout, road_speed_m_s=30.0, exit_pressure_factor=0.2)
    assert pushed_back.head_pa[0, ranges.exit] == pytest.approx(-0.2 * dynamic, rel=1e-12)


@pytest.mark.parametrize("speed", [0.0, 0.4, 1.0, 1.2])
@pytest.mark.parametrize("flow_m3_s", [-0.3, 0.0, 0.5, 1.4])
def test_a_fan_s_edge_is_its_curve_at_the_chamber_s_density(speed, flow_m3_s):
    layout = pack()
    node = np.array([38.0, 38.0, 75.0, 75.0])
    found = edges(layout, node=node, fan_speed_ratio=speed)
    edge = edge_ranges(layout).fans.start
    adds = float(found.head_pa[0, edge]) - loss_pa(found, edge, rho(75.0) * flow_m3_s)
    assert adds == pytest.approx(float(fan_pressure_pa(FAN, flow_m3_s, speed, rho(75.0))), rel=1e-12, abs=1e-12)


def test_multipliers_of_grille_leak_and_fans_go_where_they_belong():
    layout = pack()
    ranges, one = edge_ranges(layout), np.ones(1)
    plain = edges(layout)
    grille = edges(layout, opening_loss_factor=1.3 * one)
    assert grille.quadratic[0, ranges.openings] == pytest.approx(1.3 * plain.quadratic[0, ranges.openings])
    parted = pack(unswept_columns=1)
    way = edges(parted, passage_loss_factor=0.6 * one).quadratic[0, edge_ranges(parted).passages]
    assert way == pytest.approx(0.6 * edges(parted).quadratic[0, edge_ranges(parted).passages])
    leak = edges(layout, leak_factor=2.0 * one)
    assert leak.quadratic[0, ranges.leak] == pytest.approx(plain.quadratic[0, ranges.leak] / 4.0)
    assert leak.quadratic[0, ranges.jet_leak] == pytest.approx(plain.quadratic[0, ranges.jet_leak] / 4.0)
    fan = edges(layout, fan_factor=0.9 * one)
    assert fan.head_pa[0, ranges.fans] == pytest.approx(0.9 * plain.head_pa[0, ranges.fans])


def test_a_zone_is_open_where_a_present_core_is_and_no_present_solid_stands():
    layout = pack()
    blocked = np.zeros((3, 3), dtype=bool)
    blocked[0, 0] = True
    blocked[1, 2] = True
    layout = replace(layout, zone_blocked_by=blocked)
    present = np.array([[True, True], [False, True], [True, False], [False, False]])
    found = open_zones(layout, asked(layout, size=4, present=present))
    assert found.tolist() == [
        [False, False, True],  # the condenser's tank before the first, a plate before the second
        [True, False, True],  # its tank leaves with the condenser
        [False, False, False],  # a zone that only the absent radiator fills lets no air through
        [False, False, False],
    ]


def test_gaps_of_no_area_are_shut():
    ranges = edge_ranges(pack())
    assert not edges(pack(leak_m2=0.0)).open[0, ranges.leak]
    assert not edges(pack(lateral_m2=0.0)).open[0, ranges.lateral]
    assert not edges(pack(off_jet_columns=0)).open[0, ranges.lateral]
    assert edges(pack()).open[0, [ranges.leak, ranges.lateral, ranges.exit]].all()


def test_an_absent_core_costs_nothing():
    layout = pack()
    zone = edge_ranges(layout).zones.start
    without = edges(layout, present=np.array([[False, True]]))
    assert without.linear[0, zone] == pytest.approx(edges(layout).linear[0, zone + 2], rel=1e-14)
    assert without.quadratic[0, zone] == pytest.approx(edges(layout).quadratic[0, zone + 2], rel=1e-14)


def test_each_fan_may_turn_at_its_own_speed():
    layout = pack()
    two = replace(layout, fans=(*layout.fans, *layout.fans))
    found = edges(two, fan_speed_ratio=np.array([[1.0, 0.5]]))
    heads = found.head_pa[0, edge_ranges(two).fans]
    assert heads[1] == pytest.approx(0.25 * heads[0], rel=1e-12)


def test_a_passage_leads_from_beside_the_rings_to_the_fans_and_costs_the_same_both_ways():
    layout = pack(unswept_columns=1, passage_m2=0.02)
    beside, before, bay = FIRST_CHAMBER + 1, FIRST_CHAMBER, layout.bay
    tails, tips = edge_nodes(layout)
    ranges = edge_ranges(layout)
    ends = list(zip(tails.tolist(), tips.tolist(), strict=True))
    assert bay == FIRST_CHAMBER + 2
    assert ends[ranges.passages] == [(beside, before)]
    assert ends[ranges.fans] == [(before, bay)]
    assert ends[ranges.zones] == [(PLENUM_IN_JET, beside), (PLENUM_IN_JET, before), (PLENUM_BESIDE_JET, bay)]
    found = edges(layout, node=np.array([38.0, 38.0, 80.0, 60.0, 75.0]))
    edge = ranges.passages.start
    by_hand = PASSAGE_LOSS * 0.5 * 0.2**2 / (rho(60.0) * 0.02**2)
    assert loss_pa(found, edge, 0.2) == pytest.approx(by_hand, rel=1e-12)
    assert loss_pa(found, edge, -0.2) == pytest.approx(-by_hand, rel=1e-12)
    assert found.open[0, edge]
    assert not edges(pack(unswept_columns=1, passage_m2=0.0)).open[0, edge]


def test_a_flap_is_a_sharp_gap_when_open_and_a_fiftieth_of_it_when_shut():
    layout = pack()
    flapped = replace(layout, flaps=(FlapPath(area_m2=0.03, upstream=FIRST_CHAMBER, downstream=layout.bay),))
    node = np.array([38.0, 38.0, 75.0, 75.0])
    found, ranges = edges(flapped, node=node), edge_ranges(flapped)
    edge = ranges.flaps.start
    assert loss_pa(found, edge, 0.2) == pytest.approx(LEAK_LOSS * 0.5 * 0.2**2 / (rho(75.0) * 0.03**2), rel=1e-12)
    assert found.reverse_quadratic is not None
    assert found.reverse_quadratic[0, edge] == pytest.approx(2500.0 * found.quadratic[0, edge], rel=1e-12)
    others = np.delete(np.arange(ranges.count), edge)
    assert (found.reverse_quadratic[0, others] == found.quadratic[0, others]).all()
    assert edges(layout).reverse_quadratic is None
