"""One rated heat and one rated air loss, held against fins and tubes."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K, REFERENCE_AIR_DENSITY_KG_M3
from grillestack.physics.air_side import AirSide
from grillestack.physics.core_alone import heat_alone_w
from grillestack.physics.core_loss import LossFit
from grillestack.physics.overall import air_side_resistance_m2_k_per_w
from grillestack.physics.rating import fitted_loss_pa, rated_conductance_factor, rated_loss
from tests.physics.benches import BENCHES, CONDENSER, RADIATOR, bench

LOSS = LossFit(a_pa_s_per_m=12.0, b_pa_s2_per_m2=2.5, max_error_frac=0.03)
ONE_POINT = {
    name: dataclasses.replace(bench(5.0), tube_in_degc=at.tube_in_degc[:1], tube_flow_kg_s=at.tube_flow_kg_s[:1])
    for name, (_, at) in BENCHES.items()
}


@pytest.mark.parametrize("name", BENCHES)
def test_a_rating_that_the_fins_would_give_themselves_asks_for_a_factor_of_one(name):
    layer, at = BENCHES[name][0], ONE_POINT[name]
    assert rated_conductance_factor(layer, at, float(heat_alone_w(layer, at)[0])) == pytest.approx(1.0, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(sorted(BENCHES)), st.floats(0.75, 1.06))
def test_with_its_factor_a_core_by_itself_gives_off_just_the_rated_heat(name, share):
    layer, at = BENCHES[name][0], ONE_POINT[name]
    rated = share * float(heat_alone_w(layer, at)[0])
    factor = rated_conductance_factor(layer, at, rated)
    assert (factor > 1.0) == (share > 1.0) or share == 1.0
    calibrated = dataclasses.replace(layer, air_side=AirSide(conductance_factor=factor))
    assert float(heat_alone_w(calibrated, at)[0]) == pytest.approx(rated, rel=1e-8)


def test_factor_of_a_condenser_by_hand():
    """Q = C·(1 − exp(−UA/C))·ΔT: the conductance of the rating over that of the fins, in series as the books have it [INCROPERA]."""
    at = bench(5.0, difference_k=30.0)
    heat = 33_000.0
    capacity = float(at.flux_kg_s_m2[0]) * 0.7 * 0.46 * AIR_HEAT_CAPACITY_J_PER_KG_K
    wanted = -math.log(1.0 - heat / (capacity * 30.0)) * capacity / (0.7 * 0.46)
    c = CONDENSER.construction
    air = float(air_side_resistance_m2_k_per_w(c, at.flux_kg_s_m2[0], 25.0 + 0.5 * heat / capacity))
    wall = c.tube_wall_m / (c.tube_conductivity_w_per_m_k * c.wall_area_m2_per_m2)
    inside = 1.0 / (3500.0 * 1.42 * c.inner_area_m2_per_m2)
    assert rated_conductance_factor(CONDENSER, at, heat) == pytest.approx(wanted * (air + wall + inside), rel=1e-9)


@pytest.mark.parametrize(
    ("heat_w", "difference_k", "words"),
    [
        (80_000.0, 0.0, "tubes must be hotter than the air"),
        (80_000.0, -20.0, "tubes must be hotter than the air"),
        (150_000.0, 60.0, "more than the"),
        (2_000.0, 60.0, "0.3 to 3 is believable"),
        (92_000.0, 60.0, "0.3 to 3 is believable"),
    ],
)
def test_a_rating_nobody_can_believe_is_refused_with_what_to_check(heat_w, difference_k, words):
    with pytest.raises(ValueError, match=words) as refused:
        rated_conductance_factor(RADIATOR, bench(5.0, difference_k=difference_k), heat_w)
    assert "rating" in str(refused.value)
    assert "check" in str(refused.value) or "correct" in str(refused.value)


def test_both_ends_of_what_is_believed_are_taken():
    at = bench(5.0)
    for factor in (0.301, 2.99):
        layer = dataclasses.replace(RADIATOR, air_side=AirSide(conductance_factor=factor))
        heat = float(heat_alone_w(layer, at)[0])
        assert rated_conductance_factor(RADIATOR, at, heat) == pytest.approx(factor, rel=1e-8)


def test_loss_of_another_density_by_hand():
    """12·5 stays, 2.5·25 goes with the density."""
    assert fitted_loss_pa(LOSS, 5.0, 0.9 * REFERENCE_AIR_DENSITY_KG_M3) == pytest.approx(60.0 + 0.9 * 62.5)


def test_a_rated_loss_scales_both_terms():
    scaled = rated_loss(LOSS, 5.0, 1.2, 1.5 * fitted_loss_pa(LOSS, 5.0, 1.2))
    assert (scaled.a_pa_s_per_m, scaled.b_pa_s2_per_m2) == (pytest.approx(18.0), pytest.approx(3.75))
    assert fitted_loss_pa(scaled, 5.0, 1.2) == pytest.approx(1.5 * fitted_loss_pa(LOSS, 5.0, 1.2))


@pytest.mark.parametrize("loss_pa", [0.5, 30_000.0])
def test_a_rated_loss_in_the_wrong_unit_is_refused(loss_pa):
    with pytest.raises(ValueError, match="check the units"):
        rated_loss(LOSS, 5.0, 1.2, loss_pa)


def test_ratings_are_read_at_their_own_condition():
    """The same heat from half the temperature difference asks for a much better core."""
    heat = float(heat_alone_w(RADIATOR, bench(5.0))[0])
    assert rated_conductance_factor(RADIATOR, bench(5.0, difference_k=75.0), heat) < 1.0
    assert rated_conductance_factor(RADIATOR, bench(5.0, difference_k=50.0), heat) > 1.2
    assert rated_conductance_factor(RADIATOR, bench(5.0, flow_kg_s=1.2), heat) > 1.0
    assert np.isfinite(heat)
