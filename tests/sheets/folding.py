"""Sheet metal folded back by a second way: one face of the strip is walked in small steps, the other set off from it."""

from __future__ import annotations

import numpy as np

_STEPS = 2000


def folded(pieces, thickness_mm: float, radius_mm: float, share: float):
    """Return both faces of a folded strip as arrays of (x, y).

    `pieces` are flat lengths in turn: ("straight", length) or ("bend", length, side), side 1 turning left, −1 right. A bend's
    flat length is that of the fibre at R + K·T from its centre, which says by how much it turns; the left face then runs
    about the same centre at R where it is the inner one, at R + T where it is the outer one.
    """
    heading, x, y = 0.0, 0.0, 0.0
    left, right = [(x, y)], [(x, y - thickness_mm)]
    for piece in pieces:
        side = piece[2] if piece[0] == "bend" else 0
        turn = side * piece[1] / (radius_mm + share * thickness_mm) / _STEPS
        run = piece[1] / _STEPS if side == 0 else abs(turn) * (radius_mm + (0.0 if side == 1 else thickness_mm))
        for _ in range(_STEPS):
            heading += turn / 2
            x, y = x + run * np.cos(heading), y + run * np.sin(heading)
            heading += turn / 2
            left.append((x, y))
            right.append((x + thickness_mm * np.sin(heading), y - thickness_mm * np.cos(heading)))
    return np.array(left), np.array(right)
