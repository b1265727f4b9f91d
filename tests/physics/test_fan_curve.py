"""Fan curves: laws, fits, derived ones, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest

from grillestack.physics.fan_curve import (
    FALL_FROM_SQUARE_FRAC,
    FanCurve,
    derive_fan_curve,
    fan_pressure_pa,
    fit_fan_curve,
)

CURVE = FanCurve(c0_pa=240.0, c1_pa_s_per_m3=60.0, c2_pa_s2_per_m6=90.0)
FLOW = np.array([0.0, 0.3, 0.6, 0.9, 1.2])


def test_pressure_is_the_curve_by_hand() -> None:
    assert float(fan_pressure_pa(CURVE, 0.5, 1.0, 1.2)) == pytest.approx(240.0 - 30.0 - 22.5)
    assert float(fan_pressure_pa(CURVE, 0.5, 1.0, 0.9)) == pytest.approx(187.5 * 0.75)


def test_at_the_free_flow_no_pressure_is_left() -> None:
    assert float(fan_pressure_pa(CURVE, CURVE.free_flow_m3_s, 1.0, 1.2)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("ratio", [0.4, 0.8, 1.25])
def test_flow_goes_with_speed_and_pressure_with_its_square(ratio) -> None:
    slow = fan_pressure_pa(CURVE, FLOW * ratio, ratio, 1.2)
    assert slow == pytest.approx(ratio**2 * fan_pressure_pa(CURVE, FLOW, 1.0, 1.2))


def test_pressure_falls_with_flow_at_every_speed_and_both_ways() -> None:
    flow = np.linspace(-3.0, 3.0, 601)
    for ratio in (0.0, 0.3, 1.0):
        assert np.all(np.diff(fan_pressure_pa(CURVE, flow, ratio, 1.1)) < 0.0)


def test_a_standing_fan_is_in_the_way() -> None:
    standing = fan_pressure_pa(CURVE, np.array([-1.0, 0.0, 1.0]), 0.0, 1.2)
    assert standing.tolist() == [90.0, 0.0, -90.0]
    assert fan_pressure_pa(CURVE, 1.0, -0.5, 1.2) == fan_pressure_pa(CURVE, 1.0, 0.0, 1.2)


def test_flow_speed_and_density_broadcast() -> None:
    assert fan_pressure_pa(CURVE, FLOW[:, None], np.array([0.5, 1.0]), 1.1).shape == (5, 2)


@pytest.mark.parametrize(
    "terms", [(0.0, 1.0, 1.0), (200.0, 0.0, 0.0), (-1.0, 1.0, 1.0), (200.0, -1.0, 5.0), (200.0, 1.0, float("nan"))]
)
def test_terms_that_make_no_falling_curve_are_refused(terms) -> None:
    with pytest.raises(ValueError, match="start above zero pressure and fall"):
        FanCurve(c0_pa=terms[0], c1_pa_s_per_m3=terms[1], c2_pa_s2_per_m6=terms[2])


def test_points_of_a_curve_give_it_back() -> None:
    fit = fit_fan_curve(FLOW, fan_pressure_pa(CURVE, FLOW, 1.0, 1.2))
    assert fit.curve.c0_pa == pytest.approx(240.0)
    assert fit.curve.c1_pa_s_per_m3 == pytest.approx(60.0)
    assert fit.curve.c2_pa_s2_per_m6 == pytest.approx(90.0)
    assert fit.max_deviation_pa < 1e-9
    assert fit.note == ""


def test_order_of_the_points_does_not_matter() -> None:
    pressure = np.array([250.0, 235.0, 205.0, 120.0, 5.0])
    shuffled = np.array([3, 0, 4, 1, 2])
    there, back = fit_fan_curve(FLOW, pressure), fit_fan_curve(FLOW[shuffled], pressure[shuffled])
    assert there.curve.c0_pa == pytest.approx(back.curve.c0_pa)
    assert there.max_deviation_pa == pytest.approx(back.max_deviation_pa)


def test_largest_deviation_is_that_of_the_worst_point() -> None:
    pressure = np.array([250.0, 228.0, 190.0, 130.0, 0.0])
    fit = fit_fan_curve(FLOW, pressure)
    apart = np.abs(pressure - fan_pressure_pa(fit.curve, FLOW, 1.0, 1.2))
    assert fit.max_deviation_pa == pytest.approx(np.max(apart))
    assert fit.max_deviation_pa > 1.0


def test_no_nearby_terms_fit_better() -> None:
    pressure = np.array([250.0, 228.0, 190.0, 130.0, 20.0])
    best = fit_fan_curve(FLOW, pressure).curve

    def misfit(c0: float, c1: float, c2: float) -> float:
        return float(np.sum((c0 - c1 * FLOW - c2 * FLOW**2 - pressure) ** 2))

    least = misfit(best.c0_pa, best.c1_pa_s_per_m3, best.c2_pa_s2_per_m6)
    for change in (1.0, -1.0):
        if best.c1_pa_s_per_m3 + change >= 0.0:
            assert misfit(best.c0_pa, best.c1_pa_s_per_m3 + change, best.c2_pa_s2_per_m6) > least
        assert misfit(best.c0_pa + change, best.c1_pa_s_per_m3, best.c2_pa_s2_per_m6) > least
        assert misfit(best.c0_pa, best.c1_pa_s_per_m3, best.c2_pa_s2_per_m6 + change) > least


@pytest.mark.parametrize("pressure", [[200, 100, 50, 25, 12], [200, 150, 100, 50, 0], [200, 199, 195, 150, 0]])
def test_terms_are_never_below_zero_and_a_standing_fan_always_in_the_way(pressure) -> None:
    curve = fit_fan_curve(FLOW, np.array(pressure, dtype=float)).curve
    assert curve.c1_pa_s_per_m3 >= 0.0
    assert curve.c2_pa_s2_per_m6 >= FALL_FROM_SQUARE_FRAC * curve.c0_pa / 1.2**2 * (1.0 - 1e-12)


def test_a_stall_dip_is_flattened_and_said() -> None:
    fit = fit_fan_curve(np.linspace(0.0, 1.0, 6), np.array([250.0, 180.0, 195.0, 160.0, 95.0, 0.0]))
    assert fit.lowered_by_pa == pytest.approx(15.0)
    assert "lowered by up to 15 Pa" in fit.note
    assert np.all(np.diff(fan_pressure_pa(fit.curve, np.linspace(0.0, 1.0, 50), 1.0, 1.2)) < 0.0)


def test_two_pressures_at_one_flow_are_a_dip_only_if_one_rises() -> None:
    fit = fit_fan_curve(np.array([0.0, 0.5, 0.5, 1.0]), np.array([200.0, 148.0, 152.0, 0.0]))
    assert fit.lowered_by_pa == 0.0


@pytest.mark.parametrize(
    ("flow", "pressure", "sentence"),
    [
        ([0.0, 1.0], [200.0, 0.0], "at least three different flows"),
        ([0.0, 1.0, 1.0], [200.0, 5.0, 0.0], "at least three different flows"),
        ([0.0, 1.0, 2.0], [200.0, 0.0], "fill both columns"),
        ([-0.1, 1.0, 2.0], [200.0, 100.0, 0.0], "below zero"),
        ([0.0, 1.0, 2.0], [200.0, 100.0, -1.0], "below zero"),
        ([0.0, 1.0, float("nan")], [200.0, 100.0, 0.0], "below zero"),
        ([0.0, 1.0, 2.0], [0.0, 100.0, 200.0], "columns are not swapped"),
        ([0.0, 1.0, 2.0], [90.0, 90.0, 90.0], "columns are not swapped"),
        ([0.0, 1.0, 2.0, 3.0], [200.0, 10.0, 150.0, 0.0], "columns are not swapped"),
    ],
)
def test_points_that_are_no_fan_curve_are_refused(flow, pressure, sentence) -> None:
    with pytest.raises(ValueError, match=sentence):
        fit_fan_curve(np.array(flow), np.array(pressure))


@pytest.mark.parametrize(("free_flow", "diameter"), [(0.3, 0.25), (0.95, 0.406), (1.4, 0.406), (3.0, 0.65)])
def test_a_derived_curve_has_the_free_flow_it_was_given(free_flow, diameter) -> None:
    assert derive_fan_curve(free_flow, diameter).free_flow_m3_s == pytest.approx(free_flow)


@pytest.mark.parametrize(
    ("free_flow", "diameter", "sentence"),
    [
        (0.0, 0.4, "free flow must be more than zero"),
        (1.0, -0.4, "diameter must be more than zero"),
        (float("inf"), 0.4, "free flow must be more than zero"),
        (2500.0, 0.406, "check its unit"),
    ],
)
def test_a_fan_that_cannot_be_is_refused(free_flow, diameter, sentence) -> None:
    with pytest.raises(ValueError, match=sentence):
        derive_fan_curve(free_flow, diameter)


def test_free_flow_of_a_straight_curve() -> None:
    straight = FanCurve(c0_pa=200.0, c1_pa_s_per_m3=100.0, c2_pa_s2_per_m6=0.0)
    assert straight.free_flow_m3_s == pytest.approx(2.0)
    assert FanCurve(c0_pa=200.0, c1_pa_s_per_m3=0.0, c2_pa_s2_per_m6=50.0).free_flow_m3_s == pytest.approx(
        math.sqrt(200.0 / 50.0)
    )
