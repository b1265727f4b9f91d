"""How much of a fin works, given how hard the film pulls at it."""

from __future__ import annotations

import numpy as np

from grillestack.physics.arrays import Numbers, Values
from grillestack.physics.construction import Construction

_SMALLEST_ML = 1.0e-6


def straight_fin_efficiency(
    film_w_per_m2_k: Numbers, conductance_w_per_k: float, length_m: float, edge: float
) -> Values:
    """Give the efficiency tanh(mL)/(mL) of a straight fin of constant thickness.

    Parameters
    ----------
    film_w_per_m2_k : film on both sides of the fin, any shape [W/(m²·K)]; below zero counts as zero
    conductance_w_per_k : conductivity times thickness of the fin's sheet [W/K]
    length_m : way of the heat from root to the place where it no longer flows [m]
    edge : share added to the film for the fin's edges, thickness over depth [-]

    Returns
    -------
    efficiency between 0 and 1, same shape

    Source: [INCROPERA]
    """
    film = np.maximum(np.asarray(film_w_per_m2_k, dtype=np.float64), 0.0)
    ml = np.maximum(length_m * np.sqrt(2.0 * film / conductance_w_per_k * (1.0 + edge)), _SMALLEST_ML)
    return np.tanh(ml) / ml


def air_fin_efficiency(construction: Construction, film_w_per_m2_k: Numbers) -> Values:
    """Give the efficiency of the fin between two tubes; each tube feeds it to the middle.

    Parameters
    ----------
    construction : fins and tubes
    film_w_per_m2_k : film on the air side, any shape [W/(m²·K)]

    Returns
    -------
    efficiency between 0 and 1, same shape

    Source: [INCROPERA], half the fin height less the fin thickness as length
    """
    c = construction
    return straight_fin_efficiency(
        film_w_per_m2_k,
        c.fin_conductivity_w_per_m_k * c.fin_thickness_m,
        0.5 * c.fin_height_m - c.fin_thickness_m,
        c.fin_thickness_m / c.flow_depth_m,
    )


def inner_fin_efficiency(construction: Construction, film_w_per_m2_k: Numbers) -> Values:
    """Give the efficiency of the inner fin between the two walls of a tube, 1 where there is none.

    Parameters
    ----------
    construction : fins and tubes; the inner fin is taken to be of the outer fin's metal
    film_w_per_m2_k : film inside the tube, any shape [W/(m²·K)]

    Returns
    -------
    efficiency between 0 and 1, same shape

    Source: [INCROPERA], half the clear height as length
    """
    inner = construction.inner_fin
    if inner is None:
        return np.ones_like(np.asarray(film_w_per_m2_k, dtype=np.float64))
    return straight_fin_efficiency(
        film_w_per_m2_k,
        construction.fin_conductivity_w_per_m_k * inner.thickness_m,
        0.5 * inner.height_m,
        inner.thickness_m / inner.strip_length_m,
    )


def surface_efficiency(fin_efficiency: Values, fin_area_frac: float) -> Values:
    """Give the efficiency of fins and bare tube together, the bare tube working fully.

    Parameters
    ----------
    fin_efficiency : efficiency of the fin, any shape
    fin_area_frac : share of the whole area that is fin

    Returns
    -------
    efficiency of the whole surface, same shape

    Source: [INCROPERA]
    """
    return 1.0 - fin_area_frac * (1.0 - fin_efficiency)
