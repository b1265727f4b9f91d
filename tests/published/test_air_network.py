"""The air network against the standard atmosphere, textbook losses and the fan laws, each worked apart from the network."""

from __future__ import annotations

import math
from dataclasses import replace

import fluids
import numpy as np
import pytest

from grillestack.physics.air import pressure_at_altitude_pa
from grillestack.physics.air_path import build_edges, edge_ranges, incidence, open_zones
from grillestack.physics.core_loss import LossFit
from grillestack.physics.fan_curve import FanCurve
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.network import Flow, solve_network
from grillestack.physics.typical_cores import TypicalCore
from tests.physics.small_packs import PlainCore, asked, plain_pack

RADIATOR = PlainCore(LayerDuty.RADIATOR, TypicalCore.ALUMINIUM_36_MM, 0, 6, 0, 4)
FACE_M2 = 24 * 0.06**2
# U.S. Standard Atmosphere 1976: R* = 8314.32 J/(kmol·K), M0 = 28.9644 kg/kmol.
GAS_CONSTANT = 8314.32 / 28.9644


def even_flow(layout: PackLayout, degc: float, **given: object) -> Flow:
    """Return the flow with all air at one temperature."""
    conditions = asked(layout, ambient_degc=degc, **given)
    shape = (1, layout.zone_area_m2.size, len(layout.layers))
    edges = build_edges(
        layout,
        conditions,
        edge_ranges(layout),
        incidence(layout),
        open_zones(layout, conditions),
        np.full(1, degc),
        np.full((1, layout.nodes), degc),
        np.full(shape, degc),
        np.full(shape, degc),
    )
    return solve_network(edges, np.zeros((1, layout.nodes)))


def through(flow: Flow, layout: PackLayout) -> float:
    return float(flow.mass_kg_s[0, edge_ranges(layout).exit])


# Hot-day densities at 40 °C, from the standard atmosphere's pressure: p/(R·T), worked with a calculator.
@pytest.mark.parametrize(
    ("altitude_m", "density"),
    [(0, 1.12720), (500, 1.06196), (1000, 0.99983), (1500, 0.94069), (2000, 0.88442), (3000, 0.78007), (4000, 0.68594)],
)
def test_ram_pressure_on_a_hot_day_follows_the_standard_atmosphere_s_pressure_not_its_density(altitude_m, density):
    """U.S. Standard Atmosphere 1976 as in `fluids.ATMOSPHERE_1976`; its own density is 12 % too high on a hot day at 1500 m."""
    layout = plain_pack([RADIATOR], columns=6, rows=4)
    standard = fluids.ATMOSPHERE_1976(altitude_m)
    hot_day = standard.P / (GAS_CONSTANT * 313.15)
    assert hot_day == pytest.approx(density, rel=2e-5)
    flow = even_flow(
        layout,
        40.0,
        air_pressure_pa=pressure_at_altitude_pa(altitude_m),
        road_speed_m_s=25.0,
        ram_recovery_frac=1.0,
        exit_pressure_factor=0.0,
        present=np.array([[False]]),
    )
    # With no way through, the plenum holds the whole stagnation pressure.
    assert flow.pressure_pa[0, 0] == pytest.approx(0.5 * density * 625.0, rel=3e-5)
    if altitude_m == 1500:
        assert standard.rho / density == pytest.approx(1.12, abs=0.01)


@pytest.mark.parametrize(("km_h", "pascal"), [(100.0, 463.0), (50.0, 115.7), (30.0, 41.7)])
def test_stagnation_pressure_at_road_speed(km_h, pascal):
    """½·ρ·V² at 1.2 kg/m³ (21 °C at sea level), worked with a calculator."""
    layout = plain_pack([RADIATOR], columns=6, rows=4)
    degc = 101_325.0 / (287.055 * 1.2) - 273.15
    flow = even_flow(
        layout,
        degc,
        road_speed_m_s=km_h / 3.6,
        ram_recovery_frac=1.0,
        exit_pressure_factor=0.0,
        present=np.array([[False]]),
    )
    assert flow.pressure_pa[0, 0] == pytest.approx(pascal, abs=0.05)


@pytest.mark.parametrize("free_frac", [0.4, 0.6, 0.85])
@pytest.mark.parametrize("speed_m_s", [8.0, 30.0])
def test_grille_core_and_exit_in_series_are_one_quadratic(free_frac, speed_m_s):
    """Losses in series by any textbook: ζ of the grille after Blevins (`fluids.square_edge_grill`), each with its dynamic pressure.

    ½ρV²(η − c) = [ζ_g/A_g² + ζ_e/A_e²]·m²/(2ρ) + a·v + b·(ρ/ρ_45)·v², v = m/(ρA): one root, one core, no fan, no leak.
    """
    layout = plain_pack([RADIATOR], columns=6, rows=4, opening_m2=0.05, free_frac=free_frac, leak_m2=0.0)
    degc, loss = 35.0, layout.layers[0].loss
    density = 101_325.0 / (GAS_CONSTANT * (degc + 273.15))
    at_45 = 101_325.0 / (GAS_CONSTANT * 318.15)
    drive = 0.5 * density * speed_m_s**2 * (0.85 + 0.1)
    a = loss.a_pa_s_per_m / (density * FACE_M2)
    b = (
        fluids.filters.square_edge_grill(free_frac) / (2.0 * density * 0.05**2)
        + 4.0 / (2.0 * density * FACE_M2**2)
        + loss.b_pa_s2_per_m2 / (at_45 * density * FACE_M2**2)
    )
    mass = (-a + math.sqrt(a * a + 4.0 * b * drive)) / (2.0 * b)
    flow = even_flow(layout, degc, road_speed_m_s=speed_m_s)
    # The network's floor under purely quadratic edges is felt at 1e-5.
    assert through(flow, layout) == pytest.approx(mass, rel=3e-5)
    ram = 0.85 * 0.5 * density * speed_m_s**2
    lost = fluids.dP_from_K(fluids.filters.square_edge_grill(free_frac), rho=density, V=mass / (density * 0.05))
    assert flow.pressure_pa[0, 0] == pytest.approx(ram - lost, rel=1e-4, abs=1e-3)


def _fan_pack(linear_frac: float, core: LossFit) -> PackLayout:
    free, shut_off = 1.1, 240.0
    fan = FanCurve(
        c0_pa=shut_off,
        c1_pa_s_per_m3=linear_frac * shut_off / free,
        c2_pa_s2_per_m6=(1.0 - linear_frac) * shut_off / free**2,
    )
    layout = plain_pack([RADIATOR], columns=6, rows=4, fan=fan, off_jet_columns=2, leak_m2=0.003)
    return replace(layout, layers=(replace(layout.layers[0], loss=core),))


SQUARE_LOSS = LossFit(a_pa_s_per_m=0.0, b_pa_s2_per_m2=6.0, max_error_frac=0.0)


@pytest.mark.parametrize("linear_frac", [0.0, 0.4, 0.9])
def test_at_standstill_flow_goes_with_fan_speed_and_pressure_with_its_square(linear_frac):
    """Fan laws, textbook, from memory: Q ∝ N and Δp ∝ N² in a system whose losses all go with the square of the flow."""
    layout = _fan_pack(linear_frac, SQUARE_LOSS)
    full, half = (even_flow(layout, 30.0, road_speed_m_s=0.0, fan_speed_ratio=n) for n in (1.0, 0.5))
    assert half.mass_kg_s[0] == pytest.approx(0.5 * full.mass_kg_s[0], rel=1e-4, abs=1e-7)
    assert half.pressure_pa[0] == pytest.approx(0.25 * full.pressure_pa[0], rel=1e-4)


def test_at_standstill_thin_air_is_moved_in_the_same_volume_at_less_pressure():
    """Fan laws: Q does not change with density, mass flow and Δp go with it."""
    layout = _fan_pack(0.4, SQUARE_LOSS)
    low = even_flow(layout, 30.0, road_speed_m_s=0.0)
    high = even_flow(layout, 30.0, road_speed_m_s=0.0, air_pressure_pa=0.7 * 101_325.0)
    assert high.mass_kg_s[0] == pytest.approx(0.7 * low.mass_kg_s[0], rel=1e-4, abs=1e-7)
    assert high.pressure_pa[0] == pytest.approx(0.7 * low.pressure_pa[0], rel=1e-4)


def test_where_friction_creeps_half_the_fan_speed_moves_less_than_half_the_air():
    """Darcy-like friction, a·v, weighs more in slow flow, so the fan laws are an upper bound; textbook."""
    layout = _fan_pack(0.4, LossFit(a_pa_s_per_m=25.0, b_pa_s2_per_m2=1.0, max_error_frac=0.0))
    full, half = (even_flow(layout, 30.0, road_speed_m_s=0.0, fan_speed_ratio=n) for n in (1.0, 0.5))
    assert through(half, layout) < 0.5 * through(full, layout)


def test_a_gap_leaks_like_a_sharp_edged_orifice():
    """Discharge coefficient 0.62, so ζ = 1/0.62² = 2.60 on the gap; any handbook, from memory."""
    layout = plain_pack([RADIATOR], columns=6, rows=4, off_jet_columns=6, leak_m2=0.002, lateral_m2=0.05)
    flow = even_flow(layout, 21.0, road_speed_m_s=30.0)
    density = 101_325.0 / (GAS_CONSTANT * 294.15)
    drop = float(flow.pressure_pa[0, 1] - flow.pressure_pa[0, layout.bay])
    assert drop > 100.0
    assert flow.mass_kg_s[0, edge_ranges(layout).leak] == pytest.approx(
        0.62 * 0.002 * math.sqrt(2.0 * density * drop), rel=2e-3
    )
