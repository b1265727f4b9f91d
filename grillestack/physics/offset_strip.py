"""Heat transfer and friction of the offset strip fin inside a charge-air tube. The friction factor is Fanning's."""

from __future__ import annotations

from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values, clamped
from grillestack.physics.construction import InnerFin

LOWEST_STRIP_REYNOLDS: Final = 120.0
HIGHEST_STRIP_REYNOLDS: Final = 1.0e4


def colburn_j(fin: InnerFin, reynolds: Numbers) -> Values:
    """Give the Colburn factor j of an offset strip fin.

    Parameters
    ----------
    fin : clear gaps, thickness and strip length
    reynolds : Reynolds number on the channel's hydraulic diameter and the velocity between the legs, any shape [-]

    Returns
    -------
    j, same shape [-]

    Valid for: Re 120 to 10 000, gases, its data within 20 %. Below, j·Re is held; above, j.

    Source: [MB1995]
    """
    re = np.asarray(reynolds, dtype=np.float64)
    held = clamped(re, LOWEST_STRIP_REYNOLDS, HIGHEST_STRIP_REYNOLDS)
    alpha, delta, gamma = _ratios(fin)
    laminar = 0.6522 * alpha**-0.1541 * delta**0.1499 * gamma**-0.0678
    turbulence = 5.269e-5 * alpha**0.504 * delta**0.456 * gamma**-1.055
    j: Values = laminar * held**-0.5403 * (1.0 + turbulence * held**1.34) ** 0.1
    return j * _creeping(re)


def fanning_f(fin: InnerFin, reynolds: Numbers) -> Values:
    """Give the Fanning friction factor of an offset strip fin.

    Parameters
    ----------
    fin : clear gaps, thickness and strip length
    reynolds : Reynolds number as for `colburn_j`, any shape [-]

    Returns
    -------
    f, same shape [-]

    Valid for: Re 120 to 10 000, its data within 20 %. Below, f·Re is held; above, f.

    Source: [MB1995]
    """
    re = np.asarray(reynolds, dtype=np.float64)
    held = clamped(re, LOWEST_STRIP_REYNOLDS, HIGHEST_STRIP_REYNOLDS)
    alpha, delta, gamma = _ratios(fin)
    laminar = 9.6243 * alpha**-0.1856 * delta**0.3053 * gamma**-0.2659
    turbulence = 7.669e-8 * alpha**0.920 * delta**3.767 * gamma**0.236
    f: Values = laminar * held**-0.7422 * (1.0 + turbulence * held**4.429) ** 0.1
    return f * _creeping(re)


def _ratios(fin: InnerFin) -> tuple[float, float, float]:
    return fin.spacing_m / fin.height_m, fin.thickness_m / fin.strip_length_m, fin.thickness_m / fin.spacing_m


def _creeping(reynolds: Values) -> Values:
    return LOWEST_STRIP_REYNOLDS / clamped(reynolds, 1.0e-3, LOWEST_STRIP_REYNOLDS)
