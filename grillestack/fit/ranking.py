"""In which order parts and places come: what the pack gains first, then what is easier to build."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from grillestack.advice.trial import LEAST_WORTH_K
from grillestack.fit.result import Cost, Fit, PortMatch
from grillestack.geometry.room import Travel

# Differences below these decide nothing: then what is easier to build does.
_SAME_AREA_MM2: Final = 100.0
# Below every day there is
_NO_DAY: Final = 1e6
_SAME_TURN_DEG: Final = 5.0
_SAME_WAY_MM: Final = 10.0
# More margin than this is no better.
_AMPLE_MM: Final = 20.0

Key = tuple[float, ...]


def place_key(cost: Cost, ports: PortMatch | None, travel: Travel) -> Key:
    """Return what sorts places of one part, least first.

    A charge figure over its limit is worse than any day; then the hottest day, the charge-air temperature, the blocked face of the
    radiator, ports on the engine's sides, what the pipes turn, how long they are, and the margin all round.
    """
    return (
        0.0 if cost.within_limits else 1.0,
        _NO_DAY if cost.hottest_degc is None else -round(cost.hottest_degc / LEAST_WORTH_K),
        0.0 if cost.charge_out_degc is None or cost.within_limits else round(cost.charge_out_degc, 1),
        0.0 if cost.tanks_mm2 is None else round(cost.tanks_mm2 / _SAME_AREA_MM2),
        *_pipes_key(ports),
        -float(round(min(travel.least_mm, _AMPLE_MM))),
    )


def ranked(fits: Iterable[Fit]) -> tuple[Fit, ...]:
    """Return the parts that fit, best first: assessed ones as their places are sorted, then the others by merit."""
    return tuple(sorted(fits, key=lambda fit: (fit_order(fit), fit.part.id)))


def fit_order(fit: Fit) -> Key:
    """Return what sorts parts, least first; equal ones go by their catalogue numbers."""
    merit = round(fit.merit_factor, 9)
    if fit.cost is None:
        return 1.0, merit
    return 0.0, *place_key(fit.cost, fit.ports, fit.travel), merit


def _pipes_key(ports: PortMatch | None) -> Key:
    if ports is None:
        return 0.0, 0.0, 0.0
    return (
        float(ports.of_count - ports.on_side_count),
        0.0 if ports.bend_deg is None else float(round(ports.bend_deg / _SAME_TURN_DEG)),
        0.0 if ports.pipe_mm is None else float(round(ports.pipe_mm / _SAME_WAY_MM)),
    )
