"""How the coolant moves when the load steps: from a steady drive into the grade, then down again at idle.

Coolant, the metal that follows it and the radiator are one lump at the top tank temperature. Air, fans, ambient and engine heat
of a duty case are there at once; the heat shed is the pack's own, solved at a dozen top tank temperatures.

Left out: the thermostat's way from open to fully open, during which part of the coolant still goes past the radiator; what the
air takes from engine and hoses; oil, and the heat that soaks out of hot metal after the load; fans that switch; boiling. The first
makes the start colder and the time to the limit longer than on the vehicle, oil and more metal would make it longer still.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from grillestack.assess.asked import AskedCase, asked_cases
from grillestack.assess.defaults import FAN_ON_DEGC, engine_value
from grillestack.assess.heat_shed import HeatShed, heat_shed
from grillestack.assess.heat_stored import heat_stores
from grillestack.assess.over_time_words import basis_over_time, notes_over_time
from grillestack.assess.result import Basis
from grillestack.model.project import Project
from grillestack.physics.lumped_heat import Lump, rest_degc, temperature_after_degc, time_to_reach_s

_STEPS: Final = 120
# A curve ends when this much of its way is gone; one that goes nowhere is shown for ten minutes.
_SHOWN_FRAC: Final = 0.99
_STILL_S: Final = 600.0
_STILL_K: Final = 1e-6
_SIXTY_THREE_FRAC: Final = -math.expm1(-1.0)


@dataclass(frozen=True, slots=True)
class TimePoint:
    """The top tank temperature at one time after the step."""

    seconds_s: float
    top_tank_degc: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cooling:
    """How the coolant falls when the vehicle stands and idles; a time is `None` where that is never reached.

    `half_s` and `sixty_three_s` are the times for half and for 63 % of the way from `begin_degc` to `end_degc`, `fan_on_s` that
    to `fan_on_degc`. `end_degc` is `None` if the coolant warms past all that is computed.
    """

    case_name: str
    begin_degc: float
    end_degc: float | None
    half_s: float | None
    sixty_three_s: float | None
    fan_on_degc: float
    fan_on_s: float | None
    points: tuple[TimePoint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OverTime:
    """The step from one duty case to another, and the idling after it, from the limit or from what was reached.

    `start_degc` is `None` if the first case has no steady temperature, `steady_degc` if the second has none. `time_to_limit_s` is
    `None` if the limit is never reached and 0 if the coolant is there from the start; then, and only then, `points` may be empty.
    """

    from_case_name: str
    to_case_name: str
    start_degc: float | None
    steady_degc: float | None
    limit_degc: float
    thermostat_degc: float
    time_to_limit_s: float | None
    points: tuple[TimePoint, ...]
    cooling: Cooling | None
    capacity_j_per_k: float
    basis: tuple[Basis, ...]
    notes: tuple[str, ...]


def over_time(
    project: Project,
    from_case_id: str,
    to_case_id: str,
    progress: Callable[[float], bool] = lambda _share: True,
) -> OverTime | None:
    """Return how the coolant moves from one duty case into another, or nothing if that cannot be judged or was cancelled.

    Parameters
    ----------
    progress
        Told the share done; answers whether to go on.
    """
    asked = {one.case.id: one for one in asked_cases(project)}
    start, load = asked.get(from_case_id), asked.get(to_case_id)
    stores = heat_stores(project)
    if start is None or load is None or not (start.answerable and load.answerable) or stores is None:
        return None
    idle = idle_case(tuple(asked.values()))
    if not progress(0.0):
        return None
    shed = heat_shed(project, [start, load] if idle is None else [start, load, idle])
    before, under_load = shed[0], shed[1]
    if before is None or under_load is None or not progress(1.0):
        return None
    thermostat_degc = engine_value(project.engine, "thermostat_degc")
    capacity_j_per_k = sum(store.capacity_j_per_k for store in stores)
    lump, limit_degc = _lump(load, under_load, capacity_j_per_k), load.top_tank_limit_degc
    start_degc, steady_degc = _steady_degc(before, thermostat_degc), _steady_degc(under_load, thermostat_degc)
    starts_above = start_degc is None or start_degc >= limit_degc
    to_limit_s = 0.0 if start_degc is None or starts_above else time_to_reach_s(lump, start_degc, limit_degc)
    reached_degc = limit_degc if to_limit_s is not None or steady_degc is None else steady_degc
    cooling = None
    if idle is not None and shed[2] is not None:
        cooling = _cooling(idle.case.name, _lump(idle, shed[2], capacity_j_per_k), reached_degc)
    return OverTime(
        from_case_name=start.case.name,
        to_case_name=load.case.name,
        start_degc=start_degc,
        steady_degc=steady_degc,
        limit_degc=limit_degc,
        thermostat_degc=thermostat_degc,
        time_to_limit_s=to_limit_s,
        points=() if start_degc is None or start_degc >= lump.highest_degc else _curve(lump, start_degc),
        cooling=cooling,
        capacity_j_per_k=capacity_j_per_k,
        basis=basis_over_time(project, stores),
        notes=notes_over_time((start, load, idle), shed, thermostat_degc),
    )


def idle_case(asked: Sequence[AskedCase]) -> AskedCase | None:
    """Return the duty case that stands still with the least heat, or nothing if none stands still."""
    standing = [one for one in asked if one.answerable and one.case.road_speed_m_s == 0.0]
    return min(standing, key=lambda one: one.case.heat_frac, default=None)


def _lump(asked: AskedCase, shed: HeatShed, capacity_j_per_k: float) -> Lump:
    return Lump(
        capacity_j_per_k=capacity_j_per_k,
        heat_in_w=asked.heat_target_w or 0.0,
        corner_degc=shed.corner_degc,
        corner_heat_w=shed.corner_heat_w,
    )


def _steady_degc(shed: HeatShed, thermostat_degc: float) -> float | None:
    return None if shed.steady_degc is None else max(shed.steady_degc, thermostat_degc)


def _curve(lump: Lump, start_degc: float) -> tuple[TimePoint, ...]:
    rest = rest_degc(lump, start_degc)
    shown_degc = lump.highest_degc if rest is None else start_degc + _SHOWN_FRAC * (rest - start_degc)
    goes = abs(shown_degc - start_degc) > _STILL_K
    lasts_s = time_to_reach_s(lump, start_degc, shown_degc) if goes else None
    if lasts_s is None:
        lasts_s = _STILL_S
    times_s = [lasts_s * step / _STEPS for step in range(_STEPS + 1)]
    return tuple(TimePoint(at_s, temperature_after_degc(lump, start_degc, at_s)) for at_s in times_s)


def _cooling(case_name: str, lump: Lump, begin_degc: float) -> Cooling:
    end_degc = rest_degc(lump, begin_degc)

    def fallen_s(share_frac: float) -> float | None:
        if end_degc is None or begin_degc - end_degc < _STILL_K:
            return None
        return time_to_reach_s(lump, begin_degc, begin_degc - share_frac * (begin_degc - end_degc))

    return Cooling(
        case_name=case_name,
        begin_degc=begin_degc,
        end_degc=end_degc,
        half_s=fallen_s(0.5),
        sixty_three_s=fallen_s(_SIXTY_THREE_FRAC),
        fan_on_degc=FAN_ON_DEGC,
        fan_on_s=0.0 if begin_degc <= FAN_ON_DEGC else time_to_reach_s(lump, begin_degc, FAN_ON_DEGC),
        points=_curve(lump, begin_degc),
    )
