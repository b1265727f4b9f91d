"""What pressure a fan makes at a flow, at any speed and density, and how a curve is got from few points."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import chain, combinations
from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values

FAN_REFERENCE_DENSITY_KG_M3: Final = 1.2
"""Density at which fan tables are drawn up. Common practice, no source."""

FALL_FROM_SQUARE_FRAC: Final = 0.1
"""Least share of the fall that is taken as growing with the square of the flow: a standing fan is never free. From memory."""

STALL_DIP_LIMIT_FRAC: Final = 0.5
"""A dip deeper than this share of the highest pressure is a slip of the pen, no stall."""

TYPICAL_DIAMETER_M: Final = 0.406
TYPICAL_FREE_FLOW_M3_S: Final = 1.175
TYPICAL_SHUT_OFF_PA: Final = 250.0
SHUT_OFF_LOWEST_PA: Final = 200.0
SHUT_OFF_HIGHEST_PA: Final = 300.0
FLOW_LEFT_AT_100_PA_FRAC: Final = 0.65
"""A 406 mm 12 V fan: 0.95-1.4 m³/s free, 200-300 Pa at no flow, 60-70 % of the free flow at 100 Pa. From memory."""

FASTEST_MEAN_AIR_M_S: Final = 40.0
"""No vehicle fan moves its circle of air faster; more is a flow in another unit."""


@dataclass(frozen=True, kw_only=True)
class FanCurve:
    """Static pressure of a fan at full speed, c0 - c1·Q - c2·Q|Q|, none of the three below zero.

    Raises
    ------
    ValueError
        If the three do not make a curve that starts above zero and falls.
    """

    c0_pa: float
    c1_pa_s_per_m3: float
    c2_pa_s2_per_m6: float
    reference_density_kg_m3: float = FAN_REFERENCE_DENSITY_KG_M3

    def __post_init__(self) -> None:
        terms = (self.c0_pa, self.c1_pa_s_per_m3, self.c2_pa_s2_per_m6, self.reference_density_kg_m3)
        falls = self.c1_pa_s_per_m3 > 0.0 or self.c2_pa_s2_per_m6 > 0.0
        if not all(math.isfinite(term) and term >= 0.0 for term in terms) or not falls or 0.0 in (terms[0], terms[3]):
            raise ValueError("A fan curve must start above zero pressure and fall as the flow grows.")

    @property
    def free_flow_m3_s(self) -> float:
        """Give the flow at no pressure, full speed."""
        root = math.sqrt(self.c1_pa_s_per_m3**2 + 4.0 * self.c0_pa * self.c2_pa_s2_per_m6)
        return 2.0 * self.c0_pa / (self.c1_pa_s_per_m3 + root)


@dataclass(frozen=True, kw_only=True)
class FanFit:
    """A fan curve fitted to points, and how far it stays from them."""

    curve: FanCurve
    max_deviation_pa: float
    lowered_by_pa: float

    @property
    def note(self) -> str:
        """Give a sentence when a stall dip was flattened, otherwise nothing."""
        if self.lowered_by_pa == 0.0:
            return ""
        return (
            f"The fan's pressure rises again behind a dip: points were lowered by up to {self.lowered_by_pa:.3g} Pa "
            "so that the curve falls throughout."
        )


def fan_pressure_pa(curve: FanCurve, flow_m3_s: Numbers, speed_ratio: Numbers, density_kg_m3: Numbers) -> Values:
    """Give the static pressure a fan adds to the air.

    Parameters
    ----------
    curve : at full speed
    flow_m3_s : flow, any shape; below zero when the air comes back through the fan [m³/s]
    speed_ratio : speed over full speed, any shape that broadcasts; below zero counts as standing [-]
    density_kg_m3 : density of the air at the fan, any shape that broadcasts [kg/m³]

    Returns
    -------
    pressure, the common shape [Pa]: falls as the flow grows; below zero where the air turns the fan, as in one
    standing still

    Valid for: geometrically the same fan; the fan laws are contained (flow with speed, pressure with its square).

    Source: [FANLAWS]
    """
    flow = np.asarray(flow_m3_s, dtype=np.float64)
    speed = np.maximum(np.asarray(speed_ratio, dtype=np.float64), 0.0)
    at_reference = (
        curve.c0_pa * speed * speed - curve.c1_pa_s_per_m3 * speed * flow - curve.c2_pa_s2_per_m6 * flow * np.abs(flow)
    )
    return np.asarray(density_kg_m3, dtype=np.float64) / curve.reference_density_kg_m3 * at_reference


def fit_fan_curve(
    flow_m3_s: Values, pressure_pa: Values, reference_density_kg_m3: float = FAN_REFERENCE_DENSITY_KG_M3
) -> FanFit:
    """Give the falling curve nearest to measured points, and its largest distance from them.

    Where the pressure rises again behind a stall dip, every point behind it is lowered to the dip: otherwise two
    flows would answer one pressure, and a low promise is better kept than a high one.

    Parameters
    ----------
    flow_m3_s : flows, at least three different, none below zero, any order [m³/s]
    pressure_pa : static pressures, as many, none below zero [Pa]
    reference_density_kg_m3 : density for which the points hold [kg/m³]

    Returns
    -------
    the curve; the largest distance of a given point from it; by how much points were lowered

    Raises
    ------
    ValueError
        If the points are too few, negative, or make no falling curve.

    Source: least squares over all choices of which terms are zero (ours)
    """
    flow = np.asarray(flow_m3_s, dtype=np.float64)
    pressure = np.asarray(pressure_pa, dtype=np.float64)
    if flow.ndim != 1 or flow.shape != pressure.shape:
        raise ValueError("A fan curve needs one pressure for each flow: fill both columns.")
    if not (np.all(np.isfinite(flow) & (flow >= 0.0)) and np.all(np.isfinite(pressure) & (pressure >= 0.0))):
        raise ValueError("A fan curve has no flow and no pressure below zero: correct the row.")
    if np.unique(flow).size < 3:
        raise ValueError(
            "A fan curve needs at least three different flows; with the free flow alone, have one derived."
        )
    order = np.lexsort((-pressure, flow))
    flow, pressure = flow[order], pressure[order]
    hull = np.minimum.accumulate(pressure)
    lowered = float(np.max(pressure - hull))
    if hull[-1] >= hull[0] or lowered > STALL_DIP_LIMIT_FRAC * float(np.max(pressure)):
        raise ValueError("The fan's pressure must fall as the flow grows: check that the columns are not swapped.")
    widest = float(flow[-1])
    share = flow / widest
    c0, c1, c2 = _nearest_falling(share, hull)
    curve = FanCurve(
        c0_pa=c0,
        c1_pa_s_per_m3=c1 / widest,
        c2_pa_s2_per_m6=c2 / widest**2,
        reference_density_kg_m3=reference_density_kg_m3,
    )
    deviation = pressure - (c0 - c1 * share - c2 * share**2)
    return FanFit(curve=curve, max_deviation_pa=float(np.max(np.abs(deviation))), lowered_by_pa=lowered)


def derive_fan_curve(free_flow_m3_s: float, diameter_m: float) -> FanCurve:
    """Give a likely curve for an electric fan of which only the free flow is known.

    The pressure at no flow follows the fan laws from a typical 406 mm fan, held between 200 and 300 Pa; at 100 Pa
    close to 65 % of the free flow is left. It is a guess: ask for the measured curve.

    Parameters
    ----------
    free_flow_m3_s : catalogue flow, at no pressure [m³/s]
    diameter_m : of the blades [m]

    Returns
    -------
    the curve at 1.2 kg/m³

    Raises
    ------
    ValueError
        If flow or diameter is not above zero, or the flow is out of all proportion to the circle.

    Source: common practice, from memory
    """
    for name, number in (("free flow", free_flow_m3_s), ("diameter", diameter_m)):
        if not (math.isfinite(number) and number > 0.0):
            raise ValueError(f"The fan's {name} must be more than zero, not {number:g}.")
    if free_flow_m3_s > FASTEST_MEAN_AIR_M_S * 0.25 * math.pi * diameter_m**2:
        raise ValueError(
            f"A free flow of {free_flow_m3_s:g} m³/s is too much for a fan of {diameter_m * 1000:.0f} mm: check its unit."
        )
    by_fan_laws = (
        TYPICAL_SHUT_OFF_PA * (free_flow_m3_s / TYPICAL_FREE_FLOW_M3_S) ** 2 * (TYPICAL_DIAMETER_M / diameter_m) ** 4
    )
    shut_off = min(max(by_fan_laws, SHUT_OFF_LOWEST_PA), SHUT_OFF_HIGHEST_PA)
    left = FLOW_LEFT_AT_100_PA_FRAC
    # Of the fall, the share `linear` goes with the flow and the rest with its square; it passes (left, 100 Pa).
    linear = (1.0 - 100.0 / shut_off - left**2) / (left - left**2)
    linear = min(max(linear, 0.0), 1.0 - FALL_FROM_SQUARE_FRAC)
    return FanCurve(
        c0_pa=shut_off,
        c1_pa_s_per_m3=shut_off * linear / free_flow_m3_s,
        c2_pa_s2_per_m6=shut_off * (1.0 - linear) / free_flow_m3_s**2,
    )


def _nearest_falling(share: Values, pressure: Values) -> tuple[float, float, float]:
    """Give c0, c1, c2 over the share of the widest flow, c1 and c2 at least zero, c2 at least its floor."""
    columns = (1.0 - FALL_FROM_SQUARE_FRAC * share**2, -share, -(share**2))
    nearest, least = np.zeros(3), math.inf
    for others in chain.from_iterable(combinations((1, 2), count) for count in range(3)):
        chosen = [0, *others]
        matrix = np.column_stack([columns[i] for i in chosen])
        solution = np.linalg.lstsq(matrix, pressure, rcond=None)[0]
        rest = pressure - matrix @ solution
        if np.all(solution >= 0.0) and float(rest @ rest) < least:
            least = float(rest @ rest)
            nearest = np.zeros(3)
            nearest[chosen] = solution
    c0, c1, extra = (float(term) for term in nearest)
    return c0, c1, FALL_FROM_SQUARE_FRAC * c0 + extra
