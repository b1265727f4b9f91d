"""Flow in flat tubes: transition without steps, range ends."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.tube_flow import (
    HIGHEST_TUBE_REYNOLDS,
    Transition,
    darcy_f_flat_tube,
    laminar_darcy_f_times_re,
    laminar_nusselt,
    nusselt_flat_tube,
    smooth_darcy_f,
)

ANY_FLOW = np.array([-1e30, -1.0, 0.0, 1e-30, 1.0, 1e3, 1e30])


@pytest.mark.parametrize("transition", Transition)
def test_any_flow_and_any_fluid_give_positive_numbers(transition) -> None:
    nusselt = nusselt_flat_tube(ANY_FLOW[:, None], np.array([-1.0, 0.0, 0.7, 8.0, 1e30]), 0.1, transition)
    assert nusselt.shape == (7, 5)
    assert np.all(np.isfinite(nusselt) & (nusselt > 0.0))
    friction = darcy_f_flat_tube(ANY_FLOW, 0.1, transition)
    assert np.all(np.isfinite(friction) & (friction > 0.0))


@pytest.mark.parametrize("transition", Transition)
@pytest.mark.parametrize("prandtl", [0.705, 6.0, 30.0])
def test_heat_never_falls_as_the_flow_grows_and_has_no_step(prandtl, transition) -> None:
    reynolds = np.linspace(0.0, 12_000.0, 24_001)
    nusselt = nusselt_flat_tube(reynolds, prandtl, 0.05, transition)
    steps = np.diff(nusselt)
    assert np.all(steps >= 0.0)
    assert np.max(steps) < 0.01 * np.max(nusselt)


def test_up_to_2300_flow_is_laminar_and_zero_and_reversed_flow_too() -> None:
    laminar = laminar_nusselt(0.08)
    assert nusselt_flat_tube(np.array([-500.0, 0.0, 100.0, 2300.0]), 7.0, 0.08) == pytest.approx(laminar)


def test_blend_is_straight_between_laminar_and_turbulent() -> None:
    low, middle, high = nusselt_flat_tube(np.array([2300.0, 3150.0, 4000.0]), 7.0, 0.1)
    assert middle == pytest.approx(0.5 * (low + high))


def test_dimples_carry_more_heat_in_transition_and_nothing_more_once_turbulent() -> None:
    in_transition = np.linspace(1700.0, 3900.0, 23)
    tripped = nusselt_flat_tube(in_transition, 7.0, 0.05, Transition.TRIPPED)
    assert np.all(tripped > nusselt_flat_tube(in_transition, 7.0, 0.05))
    turbulent = np.array([4000.0, 1e4])
    assert nusselt_flat_tube(turbulent, 7.0, 0.05, Transition.TRIPPED) == pytest.approx(
        nusselt_flat_tube(turbulent, 7.0, 0.05)
    )
    assert float(nusselt_flat_tube(800.0, 7.0, 0.05, Transition.TRIPPED)) == pytest.approx(laminar_nusselt(0.05))


def test_above_the_range_the_nusselt_number_is_held() -> None:
    assert float(nusselt_flat_tube(1e9, 7.0, 0.1)) == float(nusselt_flat_tube(HIGHEST_TUBE_REYNOLDS, 7.0, 0.1))


def test_laminar_friction_times_reynolds_is_constant() -> None:
    reynolds = np.array([1.0, 50.0, 2299.0])
    assert darcy_f_flat_tube(reynolds, 0.1) * reynolds == pytest.approx(laminar_darcy_f_times_re(0.1))


def test_friction_does_not_ask_which_way_the_flow_runs() -> None:
    reynolds = np.array([10.0, 3000.0, 1e5])
    assert darcy_f_flat_tube(-reynolds, 0.1) == pytest.approx(darcy_f_flat_tube(reynolds, 0.1))


@pytest.mark.parametrize("transition", Transition)
def test_pressure_loss_rises_through_the_transition(transition) -> None:
    reynolds = np.linspace(1.0, 8000.0, 8000)
    assert np.all(np.diff(darcy_f_flat_tube(reynolds, 0.05, transition) * reynolds**2) > 0.0)


def test_turbulent_friction_in_a_flat_tube_is_the_smooth_tube_s() -> None:
    assert float(darcy_f_flat_tube(2e4, 0.05)) == float(smooth_darcy_f(np.float64(2e4)))


def test_an_aspect_outside_nought_to_one_counts_as_its_end() -> None:
    assert laminar_nusselt(1.5) == laminar_nusselt(1.0)
    assert laminar_nusselt(-0.1) == laminar_nusselt(0.0)
    assert laminar_darcy_f_times_re(2.0) == laminar_darcy_f_times_re(1.0)
