"""How far a core's true heat may lie from the computed one, by the way the core is described."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from grillestack.assess.core_construction import Ground, core_ground
from grillestack.assess.liquid_doubt import liquid_doubt
from grillestack.model.parts import Core


class Spread(NamedTuple):
    """True over computed heat, 5th and 95th percentile, and what they rest on."""

    low_factor: float
    high_factor: float
    source: str


_LOW, _HIGH = 1.0 / 1.24, 1.0 / 0.90
_TESTED: Final = "NG2005: computed heats of nine tested radiators within +24/-10 %, read as P5 to P95"
# Fins a quarter closer or a third wider than the typical ones move a radiator's heat by 9 % either way (computed with this
# model at 2 to 10 m/s); that types differ by so much is common practice, from memory.
_TYPE_FRAC: Final = 0.10
_TABLE_FRAC: Final = 0.05
# Half way between no exchange and the most there is, heat moves about half as much as conductance.
_HEAT_PER_CONDUCTANCE_FRAC: Final = 0.5


def _widened(low: float, high: float, by_frac: float) -> tuple[float, float]:
    return (
        math.exp(-math.hypot(math.log(low), math.log(1.0 - by_frac))),
        math.exp(math.hypot(math.log(high), math.log(1.0 + by_frac))),
    )


_COMPUTED: Final = {
    # A rating sets the level, to within ±10 % or so (common practice, from memory), but only at its own point; so the band takes
    # away what the type leaves open and stays that of a computed core.
    Ground.RATING: Spread(
        _LOW, _HIGH, _TESTED + "; the rating sets the level at its point only (common practice, from memory)"
    ),
    Ground.CONSTRUCTION: Spread(_LOW, _HIGH, _TESTED),
    Ground.TYPE: Spread(
        *_widened(_LOW, _HIGH, _TYPE_FRAC), _TESTED + ", and ±10 % for the fins of a type, from memory"
    ),
}


def core_spread(core: Core) -> Spread:
    """Return the 5th and 95th percentile of true over computed heat of this core.

    Without a measured table it is never narrower than that of tested radiators, and wider where the film inside the tubes of a
    further cooler is less sure than theirs. A table's is wider than that of its measurement where it does not say how warm its
    air was and flow in the tubes was near turbulence, or oil.
    """
    ground = core_ground(core)
    if ground.ground in (Ground.CONSTRUCTION, Ground.TYPE):
        return _with_liquid(core, _COMPUTED[ground.ground])
    if ground.ground is not Ground.TABLE or ground.table_range_m_s is None:
        return _COMPUTED[ground.below if ground.ground is Ground.TABLE else ground.ground]
    doubt_frac = _HEAT_PER_CONDUCTANCE_FRAC * ground.table_doubt_frac
    either_way = math.hypot(_TABLE_FRAC, doubt_frac)
    open_too = (
        f", and ±{100 * doubt_frac:.0f} % for the air temperature that the table does not give"
        if doubt_frac > 0.5 * _TABLE_FRAC
        else ""
    )
    return Spread(
        1.0 - either_way, 1.0 + either_way, f"measured heat ±{100 * _TABLE_FRAC:.0f} %, from memory{open_too}"
    )


def _with_liquid(core: Core, spread: Spread) -> Spread:
    """Return the spread widened by what the film inside the tubes leaves open; heat moves half as much as conductance."""
    doubt = liquid_doubt(core)
    if doubt is None:
        return spread
    return Spread(
        math.exp(-math.hypot(math.log(spread.low_factor), _HEAT_PER_CONDUCTANCE_FRAC * math.log(doubt.low_factor))),
        math.exp(math.hypot(math.log(spread.high_factor), _HEAT_PER_CONDUCTANCE_FRAC * math.log(doubt.high_factor))),
        f"{spread.source}; {doubt.source}",
    )
