"""How low is the metal above the pack between two places along x."""

from __future__ import annotations

import math

from grillestack.geometry.bodies import TOUCH_MM
from grillestack.model.outline import SidePoint


def lowest_between(line: tuple[SidePoint, ...], x0_mm: float, x1_mm: float) -> float | None:
    """Return the lowest point of a side-view line between two places along x, or nothing where it does not run there."""
    lowest = math.inf
    for a, b in zip(line, line[1:] or line, strict=False):
        left, right = (a, b) if a.x_mm <= b.x_mm else (b, a)
        lo, hi = max(x0_mm, left.x_mm), min(x1_mm, right.x_mm)
        if lo > hi:
            continue
        run = right.x_mm - left.x_mm
        if run < TOUCH_MM:
            lowest = min(lowest, left.z_mm, right.z_mm)
            continue
        rise = (right.z_mm - left.z_mm) / run
        lowest = min(lowest, left.z_mm + rise * (lo - left.x_mm), left.z_mm + rise * (hi - left.x_mm))
    return lowest if math.isfinite(lowest) else None
