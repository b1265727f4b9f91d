"""What one rated heat and one rated air loss say of a core, beside what its fins and tubes would give."""

from __future__ import annotations

import dataclasses
from typing import Final

import numpy as np

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3
from grillestack.physics.arrays import Values
from grillestack.physics.core_alone import Bench, Found, conductance_from_heat
from grillestack.physics.core_loss import LossFit
from grillestack.physics.layout import Layer
from grillestack.physics.overall import conductance_w_per_m2_k
from grillestack.physics.tube_fluids import tube_fouling_m2_k_per_w

LEAST_FACTOR: Final = 0.3
MOST_FACTOR: Final = 3.0
"""Measured over computed conductance or air loss outside this range is a wrong unit or condition. Common practice, from memory:
fins of another pitch and published correlations move either by less than a factor of two."""


def rated_conductance_factor(layer: Layer, bench: Bench, heat_w: float) -> float:
    """Give the factor on the whole conductance with which the core by itself gives off just the rated heat.

    One heat cannot say which side of the tube wall is better than computed, so the factor goes on both.

    Parameters
    ----------
    layer : the core with `core_alone.even_passes`
    bench : the one condition of the rating
    heat_w : rated heat [W]

    Returns
    -------
    factor [-]

    Raises
    ------
    ValueError
        With one sentence, if the tube inlet is no hotter than the air, the heat is more than the flows can exchange, or the
        factor lies outside `LEAST_FACTOR` to `MOST_FACTOR`.
    """
    difference_k = float(bench.tube_in_degc[0] - bench.air_in_degc[0])
    if difference_k <= 0.0:
        raise ValueError(
            f"its rating has the tube inlet at {bench.tube_in_degc[0]:.4g} °C and the air inlet at {bench.air_in_degc[0]:.4g} °C: "
            "the tubes must be hotter than the air, correct either."
        )
    found = conductance_from_heat(layer, bench, np.array([heat_w]))
    if not np.isfinite(found.conductance_w_per_m2_k[0]):
        raise ValueError(
            f"its rating of {heat_w / 1000:.4g} kW is more than the {found.limit_w[0] / 1000:.4g} kW that its air and its tube flow "
            f"can exchange with {difference_k:.4g} K between the inlets: check the units, the temperatures and the flows."
        )
    factor = float(found.conductance_w_per_m2_k[0] / fins_conductance_w_per_m2_k(layer, bench, found)[0])
    if not LEAST_FACTOR <= factor <= MOST_FACTOR:
        raise ValueError(
            f"its rating of {heat_w / 1000:.4g} kW asks for {factor:.3g} times the conductance of its fins and tubes, and "
            f"{LEAST_FACTOR:g} to {MOST_FACTOR:g} is believable: check the units, the conditions and the core's size."
        )
    return factor


def rated_loss(loss: LossFit, face_velocity_m_s: float, density_kg_m3: float, air_loss_pa: float) -> LossFit:
    """Give the loss scaled so that unheated air of that density loses just what the rating says.

    Parameters
    ----------
    loss : from fins and tubes
    face_velocity_m_s : of the rating [m/s]
    density_kg_m3 : of its air [kg/m³]
    air_loss_pa : rated loss, more than zero [Pa]

    Returns
    -------
    the scaled loss at the reference density

    Raises
    ------
    ValueError
        With one sentence, if the factor lies outside `LEAST_FACTOR` to `MOST_FACTOR`.
    """
    factor = air_loss_pa / fitted_loss_pa(loss, face_velocity_m_s, density_kg_m3)
    if not LEAST_FACTOR <= factor <= MOST_FACTOR:
        raise ValueError(
            f"its air loss of {air_loss_pa:.4g} Pa at {face_velocity_m_s:g} m/s is {factor:.3g} times that of its fins and tubes, and "
            f"{LEAST_FACTOR:g} to {MOST_FACTOR:g} is believable: check the units and the core's depth."
        )
    return dataclasses.replace(
        loss, a_pa_s_per_m=factor * loss.a_pa_s_per_m, b_pa_s2_per_m2=factor * loss.b_pa_s2_per_m2
    )


def fitted_loss_pa(loss: LossFit, face_velocity_m_s: float, density_kg_m3: float) -> float:
    """Give what unheated air of this density loses: the linear term keeps its size, the square one goes with density [Pa]."""
    square = loss.b_pa_s2_per_m2 * density_kg_m3 / REFERENCE_AIR_DENSITY_KG_M3
    return loss.a_pa_s_per_m * face_velocity_m_s + square * face_velocity_m_s**2


def fins_conductance_w_per_m2_k(layer: Layer, bench: Bench, found: Found) -> Values:
    """Give the conductance of fins and tubes alone, at the temperatures that the measured heats leave; shape (B,)."""
    return conductance_w_per_m2_k(
        layer.construction,
        bench.flux_kg_s_m2,
        found.air_mean_degc,
        found.tube_conductance_w_per_m2_k,
        tube_fouling_m2_k_per_w(layer),
    )
