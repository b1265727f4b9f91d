"""How near a part may come to others: the rules of practice as the room needs them."""

from __future__ import annotations

from typing import Final

from grillestack.advice.depth import (
    BONNET_LEAST_MM,
    CORE_TO_FAN_LEAST_MM,
    GAP_LEAST_MM,
    OBSTRUCTION_LEAST_MM,
    PULLEY_LEAST_MM,
)
from grillestack.geometry.setting import Clearances

# A charge-air cooler grows by up to so much along its tubes (published, seen in summary).
GROWTH_MM: Final = 6.0


def usual_clearances() -> Clearances:
    """Return the clearances in force, those of the rules of practice."""
    return Clearances(
        gap_mm=GAP_LEAST_MM,
        fan_mm=CORE_TO_FAN_LEAST_MM,
        obstruction_mm=OBSTRUCTION_LEAST_MM,
        bonnet_mm=BONNET_LEAST_MM,
        pulley_mm=PULLEY_LEAST_MM,
        growth_mm=GROWTH_MM,
    )
