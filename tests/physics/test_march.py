"""The march of one pass: laws it keeps to round-off, cells cut into several streams, and what is far from any vehicle."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from grillestack.physics.layout import TubePass
from grillestack.physics.march import march_rows, wall_temperature_degc
from tests.physics.crossed_streams import cross, effectiveness, even_pass


def cut_pass(rng: np.random.Generator, strips: int, steps: int, most: int = 4) -> TubePass:
    """Return a pass whose cells hold one to `most` pieces, strips of unequal share."""
    counts = rng.integers(1, most + 1, strips * steps)
    share = rng.uniform(0.5, 2.0, strips)
    return TubePass(
        pieces=np.arange(counts.sum()),
        cell_starts=np.concatenate([[0], np.cumsum(counts)[:-1]]),
        strip_share=share / share.sum(),
    )


def random_streams(rng: np.random.Generator, pieces: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return air capacities, effectivenesses of one sub-row and inlet temperatures; shapes (1, pieces)."""
    air = np.exp(rng.uniform(np.log(0.5), np.log(60.0), (1, pieces)))
    return air, rng.uniform(0.02, 0.95, (1, pieces)), rng.uniform(20.0, 70.0, (1, pieces))


def march(tube_pass, air, e, air_in, tube, tube_in, sub_rows=1):
    return march_rows(
        tube_pass, air * e, e, air_in, np.atleast_1d(float(tube)), np.atleast_1d(float(tube_in)), sub_rows
    )


@pytest.mark.parametrize("sub_rows", [1, 2, 4])
@pytest.mark.parametrize("seed", range(6))
def test_what_the_tube_fluid_loses_the_air_gains(seed, sub_rows):
    rng = np.random.default_rng(seed)
    tube_pass = cut_pass(rng, strips=int(rng.integers(1, 6)), steps=int(rng.integers(1, 9)))
    air, e, air_in = random_streams(rng, tube_pass.pieces.size)
    out, tube_out = march(tube_pass, air, e, air_in, 800.0, 105.0, sub_rows)
    gained = float((air * (out - air_in)).sum())
    assert gained == pytest.approx(800.0 * (105.0 - float(tube_out[0])), rel=1e-12)
    assert gained > 0.0
    assert ((out >= air_in.min()) & (out <= 105.0)).all()


@pytest.mark.parametrize("seed", range(5))
def test_a_strip_of_cut_cells_is_what_a_fine_integration_along_the_tube_gives(seed):
    """dT/ds = −Σ C·e·(T − T_i)/C_t along each cell; the air of a piece leaves with the tube's mean over the cell's length."""
    rng = np.random.default_rng(50 + seed)
    tube_pass = cut_pass(rng, strips=1, steps=5)
    air, e, air_in = random_streams(rng, tube_pass.pieces.size)
    tube = float(rng.uniform(30.0, 400.0))
    out, tube_out = march(tube_pass, air, e, air_in, tube, 98.0)
    now, ends = 98.0, [*tube_pass.cell_starts[1:], tube_pass.pieces.size]
    for first, end in zip(tube_pass.cell_starts, ends, strict=True):
        weight, inlet = (air * e)[0, first:end], air_in[0, first:end]

        def along(_, state, weight=weight, inlet=inlet):
            return [-float((weight * (state[0] - inlet)).sum()) / tube, state[0]]

        path = solve_ivp(along, (0.0, 1.0), [now, 0.0], rtol=1e-11, atol=1e-11, method="DOP853")
        now, mean = float(path.y[0, -1]), float(path.y[1, -1])
        expected = inlet + e[0, first:end] * (mean - inlet)
        assert out[0, first:end] == pytest.approx(expected, rel=1e-9)
    assert tube_out[0] == pytest.approx(now, rel=1e-9)


def test_a_second_sub_row_meets_the_air_of_the_first_and_fresh_tube_fluid():
    """Row by row on cells so short that the first row's air is even in each; what is left of that is of second order."""
    rng = np.random.default_rng(8)
    cut = 200
    air, e, air_in = random_streams(rng, 12)
    both, mixed = march(even_pass(3, 4), air, e, air_in, 500.0, 90.0, sub_rows=2)
    short = even_pass(3, 4 * cut)
    air, e, air_in = (np.repeat(part, cut, axis=1) for part in (air / cut, e, air_in))
    between, first = march(short, air, e, air_in, 250.0, 90.0)
    behind, second = march(short, air, e, between, 250.0, 90.0)
    assert both[0] == pytest.approx(behind.reshape(12, cut).mean(axis=1), abs=1e-3)
    assert mixed == pytest.approx(0.5 * (first + second), abs=1e-4)


@pytest.mark.parametrize(("rows", "ntu", "ratio"), [(2, 2.0, 0.5), (3, 3.0, 0.2), (4, 1.0, 0.9), (4, 3.0, 1.0)])
def test_rows_in_depth_are_of_fourth_order_in_the_length_of_the_cell(rows, ntu, ratio):
    """Without the air's slope the order is 2 and ten times as many cells give as much."""
    exact = effectiveness(ntu, ratio, sub_rows=rows, steps=400)
    errors = [abs(effectiveness(ntu, ratio, sub_rows=rows, steps=n) - exact) for n in (2, 4, 8)]
    assert errors[0] < 1e-3 * exact
    orders = [np.log2(a / b) for a, b in itertools.pairwise(errors)]
    assert orders == pytest.approx([4.0, 4.0], abs=0.5)


@pytest.mark.parametrize("exponent", [1e-9, 0.1, 1.0, 2.0, 5.0, 50.0, 1e3, 1e9])
@pytest.mark.parametrize("seed", range(4))
def test_no_row_leaves_the_range_between_air_and_tube_fluid(seed, exponent):
    rng = np.random.default_rng(70 + seed)
    tube_pass = cut_pass(rng, strips=2, steps=5)
    air, e, _ = random_streams(rng, tube_pass.pieces.size)
    air_in = np.full_like(air, 40.0)
    out, tube_out = march(tube_pass, air, e, air_in, float((air * e).sum()) / exponent, 90.0, sub_rows=6)
    assert out.min() >= 40.0 - 1e-9
    assert out.max() <= 90.0 + 1e-9
    assert 40.0 - 1e-9 <= tube_out[0] <= 90.0 + 1e-9


def test_strips_share_the_tube_flow_and_mix_at_the_end():
    rng = np.random.default_rng(9)
    tube_pass = cut_pass(rng, strips=3, steps=2)
    air, e, air_in = random_streams(rng, tube_pass.pieces.size)
    out, mixed = march(tube_pass, air, e, air_in, 600.0, 90.0)
    starts = tube_pass.cell_starts.reshape(3, 2)
    ends = [*starts[1:, 0], tube_pass.pieces.size]
    leaving = []
    for strip, (first, end) in enumerate(zip(starts[:, 0], ends, strict=True)):
        alone = TubePass(pieces=np.arange(end - first), cell_starts=starts[strip] - first, strip_share=np.array([1.0]))
        cut = slice(first, end)
        behind, tube_out = march(
            alone, air[:, cut], e[:, cut], air_in[:, cut], 600.0 * tube_pass.strip_share[strip], 90.0
        )
        assert out[:, cut] == pytest.approx(behind, rel=1e-12)
        leaving.append(float(tube_out[0]))
    assert mixed[0] == pytest.approx(float(np.dot(tube_pass.strip_share, leaving)), rel=1e-12)


@pytest.mark.parametrize("passes", [2, 3])
def test_passes_side_by_side_multiply_what_each_leaves_over(passes):
    """Shah & Sekulić: each pass sees fresh air and the header mixes, so 1 − P = Π(1 − P_i), P on the tube fluid's side."""
    tube, air_in = 700.0, 40.0
    fractions = {2: (0.6, 0.4), 3: (0.5, 0.3, 0.2)}[passes]
    now, left = 100.0, 1.0
    for fraction in fractions:
        now = cross(2100.0 * fraction, 1500.0 * fraction, tube, air_in, now, sub_rows=2, steps=5, strips=2)[1]
        alone = cross(2100.0 * fraction, 1500.0 * fraction, tube, 0.0, 1.0, sub_rows=2, steps=5, strips=2)[1]
        left *= alone
    assert (now - air_in) / 60.0 == pytest.approx(left, rel=1e-12)


# What holds exactly with frozen conductance.


def test_the_pattern_of_air_temperature_across_horizontal_tubes_does_not_matter():
    """Equal tube flows and even air: the heat is that of the mean temperature, whatever the tubes see."""
    tube_pass = even_pass(strips=6, steps=4)
    cells = tube_pass.pieces.size
    air, e = np.full((1, cells), 40.0), np.full((1, cells), 0.55)
    per_strip = np.array([20.0, 95.0, 33.0, 41.0, 70.0, 29.0])
    pattern, even = np.repeat(per_strip, 4)[None, :], np.full((1, cells), per_strip.mean())
    for sub_rows in (1, 3):
        with_pattern = march(tube_pass, air, e, pattern, 900.0, 104.0, sub_rows)[1]
        assert with_pattern == pytest.approx(march(tube_pass, air, e, even, 900.0, 104.0, sub_rows)[1], rel=1e-13)


def test_a_pattern_along_the_tubes_does_matter():
    tube_pass = even_pass(strips=1, steps=2)
    air, e = np.full((1, 2), 400.0), np.full((1, 2), 0.6)
    first_cold = march(tube_pass, air, e, np.array([[20.0, 60.0]]), 300.0, 100.0)[1]
    first_warm = march(tube_pass, air, e, np.array([[60.0, 20.0]]), 300.0, 100.0)[1]
    assert first_warm[0] < first_cold[0] - 1.0


def test_heat_is_affine_in_both_inlet_temperatures_and_nothing_at_equal_ones():
    rng = np.random.default_rng(4)
    tube_pass = cut_pass(rng, strips=4, steps=5)
    air, e, pattern = random_streams(rng, tube_pass.pieces.size)

    def heat(tube_in: float, shift: float) -> float:
        return 500.0 * (tube_in - float(march(tube_pass, air, e, pattern + shift, 500.0, tube_in, 2)[1][0]))

    for one, two, three in ((90.0, 100.0, 110.0), (60.0, 75.0, 90.0)):
        assert heat(two, 0.0) == pytest.approx(0.5 * (heat(one, 0.0) + heat(three, 0.0)), rel=1e-11)
    assert heat(90.0, 5.0) == pytest.approx(0.5 * (heat(90.0, 0.0) + heat(90.0, 10.0)), rel=1e-11)
    assert heat(97.0, 7.0) == pytest.approx(heat(90.0, 0.0), rel=1e-11)
    out, tube_out = march(tube_pass, air, e, np.full_like(pattern, 66.0), 500.0, 66.0, 2)
    assert out == pytest.approx(np.full_like(out, 66.0), rel=1e-14)
    assert tube_out[0] == pytest.approx(66.0, rel=1e-14)


def test_the_direction_of_the_tube_fluid_does_not_matter_where_the_air_is_the_same_from_both_ends():
    rng = np.random.default_rng(6)
    half_air, half_e, half_in = random_streams(rng, 4)
    tube_pass = even_pass(strips=1, steps=8)
    air, e, air_in = (np.concatenate([half, half[:, ::-1]], axis=1) for half in (half_air, half_e, half_in))
    there = march(tube_pass, air, e, air_in, 90.0, 100.0)
    back = march(tube_pass, air[:, ::-1], e[:, ::-1], air_in[:, ::-1], 90.0, 100.0)
    assert there[1] == pytest.approx(back[1], rel=1e-13)
    assert there[0] == pytest.approx(back[0], rel=1e-13)


def test_a_finer_grid_changes_nothing_for_one_row():
    coarse_air, coarse_e, coarse_in = random_streams(np.random.default_rng(7), 6)
    coarse = march(even_pass(2, 3), coarse_air, coarse_e, coarse_in, 200.0, 100.0)
    fine_air, fine_e, fine_in = (np.repeat(part, 4, axis=1) for part in (coarse_air / 4.0, coarse_e, coarse_in))
    fine = march(even_pass(2, 12), fine_air, fine_e, fine_in, 200.0, 100.0)
    assert fine[1] == pytest.approx(coarse[1], rel=1e-13)
    assert fine[0].reshape(6, 4).mean(axis=1) == pytest.approx(coarse[0][0], rel=1e-13)


def test_more_conductance_more_air_or_more_tube_flow_never_means_less_heat():
    """A theorem of one evenly swept row: ε = (1 − exp(−C·(1 − e^−N)))/C rises in each of the three."""
    base = (900.0, 700.0, 1200.0)

    def heat(conductance: float, air: float, tube: float) -> float:
        return tube * (100.0 - cross(conductance, air, tube, 40.0, 100.0)[1])

    for which in range(3):
        found = [
            heat(*(v * (f if n == which else 1.0) for n, v in enumerate(base))) for f in np.geomspace(1e-3, 1e3, 40)
        ]
        assert (np.diff(found) > -1e-8).all()
        assert found[-1] > found[19] > found[0]


# Far from any vehicle.


def test_without_exchange_nothing_changes():
    air_in = np.array([[31.0, 47.0, 12.0]])
    out, tube_out = march(even_pass(1, 3), np.full((1, 3), 50.0), np.zeros((1, 3)), air_in, 300.0, 90.0, 3)
    assert (out == air_in).all()
    assert tube_out[0] == 90.0


def test_a_cell_without_air_leaves_the_tube_fluid_alone():
    e = np.array([[0.5, 1.0, 0.5]])
    air_in = np.array([[30.0, 55.0, 40.0]])
    with_gap = march(even_pass(1, 3), np.array([[50.0, 0.0, 60.0]]), e, air_in, 300.0, 90.0)
    without = march(even_pass(1, 2), np.array([[50.0, 60.0]]), e[:, [0, 2]], air_in[:, [0, 2]], 300.0, 90.0)
    assert with_gap[1] == pytest.approx(without[1], rel=1e-14)
    assert with_gap[0][:, [0, 2]] == pytest.approx(without[0], rel=1e-14)


def test_a_tube_fluid_of_next_to_no_capacity_leaves_at_the_air_of_its_last_cell():
    air_in = np.array([[30.0, 55.0, 41.5]])
    for tube in (0.0, 1e-9, 1e-4):
        out, tube_out = march(even_pass(1, 3), np.full((1, 3), 50.0), np.full((1, 3), 0.7), air_in, tube, 90.0)
        assert tube_out[0] == pytest.approx(41.5, abs=1e-9)
        assert out == pytest.approx(air_in, abs=1e-3)


def test_a_tube_fluid_of_endless_capacity_keeps_its_temperature():
    air_in = np.array([[30.0, 55.0, 41.5]])
    e = np.array([[0.2, 0.7, 0.9]])
    out, tube_out = march(even_pass(1, 3), np.full((1, 3), 50.0), e, air_in, 1e18, 90.0)
    assert tube_out[0] == 90.0
    assert out == pytest.approx(air_in + e * (90.0 - air_in), rel=1e-14)


@pytest.mark.parametrize("exponent", [1.0, 30.0, 590.0, 610.0, 1e4, 1e9])
def test_energy_is_kept_however_far_the_tube_fluid_cools(exponent):
    rng = np.random.default_rng(2)
    tube_pass = cut_pass(rng, strips=2, steps=6)
    air, e, air_in = random_streams(rng, tube_pass.pieces.size)
    tube = float((air * e).sum()) / exponent
    out, tube_out = march(tube_pass, air, e, air_in, tube, 90.0)
    assert np.isfinite(out).all()
    scale = tube * 90.0
    assert float((air * (out - air_in)).sum()) == pytest.approx(
        tube * (90.0 - float(tube_out[0])), abs=1e-12 * scale + 1e-13 * float((air * air_in).sum())
    )


def test_strips_marched_at_once_and_cell_by_cell_agree():
    """A companion in the batch that cools beyond the range of the running product sends the whole batch cell by cell."""
    rng = np.random.default_rng(12)
    tube_pass = cut_pass(rng, strips=3, steps=7)
    air, e, air_in = random_streams(rng, tube_pass.pieces.size)
    for weakest in (1.0, 100.0, 500.0):
        per_cell = np.add.reduceat(air * e, tube_pass.cell_starts, axis=1).reshape(3, 7)
        tube = float((per_cell.sum(axis=1) / tube_pass.strip_share).max()) / weakest
        alone = march_rows(tube_pass, air * e, e, air_in, np.array([tube]), np.array([95.0]), 1)
        capacities = np.array([tube, tube * weakest * 1e-4])
        beside = march_rows(
            tube_pass, *(np.repeat(x, 2, axis=0) for x in (air * e, e, air_in)), capacities, np.full(2, 95.0), 1
        )
        assert beside[0][:1] == pytest.approx(alone[0], rel=1e-12)
        assert beside[1][0] == pytest.approx(alone[1][0], rel=1e-12)


def test_problems_of_a_batch_do_not_touch_each_other():
    rng = np.random.default_rng(13)
    tube_pass = cut_pass(rng, strips=2, steps=3)
    streams = [random_streams(rng, tube_pass.pieces.size) for _ in range(4)]
    air, e, air_in = (np.concatenate(part) for part in zip(*streams, strict=True))
    tube, inlet = np.array([100.0, 900.0, 40.0, 3e3]), np.array([90.0, 100.0, 20.0, 104.0])
    together = march_rows(tube_pass, air * e, e, air_in, tube, inlet, 2)
    for row, stream in enumerate(streams):
        alone = march(tube_pass, *stream, tube[row], inlet[row], 2)
        assert together[0][row] == pytest.approx(alone[0][0], rel=1e-13)
        assert together[1][row] == pytest.approx(alone[1][0], rel=1e-13)


def test_effectiveness_never_leaves_its_range():
    for ntu in np.geomspace(1e-9, 1e4, 27):
        for ratio in (1e-6, 0.3, 1.0):
            for sub_rows in (1, 4):
                found = effectiveness(float(ntu), ratio, sub_rows=sub_rows, steps=3)
                assert -1e-9 <= found <= 1.0 + 1e-9


# One wall temperature.


def test_one_wall_sheds_the_heat_it_is_given():
    """By hand: (9000 + 200·30 + 100·60)/300 = 70 °C."""
    wall, total = wall_temperature_degc(np.array([9000.0]), np.array([[200.0, 100.0]]), np.array([[30.0, 60.0]]))
    assert wall == pytest.approx([70.0], rel=1e-14)
    assert total == pytest.approx([300.0], rel=1e-14)


def test_a_wall_without_air_is_infinitely_hot_and_warns_of_nothing():
    wall, total = wall_temperature_degc(np.array([9000.0, 0.0, 500.0]), np.zeros((3, 2)), np.full((3, 2), 30.0))
    assert np.isposinf(wall).all()
    assert not total.any()


@pytest.mark.parametrize("exchange", [1e-7, 1e-100, 1e-308])
def test_a_breath_of_air_is_none_to_a_wall(exchange):
    """Left over by round-off somewhere else; heat over that much air is no number."""
    wall, total = wall_temperature_degc(np.array([9000.0]), np.full((1, 2), exchange), np.full((1, 2), 30.0))
    assert np.isposinf(wall).all()
    assert not total.any()
