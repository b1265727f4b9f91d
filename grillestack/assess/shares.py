"""How the air divides: through the radiator, back into the plenum, past the radiator."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.layout import PLENUM_BESIDE_JET, PackLayout
from grillestack.physics.solve import Solution

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class AirShares:
    """Flows of one problem in kg/s and shares of 1; a share is `None` where no air enters the plenum."""

    radiator_kg_s: float
    opening_kg_s: float
    recirculated_frac: float | None
    bypassed_frac: float | None


def air_shares(layout: PackLayout, solution: Solution, row: int) -> AirShares:
    """Return the shares of one problem."""
    mass = solution.flow.mass_kg_s[row]
    ranges = solution.ranges
    zones: FloatArray = mass[ranges.zones]
    crosses = layout.zone_hit[:, layout.radiator] if layout.radiator is not None else np.zeros(zones.size, dtype=bool)
    from_plenum = layout.zone_upstream <= PLENUM_BESIDE_JET
    ahead, back = np.maximum(zones, 0.0), np.maximum(-zones, 0.0)
    leaks = mass[[ranges.jet_leak, ranges.leak]]
    fresh = float(np.maximum(mass[ranges.openings], 0.0).sum())
    pushed_back = sum(
        max(-float(mass[ranges.fans.start + number]), 0.0)
        for number, fan in enumerate(layout.fans)
        if fan.upstream <= PLENUM_BESIDE_JET
    )
    returned = float(back[from_plenum].sum()) + pushed_back + float(np.maximum(-leaks, 0.0).sum())
    # What a pusher drives is plenum air too.
    past = float(ahead[~crosses].sum()) + float(np.maximum(leaks, 0.0).sum())
    entering = fresh + returned
    return AirShares(
        radiator_kg_s=float(ahead[crosses].sum()),
        opening_kg_s=fresh,
        recirculated_frac=returned / entering if entering > 0.0 else None,
        bypassed_frac=past / entering if entering > 0.0 else None,
    )
