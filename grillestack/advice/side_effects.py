"""What else a change does: limits that charge air, refrigerant or another duty case then pass or keep again."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from grillestack.advice.heat import CUT_OUT_CONDENSING_DEGC
from grillestack.assess.result import Assessment, CaseResult
from grillestack.assess.verdict import CLOSE_CHARGE_K
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

# What is over its limit already counts as further over it from this much on: below, it is nothing that one could measure.
_FURTHER_K: Final = 0.1
_FURTHER_FRAC: Final = 0.01


@dataclass(frozen=True, slots=True)
class SideEffect:
    """One thing a change brings besides its degrees; `spoils` if it brings something over its limit."""

    text: str
    spoils: bool


@dataclass(frozen=True, slots=True)
class _Limit:
    """A figure of a duty case and its limit, both in the unit of the dimension."""

    what: str
    figure: Callable[[CaseResult], float | None]
    most: Callable[[CaseResult], float | None]
    dimension: Dimension
    has_close: bool

    def worst(self, assessment: Assessment) -> tuple[str, float, float] | None:
        """Return the case that stands highest against its limit: name, figure above limit, limit."""
        known = [(case.name, self.figure(case), self.most(case)) for case in assessment.cases]
        over = [(name, value - most, most) for name, value, most in known if value is not None and most is not None]
        return max(over, key=lambda one: one[1], default=None)


_LIMITS: Final = (
    _Limit(
        "the charge air",
        lambda case: case.charge_out_degc,
        lambda case: case.charge_out_limit_degc,
        Dimension.TEMPERATURE_DIFFERENCE,
        has_close=True,
    ),
    _Limit(
        "the charge pressure loss",
        lambda case: case.charge_loss_pa,
        lambda case: case.charge_loss_limit_pa,
        Dimension.PRESSURE,
        has_close=False,
    ),
    _Limit(
        "the condenser",
        lambda case: case.condensing_degc,
        lambda _case: CUT_OUT_CONDENSING_DEGC,
        Dimension.TEMPERATURE_DIFFERENCE,
        has_close=False,
    ),
)


def side_effects(before: Assessment, after: Assessment, units: UnitSystem) -> tuple[SideEffect, ...]:
    """Return what the change does to charge air and condenser, each in its worst duty case."""
    found = (
        _effect(limit, limit.worst(before), now, units) for limit in _LIMITS if (now := limit.worst(after)) is not None
    )
    return tuple(effect for effect in found if effect is not None)


def costs_another_case_its_day(before: Assessment, after: Assessment, case_id: str) -> bool:
    """Return whether a duty case other than this one misses its design day that did not, or misses it by more."""
    was = {case.case_id: case for case in before.cases}
    return any(
        _misses_by_k(case) > _misses_by_k(was[case.case_id]) + _FURTHER_K
        for case in after.cases
        if case.case_id != case_id
    )


def _effect(
    limit: _Limit, was: tuple[str, float, float] | None, now: tuple[str, float, float], units: UnitSystem
) -> SideEffect | None:
    case_name, over, most = now
    before = -math.inf if was is None else was[1]
    further = _FURTHER_K if limit.dimension is Dimension.TEMPERATURE_DIFFERENCE else _FURTHER_FRAC * most
    by = show_quantity(abs(over), limit.dimension, units)
    if over > 0.0 >= before:
        return SideEffect(f"also brings {limit.what} {by} over its limit ({case_name})", spoils=True)
    if before > 0.0 and over > before + further:
        return SideEffect(f"also takes {limit.what} further over its limit, by {by} now ({case_name})", spoils=True)
    if before > 0.0 >= over:
        return SideEffect(f"also brings {limit.what} back within its limit", spoils=False)
    if limit.has_close and before <= -CLOSE_CHARGE_K < over <= 0.0:
        return SideEffect(f"also brings {limit.what} within {by} of its limit ({case_name})", spoils=False)
    return None


def _misses_by_k(case: CaseResult) -> float:
    """Return by how much the design day lies above the hottest day; infinite where no day is cold enough."""
    if case.heat_target_w is None or case.design_ambient_degc is None:
        return 0.0
    if case.limiting_ambient_degc is None:
        return float("inf")
    return max(case.design_ambient_degc - case.limiting_ambient_degc, 0.0)
