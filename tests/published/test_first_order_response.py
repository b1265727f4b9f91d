"""The step response of the coolant against the textbook's lumped capacitance and a general solver of differential equations.

Incropera and others, *Fundamentals of Heat and Mass Transfer*, chapter 5: C·dT/dt = −UA·(T − T_surroundings) gives
T = T∞ + (T0 − T∞)·e^(−t/τ) with τ = C/UA. From memory.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from grillestack.assess.asked import asked_cases
from grillestack.assess.heat_shed import heat_shed
from grillestack.assess.over_time import over_time
from grillestack.model.engine import usual_duty_cases
from grillestack.physics.lumped_heat import Lump, rest_degc, temperature_after_degc, time_to_reach_s
from tests.assess import packs

CAPACITY_J_PER_K, CONDUCTANCE_W_PER_K, AMBIENT_DEGC, HEAT_W = 170e3, 850.0, 38.0, 60e3
SETTLED_DEGC = AMBIENT_DEGC + HEAT_W / CONDUCTANCE_W_PER_K
TAU_S = CAPACITY_J_PER_K / CONDUCTANCE_W_PER_K
CORNERS = (60.0, 71.3, 90.0, 104.7, 107.0, 122.0)
CONSTANT = Lump(
    capacity_j_per_k=CAPACITY_J_PER_K,
    heat_in_w=HEAT_W,
    corner_degc=CORNERS,
    corner_heat_w=tuple(CONDUCTANCE_W_PER_K * (at - AMBIENT_DEGC) for at in CORNERS),
)


@pytest.mark.parametrize("start", [62.0, 90.0, 108.0, 121.9])
def test_with_constant_coefficients_the_temperature_is_the_textbooks_exponential(start):
    """Five corners on one straight line must not be seen: one exponential over all of them."""
    for elapsed in (0.0, 1.0, 30.0, 200.0, 900.0):
        expected = SETTLED_DEGC + (start - SETTLED_DEGC) * math.exp(-elapsed / TAU_S)
        assert temperature_after_degc(CONSTANT, start, elapsed) == pytest.approx(expected, abs=1e-9)
    assert rest_degc(CONSTANT, start) == pytest.approx(SETTLED_DEGC, abs=1e-9)


@pytest.mark.parametrize(("share", "times_tau"), [(0.5, 0.6931), (0.632, 1.0), (0.95, 3.0), (0.993, 5.0)])
def test_half_sixty_three_and_ninety_five_per_cent_take_the_textbooks_multiples_of_the_time_constant(share, times_tau):
    """ln 2, 1, 3 and 5 time constants, to the digits the textbooks print."""
    took_s = time_to_reach_s(CONSTANT, 70.0, 70.0 + share * (SETTLED_DEGC - 70.0))
    assert took_s / TAU_S == pytest.approx(times_tau, rel=1e-2)


def test_a_thermocouple_junction_in_hot_gas_takes_the_textbooks_five_seconds():
    """Incropera, example 5.1: a bead of 0.706 mm, 8500 kg/m³, 400 J/(kg·K), 400 W/(m²·K), from 25 to 199 °C in gas of 200 °C.

    The book finds a time constant of 1 s and 5.2 s. Inputs and results from memory.
    """
    diameter = 7.06e-4
    film = 400.0 * math.pi * diameter**2
    bead = Lump(
        capacity_j_per_k=8500.0 * 400.0 * math.pi * diameter**3 / 6.0,
        heat_in_w=film * 200.0,
        corner_degc=(0.0, 250.0),
        corner_heat_w=(0.0, film * 250.0),
    )
    assert time_to_reach_s(bead, 25.0, 200.0 - 175.0 / math.e) == pytest.approx(1.0, abs=0.005)
    assert time_to_reach_s(bead, 25.0, 199.0) == pytest.approx(5.2, abs=0.05)


@pytest.mark.parametrize(("number", "start"), [(0, 88.0), (0, 120.0), (1, 121.0), (3, 107.2)])
def test_on_the_packs_own_heat_a_general_solver_finds_the_same_curve(number, start):
    """scipy.integrate.solve_ivp (DOP853) side by side, on the heat solved for the pack, above the thermostat's opening."""
    asked = asked_cases(packs.half_height_pack(*usual_duty_cases()))
    shed = heat_shed(packs.half_height_pack(*usual_duty_cases()), asked)[number]
    lump = Lump(
        capacity_j_per_k=CAPACITY_J_PER_K,
        heat_in_w=asked[number].heat_target_w,
        corner_degc=shed.corner_degc,
        corner_heat_w=shed.corner_heat_w,
    )
    rest = rest_degc(lump, start)
    lasts_s = time_to_reach_s(lump, start, start + 0.98 * (rest - start))
    times_s = np.linspace(0.0, lasts_s, 25)

    def rate(_time: float, at: np.ndarray) -> np.ndarray:
        return (lump.heat_in_w - np.interp(at, shed.corner_degc, shed.corner_heat_w)) / CAPACITY_J_PER_K

    other = solve_ivp(
        rate, (0.0, lasts_s), [start], method="DOP853", t_eval=times_s, rtol=1e-11, atol=1e-11, max_step=lasts_s / 200
    )
    mine = [temperature_after_degc(lump, start, at_s) for at_s in times_s]
    assert mine == pytest.approx(other.y[0], abs=1e-6)


def test_coolant_on_a_grade_climbs_and_cools_within_minutes_not_seconds_and_not_hours(record_property):
    """Common practice, no source: a grade shows within a few minutes; a test drive holds each load 10 to 20 minutes to settle.

    From that only an order of magnitude is asserted: the half of the way takes between half a minute and ten minutes.
    """
    result = over_time(packs.half_height_pack(*usual_duty_cases()), "case-3", "case-1")
    half = result.start_degc + 0.5 * (result.steady_degc - result.start_degc)
    half_s = next(point.seconds_s for point in result.points if point.top_tank_degc >= half)
    record_property("time_to_limit_s", round(result.time_to_limit_s))
    record_property("half_way_up_s", round(half_s))
    record_property("half_way_down_s", round(result.cooling.half_s))
    assert 30.0 < half_s < 600.0
    assert 30.0 < result.cooling.half_s < 600.0
