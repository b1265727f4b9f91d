"""The way under a shroud to its fans: its loss beside published coefficients, and a whole loop worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import fluids
import numpy as np
import pytest

from grillestack.physics.air import density_kg_m3
from grillestack.physics.air_path import LATERAL_LOSS, PASSAGE_LOSS, build_edges, edge_ranges, incidence, open_zones
from grillestack.physics.core_loss import LossFit
from grillestack.physics.fan_curve import FanCurve
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.network import Flow, solve_network
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM, 0, 6, 0, 4)
FAN = FanCurve(c0_pa=250.0, c1_pa_s_per_m3=0.0, c2_pa_s2_per_m6=120.0, reference_density_kg_m3=1.2)
WARM_DEGC = 40.0


def still_air(layout: PackLayout, **given: object) -> Flow:
    """Return the flow at standstill with all air at 40 °C."""
    conditions = asked(layout, ambient_degc=WARM_DEGC, road_speed_m_s=0.0, **given)
    shape = (1, layout.zone_area_m2.size, len(layout.layers))
    even = np.full(shape, WARM_DEGC)
    edges = build_edges(
        layout,
        conditions,
        edge_ranges(layout),
        incidence(layout),
        open_zones(layout, conditions),
        np.full(1, WARM_DEGC),
        np.full((1, layout.nodes), WARM_DEGC),
        even,
        even,
    )
    return solve_network(edges, np.zeros((1, layout.nodes)))


def divided(passage_m2: float, unswept_columns: int = 3, **given: object) -> PackLayout:
    """Return a radiator of 4 × 6 cells of 60 mm under a shroud with one fan, nothing leaking; losses quadratic only."""
    usual = {"columns": 6, "rows": 4, "leak_m2": 0.0, "fan": FAN, "unswept_columns": unswept_columns}
    layout = plain_pack([RADIATOR], **{**usual, "passage_m2": passage_m2, **given})
    core = replace(layout.layers[0], loss=LossFit(a_pa_s_per_m=0.0, b_pa_s2_per_m2=6.0, max_error_frac=0.0))
    return replace(layout, layers=(core,))


def test_the_loss_is_a_sharp_entry_and_a_free_exit_as_published():
    """`fluids`: 0.5 into a sharp-edged pipe by four of its sources (Idelchik's among them), 0.57 by Rennels; 1 out of it."""
    exit_loss = fluids.exit_normal()
    for method in ("Idelchik", "Blevins", "Crane", "Swamee"):
        assert fluids.entrance_sharp(method=method) + exit_loss == pytest.approx(PASSAGE_LOSS, rel=1e-12)
    assert fluids.entrance_sharp(method="Rennels") + exit_loss == pytest.approx(PASSAGE_LOSS, rel=0.05)
    assert LATERAL_LOSS == PASSAGE_LOSS


def test_the_passage_drops_its_loss_times_the_dynamic_pressure_in_it():
    layout = divided(0.012)
    flow, ranges = still_air(layout), edge_ranges(layout)
    (passage,) = layout.passages
    mass = float(flow.mass_kg_s[0, ranges.passages][0])
    rho = float(density_kg_m3(WARM_DEGC, 101_325.0))
    velocity = mass / (rho * 0.012)
    drop = float(flow.pressure_pa[0, passage.upstream] - flow.pressure_pa[0, passage.downstream])
    assert mass > 0.05
    # The floor of 1e-4 Pa·s/kg under every edge is all that is added.
    assert drop == pytest.approx(fluids.dP_from_K(K=1.5, rho=rho, V=velocity), abs=1.1e-4 * mass)


def test_a_whole_loop_worked_by_hand():
    """Half the face swept, half beside the ring; opening and exit lossless but for the bay's ζ = 4 on the core.

    Both halves of A = 12 · 0.06² m² share one drop: b'·m1² = (b' + c)·m2² with b' = b/(ρ45·ρ·A²) and c = 1.5/(2ρa²), so
    m2/m1 = √(b'/(b' + c)); the fan gives ρ/1.2·(250 - 120·(m/ρ)²) against b'·m1² and the opening's and the bay's loss.
    """
    layout = divided(0.02)
    rho, half_m2, passage_m2 = float(density_kg_m3(WARM_DEGC, 101_325.0)), 12 * 0.06**2, 0.02
    through = still_air(layout)
    mass = through.mass_kg_s[0, edge_ranges(layout).zones]
    swept, beside = float(mass[layout.zone_downstream == 2].sum()), float(mass[layout.zone_downstream == 3].sum())
    # Core losses are quoted in air of 45 °C.
    quoted = 101_325.0 / (287.05 * 318.15)
    core = 6.0 / (quoted * rho * half_m2**2)
    way = 1.5 / (2 * rho * passage_m2**2)
    share = math.sqrt(core / (core + way))
    assert beside / swept == pytest.approx(share, rel=1e-4)
    around = layout.opening_loss[0] / (2 * rho * 0.22**2) + 4.0 / (2 * rho * layout.exit_area_m2**2)
    # With m = m1·(1 + share): rho/1.2·250 = m²·(rho/1.2·120/rho² + around) + core·m1²
    total_b = (100.0 / rho + around) * (1 + share) ** 2 + core
    assert swept == pytest.approx(math.sqrt(rho / 1.2 * 250.0 / total_b), rel=1e-4)


def test_without_a_way_what_no_ring_sweeps_stands_still():
    layout = divided(0.0)
    mass = still_air(layout).mass_kg_s[0, edge_ranges(layout).zones]
    assert mass[layout.zone_downstream == 3] == pytest.approx(0.0, abs=1e-9)
    assert mass[layout.zone_downstream == 2].sum() > 0.1


def test_with_a_wide_way_the_shroud_is_one_chamber_again():
    wide = divided(1.0)
    one = divided(1.0, unswept_columns=0)
    assert one.passages == ()
    flows = [still_air(layout).mass_kg_s[0, edge_ranges(layout).exit] for layout in (wide, one)]
    assert flows[0] == pytest.approx(flows[1], rel=2e-4)
    assert flows[0] < flows[1]


def test_what_passes_beside_the_rings_only_grows_with_the_way():
    """A theorem: in a network of rising edges, to ease one edge never lessens what it carries [CONTENT]."""
    found = []
    for passage_m2 in (0.0, 1e-4, 1e-3, 5e-3, 0.02, 0.1, 1.0):
        layout = divided(passage_m2, unswept_columns=4)
        found.append(float(still_air(layout).mass_kg_s[0, edge_ranges(layout).passages][0]))
    assert (np.diff(found) > 0.0).all()


def test_open_flaps_draw_from_beside_the_rings_and_through_the_passage_backwards():
    """Ram air, fan stopped: what is swept goes out by the fan and, the other way through the passage, by the flaps."""
    layout = divided(0.03, unswept_columns=1, flap_m2=0.06)
    conditions = asked(layout, ambient_degc=WARM_DEGC, road_speed_m_s=30.0, fan_speed_ratio=0.0)
    shape = (1, layout.zone_area_m2.size, 1)
    edges = build_edges(
        layout,
        conditions,
        edge_ranges(layout),
        incidence(layout),
        open_zones(layout, conditions),
        np.full(1, WARM_DEGC),
        np.full((1, layout.nodes), WARM_DEGC),
        np.full(shape, WARM_DEGC),
        np.full(shape, WARM_DEGC),
    )
    flow = solve_network(edges, np.zeros((1, layout.nodes)))
    ranges = edge_ranges(layout)
    assert flow.mass_kg_s[0, ranges.passages][0] < -0.05
    assert flow.mass_kg_s[0, ranges.flaps][0] > 0.1
    assert flow.imbalance_kg_s[0] < 1e-9
