"""What a fluid loses where it squeezes into a core's passages, and what it wins back where it leaves them."""

from __future__ import annotations

import math

from fluids import contraction_sharp, diffuser_sharp

_WIDEST_OPEN_FRAC = 0.999


def entrance_and_recovery(open_frac: float) -> tuple[float, float]:
    """Give the pressure drop at the entrance and the rise at the exit, in velocity heads inside the passages.

    Parameters
    ----------
    open_frac : passages' free cross-section over that ahead of them (σ), 0 to 1

    Returns
    -------
    Kc + 1 - σ² and 1 - σ² - Ke [-]; their difference is what is lost

    Valid for: turbulent flow and sharp edges; more than 0.999 counts as 0.999.

    Source: [KL1984] with Kc and Ke of [RENNELS]
    """
    sigma = min(open_frac, _WIDEST_OPEN_FRAC)
    speeding_up = 1.0 - sigma**2
    side = math.sqrt(sigma)
    return float(contraction_sharp(1.0, side)) + speeding_up, speeding_up - float(diffuser_sharp(side, 1.0))
