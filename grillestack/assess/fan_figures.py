"""What a fan moves: its curve, one derived from its free flow, or the sentence that says why there is none."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from grillestack.model.parts import Fan
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
