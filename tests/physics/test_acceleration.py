"""Fewer passes to a fixed point, and no harm where there is nothing to gain."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.acceleration import Mixer


def _contraction(rng: np.random.Generator, size: int, radius: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return matrix, offset and fixed point of x → A·x + b with the given spectral radius."""
    matrix = rng.normal(size=(size, size))
    matrix *= radius / np.abs(np.linalg.eigvals(matrix)).max()
    offset = rng.normal(size=size)
    return matrix, offset, np.linalg.solve(np.eye(size) - matrix, offset)


def test_the_first_pass_is_taken_as_it_comes():
    start, arrived = np.array([[1.0, 2.0]]), np.array([[3.0, 5.0]])
    assert (Mixer().next_start(start, arrived, np.ones((1, 2))) == arrived).all()


def test_two_passes_of_one_number_are_the_secant_rule():
    """x → 0.8·x + 2 has its fixed point at 10; from 0 the passes arrive at 2 and 3.6, and the secant hits 10."""
    mixer = Mixer()
    one = mixer.next_start(np.array([[0.0]]), np.array([[2.0]]), np.ones((1, 1)))
    two = mixer.next_start(one, 0.8 * one + 2.0, np.ones((1, 1)))
    assert two[0, 0] == pytest.approx(10.0, rel=1e-8)


@pytest.mark.parametrize("radius", [0.5, 0.95, 1.5])
def test_an_affine_map_of_few_dimensions_is_solved_in_as_many_passes_and_one(radius):
    """Walker & Ni 2011: on an affine map Anderson mixing is GMRES, exact after n + 1 passes, even where plain passes run away."""
    matrix, offset, goal = _contraction(np.random.default_rng(1), 4, radius)
    mixer, now = Mixer(), np.zeros((1, 4))
    for _ in range(6):
        now = mixer.next_start(now, now @ matrix.T + offset, np.ones((1, 4)))
    assert now[0] == pytest.approx(goal, rel=1e-4, abs=1e-4)


def test_a_slow_map_of_many_dimensions_takes_less_than_half_the_passes():
    """Thirty modes that die out at their own pace, the slowest by 3 % a pass."""
    rates = np.linspace(0.2, 0.97, 30)

    def passes(*, mixed: bool) -> int:
        mixer, now, count = Mixer(), np.zeros((1, 30)), 0
        while count < 2000:
            count += 1
            arrived = now * rates + 1.0
            if np.abs(arrived - now).max() < 1e-8:
                break
            now = mixer.next_start(now, arrived, np.ones((1, 30))) if mixed else arrived
        return count

    plain = passes(mixed=False)
    assert 500 < plain < 2000
    assert passes(mixed=True) < plain / 2


def test_each_problem_of_a_batch_is_mixed_by_its_own_past():
    rng = np.random.default_rng(3)
    maps = [_contraction(rng, 5, radius) for radius in (0.3, 0.9, 0.99)]
    together, alone = Mixer(), [Mixer() for _ in maps]
    now, apart = np.zeros((3, 5)), [np.zeros((1, 5)) for _ in maps]
    for _ in range(5):
        arrived = np.stack([x @ matrix.T + offset for x, (matrix, offset, _) in zip(now, maps, strict=True)])
        now = together.next_start(now, arrived, np.ones((3, 5)))
        for n, (matrix, offset, _) in enumerate(maps):
            apart[n] = alone[n].next_start(apart[n], apart[n] @ matrix.T + offset, np.ones((1, 5)))
            assert now[n] == pytest.approx(apart[n][0], rel=1e-6, abs=1e-8)


def test_what_weighs_nothing_does_not_disturb_the_rest():
    matrix, offset, goal = _contraction(np.random.default_rng(4), 3, 0.9)
    rng = np.random.default_rng(5)
    mixer, now = Mixer(), np.zeros((1, 4))
    weight = np.array([[1.0, 1.0, 1.0, 0.0]])
    for _ in range(5):
        arrived = np.append(now[0, :3] @ matrix.T + offset, 100.0 * rng.normal())[None, :]
        now = mixer.next_start(now, arrived, weight)
    assert now[0, :3] == pytest.approx(goal, rel=1e-4, abs=1e-4)


def test_at_the_fixed_point_it_stays_there():
    mixer, point = Mixer(), np.array([[4.0, -2.0, 7.0]])
    for _ in range(8):
        assert mixer.next_start(point, point.copy(), np.ones((1, 3))) == pytest.approx(point, rel=1e-12)


def test_passes_that_repeat_each_other_give_no_infinity():
    mixer = Mixer()
    for _ in range(8):
        found = mixer.next_start(np.array([[1.0, 1.0]]), np.array([[2.0, 3.0]]), np.ones((1, 2)))
        assert np.isfinite(found).all()


def test_it_remembers_no_more_than_it_needs():
    """After many passes of another map the old ones no longer count: the new map is solved as if it were the first."""
    matrix, offset, _ = _contraction(np.random.default_rng(6), 3, 0.9)
    other, shift, goal = _contraction(np.random.default_rng(7), 3, 0.9)
    mixer, now = Mixer(), np.zeros((1, 3))
    for step in range(24):
        a, b = (matrix, offset) if step < 8 else (other, shift)
        now = mixer.next_start(now, now @ a.T + b, np.ones((1, 3)))
    assert now[0] == pytest.approx(goal, rel=1e-4, abs=1e-4)
