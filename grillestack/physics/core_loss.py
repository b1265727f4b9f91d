"""What it costs the air to cross a core, and the two numbers by which the network knows it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.air import REFERENCE_AIR_DENSITY_KG_M3, REFERENCE_AIR_TEMPERATURE_DEGC, viscosity_pa_s
from grillestack.physics.arrays import Numbers, Values
from grillestack.physics.construction import Construction
from grillestack.physics.louvred_fin import fanning_f
from grillestack.physics.passage_ends import entrance_and_recovery

FIT_LOWEST_M_S: Final = 2.0
FIT_HIGHEST_M_S: Final = 10.0
_FIT_POINTS: Final = 81


@dataclass(frozen=True, kw_only=True)
class LossFit:
    """Pressure loss of a core as a·v + b·v|v|, v being the face velocity at the reference air density.

    Both terms are at least zero and not both zero, so the loss always rises with the velocity.
    `max_error_frac` is the largest relative distance from what was fitted.
    """

    a_pa_s_per_m: float
    b_pa_s2_per_m2: float
    max_error_frac: float


def core_pressure_loss_pa(
    construction: Construction,
    face_velocity_m_s: Numbers,
    density_kg_m3: float = REFERENCE_AIR_DENSITY_KG_M3,
    temperature_degc: float = REFERENCE_AIR_TEMPERATURE_DEGC,
) -> Values:
    """Give the pressure loss of unheated air across a core: entrance, friction and exit.

    The acceleration of heated air, G²(1/ρ2 - 1/ρ1), is no part of it; the network adds it for each layer.

    Parameters
    ----------
    construction : fins and tubes
    face_velocity_m_s : air volume per second and square metre of face, any shape; reversed flow below zero [m/s]
    density_kg_m3 : density of the air [kg/m³]
    temperature_degc : temperature that sets its viscosity [°C]

    Returns
    -------
    pressure loss, same shape, with the sign of the velocity [Pa]

    Valid for: as `louvred_fin.fanning_f`; proportional to the velocity below Re 50. Between Re 130 and 230 it may fall while the
    velocity rises (coarse fins): let no network see it, give it the fit.

    Source: [KL1984], [C2000], [C2006], [RENNELS]
    """
    c = construction
    velocity = np.asarray(face_velocity_m_s, dtype=np.float64)
    narrowest_flux = density_kg_m3 * velocity / c.free_flow_frac
    reynolds = np.abs(narrowest_flux) * (c.louvre_pitch_m / float(viscosity_pa_s(temperature_degc)))
    entrance, recovery = entrance_and_recovery(c.free_flow_frac)
    friction = fanning_f(c, reynolds) * (c.air_area_m2_per_m2 / c.free_flow_frac)
    return narrowest_flux * np.abs(narrowest_flux) / (2.0 * density_kg_m3) * (entrance - recovery + friction)


def fit_loss(construction: Construction) -> LossFit:
    """Give the rising two-term loss of a construction, fitted over 2 to 10 m/s at the reference density.

    Parameters
    ----------
    construction : fins and tubes

    Returns
    -------
    the two terms, both at least zero, and the largest relative error of the fit

    Source: least squares of the relative error on `core_pressure_loss_pa` every 0.1 m/s
    """
    velocity = np.linspace(FIT_LOWEST_M_S, FIT_HIGHEST_M_S, _FIT_POINTS)
    return fit_loss_table(velocity, core_pressure_loss_pa(construction, velocity))


def fit_loss_table(face_velocity_m_s: Values, pressure_loss_pa: Values) -> LossFit:
    """Give the rising two-term loss that fits a table of velocities and losses with the least relative error.

    Parameters
    ----------
    face_velocity_m_s : face velocities, more than zero, one dimension [m/s]
    pressure_loss_pa : losses at the reference density, as many [Pa]

    Returns
    -------
    the two terms, both at least zero, and the largest relative error of the fit

    Raises
    ------
    ValueError
        If there is no point, a point is not above zero, or the two columns differ in length.
    """
    velocity = np.asarray(face_velocity_m_s, dtype=np.float64)
    loss = np.asarray(pressure_loss_pa, dtype=np.float64)
    if velocity.ndim != 1 or velocity.shape != loss.shape or velocity.size == 0:
        raise ValueError("A pressure loss table needs one loss for each velocity: fill both columns.")
    if not (np.all(np.isfinite(velocity) & (velocity > 0.0)) and np.all(np.isfinite(loss) & (loss > 0.0))):
        raise ValueError(
            "Each velocity and each loss of a pressure loss table must be more than zero: correct the row."
        )
    linear = velocity / loss
    square = velocity * linear
    aa, ab, bb = float(linear @ linear), float(linear @ square), float(square @ square)
    sum_a, sum_b = float(linear.sum()), float(square.sum())
    determinant = aa * bb - ab * ab
    a = b = -1.0
    if determinant > 1.0e-9 * aa * bb:
        a = (sum_a * bb - sum_b * ab) / determinant
        b = (sum_b * aa - sum_a * ab) / determinant
    if a < 0.0 or b < 0.0:
        # One term alone: the better of the two explains more of the ones it is held against.
        only_a, only_b = sum_a / aa, sum_b / bb
        a, b = (only_a, 0.0) if sum_a * only_a > sum_b * only_b else (0.0, only_b)
    error = float(np.max(np.abs(a * linear + b * square - 1.0)))
    return LossFit(a_pa_s_per_m=a, b_pa_s2_per_m2=b, max_error_frac=error)
