"""Nusselt number and friction of flow in a flat tube, from laminar through transition to turbulent."""

from __future__ import annotations

import enum
from typing import Final

import numpy as np

from grillestack.physics.arrays import Numbers, Values, clamped

LAMINAR_END_REYNOLDS: Final = 2300.0
TURBULENT_START_REYNOLDS: Final = 4000.0
TRIPPED_START_REYNOLDS: Final = 1000.0
"""From here dimples keep the flow turbulent. Common practice, from memory: 1000 to 1500."""

HIGHEST_TUBE_REYNOLDS: Final = 1.0e6
LOWEST_PRANDTL: Final = 0.5
HIGHEST_PRANDTL: Final = 2000.0
_CREEPING_REYNOLDS: Final = 1.0e-3


class Transition(enum.Enum):
    """Where the flow in the tubes turns turbulent."""

    BLENDED = "blended"
    """Smooth tube: laminar to Re 2300, a straight blend to 4000, turbulent above."""

    TRIPPED = "tripped"
    """Dimpled tube: turbulent from Re 1000, where that carries more heat than laminar flow.

    With coolant in a flat tube it does so from about Re 1600, since the turbulent relation starts from nothing at 1000.
    """


def nusselt_flat_tube(
    reynolds: Numbers, prandtl: Numbers, aspect: float, transition: Transition = Transition.BLENDED
) -> Values:
    """Give the Nusselt number of fully developed flow in a flat tube, on its hydraulic diameter.

    Parameters
    ----------
    reynolds : Reynolds number on hydraulic diameter, any shape [-]; zero or reversed counts as laminar
    prandtl : Prandtl number, any shape that broadcasts [-]
    aspect : short over long side of the bore, 0 to 1
    transition : smooth or dimpled tube

    Returns
    -------
    Nusselt number, the common shape [-]

    Valid for: Re up to 10⁶, Pr 0.5 to 2000, held at the nearer end outside. Inlet lengths are neglected: short tubes
    do better.

    Source: laminar [SL1978], transition and turbulent [GN2013] with the smooth-tube friction of Colebrook
    """
    re = np.asarray(reynolds, dtype=np.float64)
    pr = clamped(prandtl, LOWEST_PRANDTL, HIGHEST_PRANDTL)
    laminar = laminar_nusselt(aspect)
    if transition is Transition.TRIPPED:
        return np.maximum(laminar, _gnielinski(clamped(re, TRIPPED_START_REYNOLDS, HIGHEST_TUBE_REYNOLDS), pr))
    turbulent = _gnielinski(clamped(re, TURBULENT_START_REYNOLDS, HIGHEST_TUBE_REYNOLDS), pr)
    share = _turbulent_share(re)
    return (1.0 - share) * laminar + share * turbulent


def darcy_f_flat_tube(reynolds: Numbers, aspect: float, transition: Transition = Transition.BLENDED) -> Values:
    """Give the Darcy friction factor of fully developed flow in a smooth flat tube.

    Parameters
    ----------
    reynolds : Reynolds number on hydraulic diameter, any shape [-]; the sign is not looked at
    aspect : short over long side of the bore, 0 to 1
    transition : smooth or dimpled tube; of the dimples only the early turbulence counts, not their own drag

    Returns
    -------
    Darcy friction factor, same shape [-]

    Valid for: Re up to 10⁶, held above; below Re 0.001 held, so that nothing divides by zero.

    Source: laminar [SL1978], turbulent Colebrook, transition blended as the Nusselt number is (ours)
    """
    re = np.maximum(np.abs(np.asarray(reynolds, dtype=np.float64)), _CREEPING_REYNOLDS)
    laminar = laminar_darcy_f_times_re(aspect)
    if transition is Transition.TRIPPED:
        smooth = smooth_darcy_f(clamped(re, TRIPPED_START_REYNOLDS, HIGHEST_TUBE_REYNOLDS))
        return np.maximum(laminar / re, np.where(re < TRIPPED_START_REYNOLDS, 0.0, smooth))
    share = _turbulent_share(re)
    turbulent = smooth_darcy_f(clamped(re, TURBULENT_START_REYNOLDS, HIGHEST_TUBE_REYNOLDS))
    return (1.0 - share) * laminar / np.minimum(re, LAMINAR_END_REYNOLDS) + share * turbulent


def laminar_nusselt(aspect: float) -> float:
    """Give the Nusselt number of laminar flow in a rectangular bore with even heat flux along it. Source: [SL1978]."""
    a = min(max(aspect, 0.0), 1.0)
    return 8.235 * (1.0 + a * (-2.0421 + a * (3.0853 + a * (-2.4765 + a * (1.0578 - 0.1861 * a)))))


def laminar_darcy_f_times_re(aspect: float) -> float:
    """Give f·Re of laminar flow in a rectangular bore, 96 between plates, 56.9 in a square. Source: [SL1978]."""
    a = min(max(aspect, 0.0), 1.0)
    return 96.0 * (1.0 + a * (-1.3553 + a * (1.9467 + a * (-1.7012 + a * (0.9564 - 0.2537 * a)))))


def smooth_darcy_f(reynolds: Values) -> Values:
    """Give Colebrook's friction factor of a smooth tube: Haaland's guess and one Newton step.

    Parameters
    ----------
    reynolds : Reynolds number, at least 1000, any shape [-]

    Returns
    -------
    Darcy friction factor, same shape [-]

    Valid for: Re 1000 to 10⁶; from 4000 within 7e-6 of the exact root, at 1000 within 1.4e-4.

    Source: Colebrook, Haaland, both [RENNELS]
    """
    root = 1.8 * np.log10(reynolds / 6.9)
    root = root - (root + 2.0 * np.log10(2.51 * root / reynolds)) / (1.0 + 0.8685889638 / root)
    return 1.0 / (root * root)


def _turbulent_share(reynolds: Values) -> Values:
    return clamped((reynolds - LAMINAR_END_REYNOLDS) / (TURBULENT_START_REYNOLDS - LAMINAR_END_REYNOLDS), 0.0, 1.0)


def _gnielinski(reynolds: Values, prandtl: Values) -> Values:
    eighth = smooth_darcy_f(reynolds) / 8.0
    return eighth * (reynolds - 1000.0) * prandtl / (1.0 + 12.7 * np.sqrt(eighth) * (np.cbrt(prandtl) ** 2 - 1.0))
