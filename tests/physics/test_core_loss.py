"""What a core costs the air: ends, friction, and the two-term loss that always rises."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.core_loss import core_pressure_loss_pa, fit_loss, fit_loss_table
from grillestack.physics.typical_cores import TypicalCore, typical_construction

CORE = typical_construction(TypicalCore.ALUMINIUM_26_MM)
COARSE = (TypicalCore.COPPER_BRASS_34_MM, TypicalCore.COPPER_BRASS_52_MM, TypicalCore.COPPER_BRASS_70_MM)


def test_no_air_loses_nothing_and_reversed_air_loses_backwards() -> None:
    assert float(core_pressure_loss_pa(CORE, 0.0)) == 0.0
    there = core_pressure_loss_pa(CORE, np.array([0.1, 3.0, 9.0]))
    assert core_pressure_loss_pa(CORE, np.array([-0.1, -3.0, -9.0])) == pytest.approx(-there)


def test_creeping_air_loses_almost_in_proportion() -> None:
    slow = core_pressure_loss_pa(CORE, np.array([0.01, 0.02]))
    assert slow[1] / slow[0] == pytest.approx(2.0, rel=0.02)


def test_any_velocity_gives_a_number() -> None:
    assert np.all(np.isfinite(core_pressure_loss_pa(CORE, np.array([-1e30, -1e-30, 0.0, 1e-30, 1e30]))))


def test_shape_in_is_shape_out() -> None:
    assert core_pressure_loss_pa(CORE, np.ones((2, 5))).shape == (2, 5)


def test_raw_loss_of_coarse_fins_falls_somewhere_which_is_why_the_network_gets_the_fit() -> None:
    velocity = np.linspace(1.0, 3.0, 401)
    for core in COARSE:
        falling = velocity[1:][np.diff(core_pressure_loss_pa(typical_construction(core), velocity)) < 0.0]
        assert 1.3 < falling.min() < falling.max() < 2.3


@pytest.mark.parametrize("core", TypicalCore)
def test_fitted_loss_rises_through_all_velocities(core) -> None:
    fit = fit_loss(typical_construction(core))
    assert fit.a_pa_s_per_m > 0.0
    assert fit.b_pa_s2_per_m2 > 0.0
    velocity = np.linspace(-20.0, 20.0, 2001)
    loss = fit.a_pa_s_per_m * velocity + fit.b_pa_s2_per_m2 * velocity * np.abs(velocity)
    assert np.all(np.diff(loss) > 0.0)


@pytest.mark.parametrize("core", TypicalCore)
def test_fit_reports_its_true_largest_error(core) -> None:
    construction = typical_construction(core)
    fit = fit_loss(construction)
    velocity = np.linspace(2.0, 10.0, 81)
    fitted = fit.a_pa_s_per_m * velocity + fit.b_pa_s2_per_m2 * velocity**2
    worst = np.max(np.abs(fitted / core_pressure_loss_pa(construction, velocity) - 1.0))
    assert fit.max_error_frac == pytest.approx(worst)
    assert fit.max_error_frac < 0.06


def test_a_table_made_of_two_terms_gives_them_back() -> None:
    velocity = np.array([1.0, 2.5, 4.0, 7.0])
    fit = fit_loss_table(velocity, 12.0 * velocity + 2.5 * velocity**2)
    assert fit.a_pa_s_per_m == pytest.approx(12.0)
    assert fit.b_pa_s2_per_m2 == pytest.approx(2.5)
    assert fit.max_error_frac < 1e-9


def test_a_steeper_than_square_table_keeps_the_square_alone() -> None:
    velocity = np.array([2.0, 4.0, 8.0])
    fit = fit_loss_table(velocity, velocity**2.4)
    assert fit.a_pa_s_per_m == 0.0
    assert fit.b_pa_s2_per_m2 > 0.0


def test_a_flatter_than_linear_table_keeps_the_line_alone() -> None:
    velocity = np.array([2.0, 4.0, 8.0])
    fit = fit_loss_table(velocity, velocity**0.7)
    assert fit.a_pa_s_per_m > 0.0
    assert fit.b_pa_s2_per_m2 == 0.0


def test_no_nearby_pair_of_terms_fits_a_scattered_table_better() -> None:
    velocity = np.array([1.5, 3.0, 5.0, 6.5, 9.0])
    loss = np.array([22.0, 70.0, 118.0, 215.0, 330.0])
    fit = fit_loss_table(velocity, loss)

    def misfit(a: float, b: float) -> float:
        return float(np.sum(((a * velocity + b * velocity**2) / loss - 1.0) ** 2))

    least = misfit(fit.a_pa_s_per_m, fit.b_pa_s2_per_m2)
    for da, db in ((0.1, 0.0), (-0.1, 0.0), (0.0, 0.02), (0.0, -0.02), (0.1, -0.02), (-0.1, 0.02)):
        assert misfit(fit.a_pa_s_per_m + da, fit.b_pa_s2_per_m2 + db) > least


def test_one_measured_point_is_taken_as_a_square() -> None:
    fit = fit_loss_table(np.array([4.0]), np.array([80.0]))
    assert (fit.a_pa_s_per_m, fit.b_pa_s2_per_m2) == (0.0, pytest.approx(5.0))


@pytest.mark.parametrize(
    ("velocity", "loss", "sentence"),
    [
        ([], [], "fill both columns"),
        ([1.0, 2.0], [3.0], "fill both columns"),
        ([0.0, 2.0], [3.0, 9.0], "more than zero"),
        ([1.0, 2.0], [3.0, -9.0], "more than zero"),
        ([1.0, 2.0], [3.0, float("nan")], "more than zero"),
    ],
)
def test_a_table_that_is_none_is_refused(velocity, loss, sentence) -> None:
    with pytest.raises(ValueError, match=sentence):
        fit_loss_table(np.array(velocity), np.array(loss))
