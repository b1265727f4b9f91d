"""One lump of heat, piece by piece."""

from __future__ import annotations

import dataclasses
import itertools
import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from grillestack.physics.lumped_heat import Lump, rest_degc, temperature_after_degc, time_to_reach_s

# Sheds 20 kW at 80 °C, 50 kW at 100 °C, 60 kW at 120 °C; nothing below 80 °C.
BENT = Lump(capacity_j_per_k=150e3, heat_in_w=40e3, corner_degc=(80.0, 100.0, 120.0), corner_heat_w=(20e3, 50e3, 60e3))


def _with(**changes: object) -> Lump:
    return dataclasses.replace(BENT, **changes)


def _taken_up_j(lump: Lump, start_degc: float, end_degc: float) -> float:
    """Return the integral over time of what is put in less what is shed, by Gauss-Legendre between the corners."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    low, high = min(start_degc, end_degc), max(start_degc, end_degc)
    inner = sorted(corner for corner in lump.corner_degc if low < corner < high)
    stations = [start_degc, *(inner if end_degc > start_degc else reversed(inner)), end_degc]
    total = 0.0
    for begin, end in itertools.pairwise(stations):
        lasts_s = time_to_reach_s(lump, begin, end)
        for node, weight in zip(nodes, weights, strict=True):
            at_degc = temperature_after_degc(lump, begin, 0.5 * lasts_s * (1.0 + node))
            total += 0.5 * lasts_s * weight * (lump.heat_in_w - lump.heat_shed_w(at_degc))
    return total


@st.composite
def _lumps(draw: st.DrawFn) -> Lump:
    steps = draw(st.lists(st.floats(0.5, 20.0), min_size=1, max_size=6))
    rises = draw(st.lists(st.floats(0.0, 30e3), min_size=len(steps), max_size=len(steps)))
    corners = tuple(itertools.accumulate(steps, initial=80.0))
    heats = tuple(itertools.accumulate(rises, initial=draw(st.floats(0.0, 40e3))))
    return Lump(
        capacity_j_per_k=draw(st.floats(1e3, 1e6)),
        heat_in_w=draw(st.floats(0.0, 150e3)),
        corner_degc=corners,
        corner_heat_w=heats,
    )


def test_the_lump_rests_where_it_sheds_what_is_put_in():
    # 20 kW at 80 °C and 1.5 kW/K more: 40 kW at 80 + 20/1.5 = 93.33 °C, from either side.
    assert rest_degc(BENT, 85.0) == pytest.approx(80.0 + 20.0 / 1.5, abs=1e-12)
    assert rest_degc(BENT, 115.0) == pytest.approx(80.0 + 20.0 / 1.5, abs=1e-12)


def test_a_shut_thermostat_lets_the_lump_warm_evenly_and_holds_it_when_open():
    cold = _with(heat_in_w=15e3)
    # 15 kW into 150 kJ/K: a tenth of a kelvin each second, from 50 to 80 °C in 300 s.
    assert time_to_reach_s(cold, 50.0, 80.0) == pytest.approx(300.0, rel=1e-12)
    assert temperature_after_degc(cold, 50.0, 100.0) == pytest.approx(60.0, rel=1e-12)
    assert rest_degc(cold, 50.0) == 80.0
    assert temperature_after_degc(cold, 50.0, 1e5) == 80.0


def test_the_thermostat_is_reached_from_above_in_a_finite_time():
    falling = _with(heat_in_w=15e3)
    reached_s = time_to_reach_s(falling, 95.0, 80.0)
    # Excess -5 kW at 80 °C, 1.5 kW/K: t = C/s · ln(excess at 95 / excess at 80) = 100 s · ln(27.5/5).
    assert reached_s == pytest.approx(100.0 * math.log(27.5 / 5.0), rel=1e-12)
    assert temperature_after_degc(falling, 95.0, reached_s + 1.0) == 80.0


def test_where_it_rests_above_the_thermostat_it_comes_near_but_never_arrives():
    rest = rest_degc(BENT, 85.0)
    assert time_to_reach_s(BENT, 85.0, rest) is None
    assert time_to_reach_s(BENT, 85.0, rest + 1.0) is None
    assert time_to_reach_s(BENT, 85.0, rest - 1e-3) < math.inf
    assert temperature_after_degc(BENT, 85.0, 1e6) == rest


def test_a_rest_in_a_corner_is_a_rest():
    cornered = _with(heat_in_w=50e3)
    for start in (85.0, 118.0):
        assert rest_degc(cornered, start) == 100.0
        assert time_to_reach_s(cornered, start, 100.0) is None
    assert rest_degc(cornered, 100.0) == 100.0
    assert temperature_after_degc(cornered, 100.0, 500.0) == 100.0


def test_more_heat_than_can_be_shed_warms_it_past_what_is_known():
    hot = _with(heat_in_w=70e3)
    assert rest_degc(hot, 85.0) is None
    gone_s = time_to_reach_s(hot, 85.0, 120.0)
    assert temperature_after_degc(hot, 85.0, 2.0 * gone_s) == 120.0
    assert time_to_reach_s(hot, 85.0, 130.0) is None
    assert time_to_reach_s(hot, 100.0, 90.0) is None


def test_above_the_highest_corner_there_is_no_answer():
    for ask in (rest_degc, lambda lump, start: time_to_reach_s(lump, start, 90.0)):
        with pytest.raises(ValueError, match="only up to 120 °C"):
            ask(BENT, 120.1)
    with pytest.raises(ValueError, match="121 °C is not known"):
        temperature_after_degc(BENT, 121.0, 1.0)


def test_without_air_the_temperature_rises_in_a_straight_line():
    still = _with(corner_heat_w=(0.0, 0.0, 0.0))
    assert time_to_reach_s(still, 85.0, 115.0) == pytest.approx(150e3 * 30.0 / 40e3, rel=1e-12)


def test_heat_that_falls_with_temperature_runs_away_exponentially():
    runaway = _with(corner_degc=(80.0, 120.0), corner_heat_w=(39e3, 29e3))
    # Excess 1 kW at 80 °C, growing by 0.25 kW/K: t = C/0.25 kW/K · ln(excess at 90 / excess at 80).
    assert time_to_reach_s(runaway, 80.0, 90.0) == pytest.approx(600.0 * math.log(3.5 / 1.0), rel=1e-12)


def test_no_time_passes_to_where_it_is():
    assert time_to_reach_s(BENT, 97.0, 97.0) == 0.0
    assert temperature_after_degc(BENT, 97.0, 0.0) == 97.0


def test_heat_between_the_corners_lies_on_their_line():
    assert [BENT.heat_shed_w(at) for at in (79.999, 80.0, 90.0, 100.0, 110.0, 120.0)] == [
        0.0,
        20e3,
        35e3,
        50e3,
        55e3,
        60e3,
    ]


@pytest.mark.parametrize(("start", "end"), [(60.0, 92.0), (119.0, 94.0), (80.0, 85.0), (100.0, 97.0)])
def test_heat_put_in_less_heat_shed_is_what_the_lump_took_up(start, end):
    """A law: the integral by Gauss-Legendre against C·ΔT, to round-off."""
    assert _taken_up_j(BENT, start, end) == pytest.approx(150e3 * (end - start), rel=1e-12)


@settings(deadline=None, max_examples=60)
@given(_lumps(), st.floats(0.0, 1.0), st.floats(0.02, 0.98))
def test_time_and_temperature_are_each_others_inverse_and_energy_is_kept(lump, start_frac, way_frac):
    start = 60.0 + start_frac * (lump.highest_degc - 60.0)
    rest = rest_degc(lump, start)
    end = lump.highest_degc if rest is None else rest
    if abs(end - start) < 0.01:
        return
    there = start + way_frac * (end - start)
    passed_s = time_to_reach_s(lump, start, there)
    # A watt that would take longer than any number to warm the lump never gets it there.
    assume(passed_s is not None)
    assert temperature_after_degc(lump, start, passed_s) == pytest.approx(there, abs=1e-9 * (1.0 + abs(end - start)))
    assert _taken_up_j(lump, start, there) == pytest.approx(lump.capacity_j_per_k * (there - start), rel=1e-9)


@settings(deadline=None, max_examples=60)
@given(_lumps(), st.floats(1.01, 5.0))
def test_every_time_grows_with_the_capacity(lump, factor):
    """A theorem: time enters the equation only as t/C."""
    heavier = dataclasses.replace(lump, capacity_j_per_k=factor * lump.capacity_j_per_k)
    middle = 0.5 * (lump.opening_degc + lump.highest_degc)
    light_s, heavy_s = (time_to_reach_s(one, lump.opening_degc, middle) for one in (lump, heavier))
    if light_s is None:
        assert heavy_s is None
    else:
        assert heavy_s == pytest.approx(factor * light_s, rel=1e-9)
    assert rest_degc(heavier, middle) == rest_degc(lump, middle)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"capacity_j_per_k": 0.0}, "capacity above 0"),
        ({"heat_in_w": -1.0}, "no less than 0 W"),
        ({"heat_in_w": math.nan}, "finite"),
        ({"corner_heat_w": (0.0, 1.0, math.inf)}, "finite"),
        ({"corner_degc": (80.0, 90.0)}, "two or more corners"),
        ({"corner_degc": (80.0,), "corner_heat_w": (1.0,)}, "two or more corners"),
        ({"corner_degc": (80.0, 80.0, 90.0)}, "must rise"),
    ],
)
def test_what_is_no_lump_is_refused_in_one_sentence(changes, says):
    with pytest.raises(ValueError, match=says):
        _with(**changes)
