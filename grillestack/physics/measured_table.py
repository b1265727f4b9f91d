"""What a measured table of heats and air losses says of a core: its air side at each mass flux, and its pressure loss."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3
from grillestack.physics.air_side import AirSide
from grillestack.physics.arrays import Values
from grillestack.physics.core_alone import Bench, Found, conductance_from_heat
from grillestack.physics.core_loss import LossFit, fit_loss_table
from grillestack.physics.layout import Layer
from grillestack.physics.overall import air_side_resistance_m2_k_per_w, wall_resistance_m2_k_per_w
from grillestack.physics.rating import (
    LEAST_FACTOR,
    MOST_FACTOR,
    fins_conductance_w_per_m2_k,
    rated_loss,
)
from grillestack.physics.tube_fluids import tube_fouling_m2_k_per_w, tube_side

MOST_EVENED_FRAC: Final = 0.05
"""How much of a line's whole resistance may be evened out as scatter of the measurement. Common practice, from memory: heat on a
bench is good to 2 to 3 %, which is up to about 5 % in conductance."""


DOUBT_K: Final = 10.0
"""A table without temperatures was taken this much hotter or colder than assumed. From memory: benches run air of 15 to 40 °C."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredAirSide:
    """The air side of a table, and how sure it is, both as shares of a line's whole resistance, for the worst line.

    Attributes
    ----------
    evened_frac
        What was evened out.
    doubt_frac
        What the tubes would have taken more or less, had the fluid in them been `DOUBT_K` hotter or colder: next to nothing in
        steady flow, much where the flow in the tubes turns turbulent.
    """

    air_side: AirSide
    evened_frac: float
    doubt_frac: float


def measured_air_side(layer: Layer, bench: Bench, face_velocity_m_s: Values, heat_w: Values) -> MeasuredAirSide:
    """Give the resistance of the air side at each line's mass flux, over that of the fins.

    Of each line's whole resistance the wall and the tube side at the table's tube flow are taken off, so another tube flow is
    answered through the tubes' correlation. An air side that would pass heat worse with more air is evened out.

    Parameters
    ----------
    layer : the core with `core_alone.even_passes`
    bench : the lines, air rising from one to the next
    face_velocity_m_s : of the lines, for the sentences [m/s]
    heat_w : measured heats, as many [W]

    Returns
    -------
    the air side, with one factor for each line

    Raises
    ------
    ValueError
        With one sentence that names the line, if heat does not rise with air, is more than the flows can exchange, leaves
        nothing for the air side, or asks for a conductance outside `LEAST_FACTOR` to `MOST_FACTOR` of the fins and tubes; or if
        more than `MOST_EVENED_FRAC` would have to be evened out.

    Source: [SS2003]
    """
    stuck = np.flatnonzero(np.diff(heat_w) <= 0.0)
    if stuck.size:
        before, after = face_velocity_m_s[stuck[0]], face_velocity_m_s[stuck[0] + 1]
        raise ValueError(
            f"in its measured table the line at {after:.4g} m/s gives no more heat than the one at {before:.4g} m/s: "
            "more air takes more heat, correct the two."
        )
    found = conductance_from_heat(layer, bench, heat_w)
    whole = 1.0 / found.conductance_w_per_m2_k
    fins = fins_conductance_w_per_m2_k(layer, bench, found)
    wall = wall_resistance_m2_k_per_w(layer.construction, tube_fouling_m2_k_per_w(layer))
    air = whole - wall - 1.0 / found.tube_conductance_w_per_m2_k
    for line, velocity_m_s in enumerate(face_velocity_m_s.tolist()):
        which = f"in its measured table the line at {velocity_m_s:.4g} m/s, {heat_w[line] / 1000:.4g} kW,"
        if whole[line] == 0.0:
            raise ValueError(
                f"{which} is more than the {found.limit_w[line] / 1000:.4g} kW that its air and its tube flow can exchange: "
                "check the units, the inlet difference and the flow in the tubes."
            )
        if not LEAST_FACTOR <= 1.0 / (whole[line] * fins[line]) <= MOST_FACTOR:
            raise ValueError(
                f"{which} asks for {1.0 / (whole[line] * fins[line]):.3g} times the conductance of its fins and tubes, and "
                f"{LEAST_FACTOR:g} to {MOST_FACTOR:g} is believable: check the units, the inlet difference and the core's size."
            )
        if air[line] <= 0.0:
            raise ValueError(
                f"{which} leaves nothing for the air side once tubes and wall are taken off: "
                "check its heat, the flow in the tubes and how the tubes are built."
            )
    evened = np.exp(_never_rising(np.log(air)))
    share = np.abs(evened - air) / whole
    worst = int(share.argmax())
    if share[worst] > MOST_EVENED_FRAC:
        raise ValueError(
            f"in its measured table the heat near the line at {face_velocity_m_s[worst]:.4g} m/s rises too little for the air that is "
            "added: correct the lines about it."
        )
    factor = evened / air_side_resistance_m2_k_per_w(layer.construction, bench.flux_kg_s_m2, found.air_mean_degc)
    return MeasuredAirSide(
        air_side=AirSide(flux_kg_s_m2=tuple(bench.flux_kg_s_m2.tolist()), resistance_factor=tuple(factor.tolist())),
        evened_frac=float(share[worst]),
        doubt_frac=_doubt_frac(layer, bench, found, whole),
    )


def measured_loss(
    fins: LossFit, face_velocity_m_s: Values, air_loss_pa: Values, density_kg_m3: float
) -> LossFit | None:
    """Give the loss of a table's lines at the reference density, or nothing where no line has a loss above zero.

    Parameters
    ----------
    fins : loss from fins and tubes; scaled, if one line alone has a loss
    face_velocity_m_s : of the lines [m/s]
    air_loss_pa : of unheated air; zero is not measured [Pa]
    density_kg_m3 : of the table's air [kg/m³]

    Returns
    -------
    the two terms and the largest relative distance of a line from them

    Raises
    ------
    ValueError
        With one sentence, if the last line's loss is outside `LEAST_FACTOR` to `MOST_FACTOR` of that of the fins and tubes.
    """
    known = air_loss_pa > 0.0
    if not known.any():
        return None
    velocity, loss = face_velocity_m_s[known], air_loss_pa[known]
    scaled = rated_loss(fins, float(velocity[-1]), density_kg_m3, float(loss[-1]))
    if velocity.size == 1:
        return scaled
    fit = fit_loss_table(velocity, loss)
    return dataclasses.replace(fit, b_pa_s2_per_m2=fit.b_pa_s2_per_m2 * REFERENCE_AIR_DENSITY_KG_M3 / density_kg_m3)


def _doubt_frac(layer: Layer, bench: Bench, found: Found, whole: Values) -> float:
    inside = 1.0 / found.tube_conductance_w_per_m2_k
    moved = [
        np.abs(1.0 / tube_side(layer, bench.tube_flow_kg_s, found.tube_mean_degc + shift, bench.coolant)[1] - inside)
        for shift in (-DOUBT_K, DOUBT_K)
    ]
    return float((np.maximum(*moved) / whole).max())


def _never_rising(values: Values) -> Values:
    """Give the nearest sequence that never rises, in least squares: neighbours that rise take their common mean."""
    means: list[float] = []
    counts: list[int] = []
    for value in values.tolist():
        means.append(value)
        counts.append(1)
        while len(means) > 1 and means[-2] < means[-1]:
            mean, count = means.pop(), counts.pop()
            means[-1] = (means[-1] * counts[-1] + mean * count) / (counts[-1] + count)
            counts[-1] += count
    return np.repeat(np.array(means), counts)
