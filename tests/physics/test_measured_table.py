"""Measured heats and air losses, line by line."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3
from grillestack.physics.air_side import AirSide
from grillestack.physics.core_alone import heat_alone_w
from grillestack.physics.core_loss import LossFit
from grillestack.physics.measured_table import MOST_EVENED_FRAC, measured_air_side, measured_loss
from grillestack.physics.overall import air_side_resistance_m2_k_per_w
from grillestack.physics.rating import fitted_loss_pa
from tests.physics.benches import BENCHES, CONDENSER, RADIATOR, VELOCITY_M_S, bench

FINS = LossFit(a_pa_s_per_m=12.0, b_pa_s2_per_m2=2.5, max_error_frac=0.03)
OTHER = AirSide(flux_kg_s_m2=tuple(bench().flux_kg_s_m2.tolist()), resistance_factor=(0.80, 0.85, 0.95, 1.05, 1.15))


@pytest.mark.parametrize(("layer", "at"), BENCHES.values(), ids=BENCHES)
def test_a_table_of_the_fins_themselves_changes_nothing(layer, at):
    measured = measured_air_side(layer, at, VELOCITY_M_S, heat_alone_w(layer, at))
    assert measured.air_side.resistance_factor == pytest.approx([1.0] * 5, abs=1e-8)
    assert measured.evened_frac < 1e-8


@pytest.mark.parametrize(("layer", "at"), BENCHES.values(), ids=BENCHES)
def test_an_air_side_of_its_own_is_found_and_answers_another_tube_flow(layer, at):
    true = dataclasses.replace(layer, air_side=OTHER)
    measured = measured_air_side(layer, at, VELOCITY_M_S, heat_alone_w(true, at))
    assert measured.air_side.resistance_factor == pytest.approx(OTHER.resistance_factor, rel=1e-7)
    elsewhere = dataclasses.replace(
        bench(np.array([1.0, 2.7, 6.0, 12.0, 3.5])),
        tube_in_degc=at.tube_in_degc + 7.0,
        tube_flow_kg_s=0.6 * at.tube_flow_kg_s,
    )
    described = dataclasses.replace(layer, air_side=measured.air_side)
    assert heat_alone_w(described, elsewhere) == pytest.approx(heat_alone_w(true, elsewhere), rel=1e-7)


def test_a_line_s_resistance_without_tubes_and_wall_by_hand():
    """A condenser's one wall: 1/U less wall and film leaves the air side; U from Q = C·(1 − exp(−UA/C))·ΔT [INCROPERA]."""
    at = bench(difference_k=30.0)
    heat = np.array([19_000.0, 27_000.0, 33_000.0, 38_000.0, 44_000.0])
    measured = measured_air_side(CONDENSER, at, VELOCITY_M_S, heat)
    c = CONDENSER.construction
    capacity = at.flux_kg_s_m2 * 0.7 * 0.46 * 1006.0
    conductance = -np.log(1.0 - heat / (capacity * 30.0)) * capacity / (0.7 * 0.46)
    wall = c.tube_wall_m / (c.tube_conductivity_w_per_m_k * c.wall_area_m2_per_m2)
    air = 1.0 / conductance - wall - 1.0 / (3500.0 * 1.42 * c.inner_area_m2_per_m2)
    fins = air_side_resistance_m2_k_per_w(c, at.flux_kg_s_m2, 25.0 + 0.5 * heat / capacity)
    assert measured.air_side.resistance_factor == pytest.approx(air / fins, rel=1e-9)


def _heats(*changes: tuple[int, float]) -> np.ndarray:
    heats = heat_alone_w(RADIATOR, bench())
    for line, factor in changes:
        heats[line] *= factor
    return heats


@pytest.mark.parametrize(
    ("heats", "words"),
    [
        (_heats((3, 0.85)), "line at 7 m/s gives no more heat than the one at 5 m/s"),
        (_heats((0, 1.6)), "line at 3.5 m/s gives no more heat than the one at 2 m/s"),
        (_heats(*((line, 3.0) for line in range(5))), "line at 2 m/s, .* is more than the"),
        (_heats(*((line, 0.001) for line in range(5))), "line at 2 m/s, .* is believable: check the units"),
        (_heats((4, 1.65)), "line at 10 m/s, .* leaves nothing for the air side"),
        (_heats((1, 1.17)), "near the line at .* m/s rises too little"),
    ],
)
def test_a_table_that_cannot_be_is_refused_and_names_the_line_and_the_remedy(heats, words):
    with pytest.raises(ValueError, match=words) as refused:
        measured_air_side(RADIATOR, bench(), VELOCITY_M_S, heats)
    assert "measured table" in str(refused.value)
    assert "check" in str(refused.value) or "correct" in str(refused.value)


def test_tubes_that_resist_more_than_the_whole_are_refused():
    """Heats of a core whose tubes are three times as good as described, and its fins too: the tubes described never let it by."""
    good_tubes = dataclasses.replace(RADIATOR.construction, tube_enhancement_factor=3.0)
    good_fins = AirSide(flux_kg_s_m2=(1.0,), resistance_factor=(0.35,))
    at = bench(flow_kg_s=1.0)
    heats = heat_alone_w(dataclasses.replace(RADIATOR, construction=good_tubes, air_side=good_fins), at)
    with pytest.raises(ValueError, match="leaves nothing for the air side once tubes and wall are taken off"):
        measured_air_side(RADIATOR, at, VELOCITY_M_S, heats)


def test_scatter_of_the_measurement_is_evened_out_and_said():
    """Lines close together, one of them 1 % high: the air side would turn worse after it."""
    velocity = np.array([4.0, 4.3, 4.6, 5.0])
    at = bench(velocity)
    heats = heat_alone_w(RADIATOR, at)
    heats[1] *= 1.015
    measured = measured_air_side(RADIATOR, at, velocity, heats)
    assert 0.001 < measured.evened_frac < MOST_EVENED_FRAC
    fins = air_side_resistance_m2_k_per_w(RADIATOR.construction, at.flux_kg_s_m2, 45.0)
    resistance = fins * np.array(measured.air_side.resistance_factor)
    assert np.all(np.diff(resistance) < 1e-3 * resistance[0])


def test_a_radiator_near_turbulence_leaves_more_open_than_one_in_steady_flow():
    """Common practice, no source: coolant in flat tubes turns turbulent between Re 2300 and 4000."""
    near = measured_air_side(RADIATOR, bench(flow_kg_s=2.4), VELOCITY_M_S, heat_alone_w(RADIATOR, bench(flow_kg_s=2.4)))
    slow = measured_air_side(RADIATOR, bench(flow_kg_s=1.0), VELOCITY_M_S, heat_alone_w(RADIATOR, bench(flow_kg_s=1.0)))
    wall = measured_air_side(CONDENSER, bench(), VELOCITY_M_S, heat_alone_w(CONDENSER, bench()))
    assert near.doubt_frac > 10.0 * slow.doubt_frac > 0.0
    assert wall.doubt_frac == 0.0


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(sorted(BENCHES)),
    st.lists(st.floats(-0.25, 0.25), min_size=5, max_size=5),
    st.lists(st.floats(-0.004, 0.004), min_size=5, max_size=5),
)
def test_more_air_never_means_less_heat_whatever_table_is_taken(name, better, scatter):
    layer, at = BENCHES[name]
    own = AirSide(flux_kg_s_m2=tuple(at.flux_kg_s_m2.tolist()), resistance_factor=tuple(np.exp(better).tolist()))
    heats = heat_alone_w(dataclasses.replace(layer, air_side=own), at) * np.exp(scatter)
    try:
        measured = measured_air_side(layer, at, VELOCITY_M_S, heats)
    except ValueError:
        assume(False)
    velocity = np.geomspace(0.5, 15.0, 60)
    fine = dataclasses.replace(
        bench(velocity),
        tube_in_degc=np.full(60, at.tube_in_degc[0]),
        tube_flow_kg_s=np.full(60, at.tube_flow_kg_s[0]),
    )
    given_off = heat_alone_w(dataclasses.replace(layer, air_side=measured.air_side), fine)
    assert np.all(np.diff(given_off) > -1e-4 * given_off[:-1])


def test_losses_of_a_table_are_taken_to_the_reference_density():
    """Made of 12·v + 2.5·(1.184/ρ_ref)·v² at 1.184 kg/m³, so 12 and 2.5 come back."""
    velocity = np.array([2.0, 5.0, 9.0])
    losses = np.array([fitted_loss_pa(FINS, v, 1.184) for v in velocity])
    fitted = measured_loss(FINS, velocity, losses, 1.184)
    assert fitted.a_pa_s_per_m == pytest.approx(12.0)
    assert fitted.b_pa_s2_per_m2 == pytest.approx(2.5)
    assert fitted.max_error_frac < 1e-9
    assert losses[1] == pytest.approx(60.0 + 62.5 * 1.184 / REFERENCE_AIR_DENSITY_KG_M3)


def test_a_loss_of_zero_is_not_measured():
    velocity = np.array([2.0, 5.0, 9.0])
    assert measured_loss(FINS, velocity, np.zeros(3), 1.184) is None
    two = measured_loss(FINS, velocity, np.array([0.0, 150.0, 400.0]), 1.184)
    assert fitted_loss_pa(two, 5.0, 1.184) == pytest.approx(150.0)
    assert fitted_loss_pa(two, 9.0, 1.184) == pytest.approx(400.0)
    one = measured_loss(FINS, velocity, np.array([0.0, 150.0, 0.0]), 1.184)
    assert one.a_pa_s_per_m / one.b_pa_s2_per_m2 == pytest.approx(12.0 / 2.5)
    assert fitted_loss_pa(one, 5.0, 1.184) == pytest.approx(150.0)


def test_losses_in_the_wrong_unit_are_refused():
    with pytest.raises(ValueError, match="check the units"):
        measured_loss(FINS, np.array([2.0, 9.0]), np.array([0.1, 1.3]), 1.184)
