"""How one lump of heat warms and cools: in closed form, where what it sheds is a line of straight pieces.

    C·dT/dt = Q_in − Q(T)

On a piece with slope s and excess k = Q_in − Q(T0) at its start this is first order, with the time constant C/s:

    T(t) = T0 + (k/s)·(1 − e^(−s·t/C)),    t(T) = −(C/s)·ln(1 − s·(T − T0)/k)

Source: lumped capacitance, [INCROPERA] chapter 5, from memory.
"""

from __future__ import annotations

import itertools
import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

# Rounding of where a piece comes to rest: nearer to a corner than this share of the way, it rests in the corner.
_CORNER_FRAC: Final = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """A lump with constant heat put in, and what it sheds at each temperature.

    Attributes
    ----------
    capacity_j_per_k
        Heat stored per kelvin.
    heat_in_w
        Heat put in, not below 0.
    corner_degc, corner_heat_w
        Corners of the line of heat shed, temperatures rising, at least two. Below the first corner nothing is shed: there the
        thermostat is shut. Above the last nothing is known.

    Raises
    ------
    ValueError
        With one sentence, if this is no such lump.
    """

    capacity_j_per_k: float
    heat_in_w: float
    corner_degc: tuple[float, ...]
    corner_heat_w: tuple[float, ...]

    def __post_init__(self) -> None:
        numbers = (self.capacity_j_per_k, self.heat_in_w, *self.corner_degc, *self.corner_heat_w)
        if not all(map(math.isfinite, numbers)):
            raise ValueError("A lump of heat needs finite numbers throughout.")
        if self.capacity_j_per_k <= 0.0 or self.heat_in_w < 0.0:
            raise ValueError("A lump of heat needs a capacity above 0 J/K, and no less than 0 W put in.")
        if len(self.corner_degc) < 2 or len(self.corner_degc) != len(self.corner_heat_w):
            raise ValueError("The heat shed needs two or more corners, each with a temperature and a heat.")
        if any(low >= high for low, high in itertools.pairwise(self.corner_degc)):
            raise ValueError("The temperatures of the corners must rise.")

    @property
    def opening_degc(self) -> float:
        """Return the temperature below which nothing is shed."""
        return self.corner_degc[0]

    @property
    def highest_degc(self) -> float:
        """Return the temperature above which nothing is known."""
        return self.corner_degc[-1]

    def heat_shed_w(self, temperature_degc: float) -> float:
        """Return the heat shed at a temperature up to the highest; 0 below the opening one."""
        self.refuse_above_range(temperature_degc)
        if temperature_degc < self.opening_degc:
            return 0.0
        number = min(bisect_right(self.corner_degc, temperature_degc), len(self.corner_degc) - 1)
        return self._at(number, temperature_degc)

    def slope_w_per_k(self, number: int) -> float:
        """Return the slope of the piece that ends in this corner."""
        return (self.corner_heat_w[number] - self.corner_heat_w[number - 1]) / (
            self.corner_degc[number] - self.corner_degc[number - 1]
        )

    def refuse_above_range(self, temperature_degc: float) -> None:
        """Raise unless what is shed at this temperature is known."""
        if not temperature_degc <= self.highest_degc:
            raise ValueError(
                f"What is shed at {temperature_degc:g} °C is not known, only up to {self.highest_degc:g} °C."
            )

    def _at(self, number: int, temperature_degc: float) -> float:
        if temperature_degc == self.corner_degc[number]:
            return self.corner_heat_w[number]
        above_k = temperature_degc - self.corner_degc[number - 1]
        return self.corner_heat_w[number - 1] + self.slope_w_per_k(number) * above_k


@dataclass(frozen=True, slots=True)
class _Leg:
    """One stretch of the way: from a temperature to a corner, or to rest, which takes for ever."""

    begin_degc: float
    end_degc: float
    excess_w: float
    slope_w_per_k: float
    rests: bool

    def time_s(self, capacity_j_per_k: float, temperature_degc: float) -> float:
        """Return the time from the leg's begin to a temperature on it."""
        if self.rests and temperature_degc == self.end_degc:
            return math.inf
        way_k = temperature_degc - self.begin_degc
        done = self.slope_w_per_k * way_k / self.excess_w
        if done >= 1.0:
            return math.inf
        return capacity_j_per_k * way_k / self.excess_w * (-math.log1p(-done) / done if done else 1.0)

    def temperature_degc(self, capacity_j_per_k: float, elapsed_s: float) -> float:
        """Return the temperature some time after the leg's begin, never past its end."""
        decay = self.slope_w_per_k * elapsed_s / capacity_j_per_k
        shape = -math.expm1(-decay) / decay if decay else 1.0
        found = self.begin_degc + self.excess_w / capacity_j_per_k * elapsed_s * shape
        return min(found, self.end_degc) if self.end_degc > self.begin_degc else max(found, self.end_degc)


def rest_degc(lump: Lump, start_degc: float) -> float | None:
    """Return where the lump comes to rest from this temperature, or nothing if it warms past what is known.

    Raises
    ------
    ValueError
        If the start lies above the highest corner.
    """
    now = start_degc
    for leg in _legs(lump, start_degc):
        now = leg.end_degc
        if leg.rests:
            return now
    return None if _excess_w(lump, now) > 0.0 else now


def time_to_reach_s(lump: Lump, start_degc: float, target_degc: float) -> float | None:
    """Return the time from one temperature to another [s], or nothing if the lump never gets there.

    A temperature at which the lump rests is approached for ever, unless the thermostat holds it there.

    Raises
    ------
    ValueError
        If the start lies above the highest corner.
    """
    lump.refuse_above_range(start_degc)
    if target_degc == start_degc:
        return 0.0
    passed_s = 0.0
    for leg in _legs(lump, start_degc):
        if min(leg.begin_degc, leg.end_degc) <= target_degc <= max(leg.begin_degc, leg.end_degc):
            found_s = passed_s + leg.time_s(lump.capacity_j_per_k, target_degc)
            return found_s if math.isfinite(found_s) else None
        passed_s += leg.time_s(lump.capacity_j_per_k, leg.end_degc)
    return None


def temperature_after_degc(lump: Lump, start_degc: float, elapsed_s: float) -> float:
    """Return the temperature after some time; held at the highest corner once the lump has warmed past it.

    Raises
    ------
    ValueError
        If the start lies above the highest corner.
    """
    now, left_s = start_degc, elapsed_s
    for leg in _legs(lump, start_degc):
        takes_s = leg.time_s(lump.capacity_j_per_k, leg.end_degc)
        if left_s < takes_s:
            return leg.temperature_degc(lump.capacity_j_per_k, left_s)
        now, left_s = leg.end_degc, left_s - takes_s
    return now


def _excess_w(lump: Lump, now_degc: float) -> float:
    """Return what the lump takes up at a temperature; 0 where the thermostat holds it, partly open."""
    excess_w = lump.heat_in_w - lump.heat_shed_w(now_degc)
    return max(excess_w, 0.0) if now_degc <= lump.opening_degc else excess_w


def _legs(lump: Lump, start_degc: float) -> Iterator[_Leg]:
    lump.refuse_above_range(start_degc)
    now = start_degc
    while (leg := _leg(lump, now)) is not None:
        yield leg
        if leg.rests:
            return
        now = leg.end_degc


def _leg(lump: Lump, now_degc: float) -> _Leg | None:
    excess_w = _excess_w(lump, now_degc)
    if excess_w == 0.0:
        return None
    if now_degc < lump.opening_degc:
        return _Leg(now_degc, lump.opening_degc, excess_w, 0.0, rests=False)
    if excess_w > 0.0:
        number = bisect_right(lump.corner_degc, now_degc)
        if number == len(lump.corner_degc):
            return None
        end_degc = lump.corner_degc[number]
    else:
        number = bisect_left(lump.corner_degc, now_degc)
        end_degc = lump.corner_degc[number - 1]
    slope = lump.slope_w_per_k(number)
    way_k = end_degc - now_degc
    done = slope * way_k / excess_w
    if done > 1.0 + _CORNER_FRAC:
        return _Leg(now_degc, now_degc + excess_w / slope, excess_w, slope, rests=True)
    return _Leg(now_degc, end_degc, excess_w, slope, rests=done >= 1.0 - _CORNER_FRAC)
