"""What a fan moves: its curve, one derived from its free flow, or the sentence that says why there is none."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from grillestack.model.engine import DutyCase, Environment
from grillestack.model.parts import Fan, FanDrive
from grillestack.physics.fan_curve import FanCurve, derive_fan_curve, fit_fan_curve
from grillestack.units.convert import m_from_mm


@dataclass(frozen=True, slots=True)
class FanFigures:
    """The curve a fan is computed with, or what is missing; `derived` says that it rests on the free flow alone."""

    curve: FanCurve | None
    derived: bool
    problem: str | None


@functools.lru_cache(maxsize=256)
def fan_figures(fan: Fan) -> FanFigures:
    """Return what is known of this fan."""
    try:
        if fan.curve:
            points = sorted(fan.curve, key=lambda point: point.flow_m3_s)
            flow = np.array([point.flow_m3_s for point in points])
            pressure = np.array([point.pressure_pa for point in points])
            return FanFigures(fit_fan_curve(flow, pressure).curve, derived=False, problem=None)
        if fan.free_flow_m3_s is not None:
            return FanFigures(
                derive_fan_curve(fan.free_flow_m3_s, m_from_mm(fan.ring_diameter_mm)), derived=True, problem=None
            )
    except ValueError as unusable:
        return FanFigures(
            None, derived=False, problem=f"The figures of the fan “{fan.name}” cannot be used: {unusable}"
        )
    return FanFigures(
        None,
        derived=False,
        problem=f"What the fan “{fan.name}” moves is not known: type its curve or its free flow.",
    )


def speed_ratio(fan: Fan, case: DutyCase, environment: Environment) -> float | None:
    """Return the fan's speed over that of its curve in one duty case; nothing where a belt fan's speed is not known.

    An electric fan's speed goes with its voltage, a belt fan's with the engine's, less what its clutch slips.
    """
    if fan.drive is FanDrive.BELT:
        if case.engine_speed_rpm is None or fan.drive_ratio_factor is None or fan.curve_speed_rpm is None:
            return None
        turned = case.engine_speed_rpm * fan.drive_ratio_factor * (1.0 - fan.clutch_slip_frac)
        return turned / fan.curve_speed_rpm
    if not case.fans_on:
        return 0.0
    if environment.supply_voltage_v is None or fan.rated_voltage_v is None:
        return 1.0
    return environment.supply_voltage_v / fan.rated_voltage_v


def speed_problem(fan: Fan, case: DutyCase, environment: Environment) -> str | None:
    """Return the sentence that says why a fan's speed is not known in a duty case, if so."""
    if speed_ratio(fan, case, environment) is not None:
        return None
    if case.engine_speed_rpm is None:
        return f"How fast the belt fan “{fan.name}” turns in “{case.name}” is not known: type the engine speed of that case."
    return f"How fast the belt fan “{fan.name}” turns is not known: type its drive ratio and the speed of its curve."
