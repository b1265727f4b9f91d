"""Heat transfer and friction of louvred fins between flat tubes, from their geometry alone.

The friction factor is Fanning's. Reynolds numbers are on the louvre pitch and the velocity in the narrowest free area.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.physics.air import AIR_HEAT_CAPACITY_J_PER_KG_K, AIR_PRANDTL, viscosity_pa_s
from grillestack.physics.arrays import Numbers, Values, clamped
from grillestack.physics.construction import Construction

LOWEST_LOUVRE_REYNOLDS: Final = 50.0
"""Below, j·Re and f·Re are held, as in creeping flow: the film stays finite and the loss goes straight to nothing."""

HIGHEST_J_REYNOLDS: Final = 3000.0
HIGHEST_F_REYNOLDS: Final = 5000.0
"""Above, j and f are held. Source: [CW1997], [C2000], ranges from memory."""

_BLEND_FROM: Final = 130.0
_BLEND_TO: Final = 230.0
_LEAST_THICKNESS_TO_PITCH: Final = 0.02
"""The logarithms of f meet zero at a thickness of 0.01 fin pitches; thinner fins count as 0.02."""

_PRANDTL_POWER: Final[float] = AIR_PRANDTL ** (-2.0 / 3.0)


@dataclass(frozen=True, kw_only=True)
class LouvredSurface:
    """The lengths that the louvred-fin correlations ask for, all in one unit, whichever; the angle in degrees.

    Only ratios enter, so a table printed in millimetres can be held against the correlation as it stands.
    """

    tube_pitch: float
    tube_thickness: float
    flow_depth: float
    fin_height: float
    fin_pitch: float
    louvre_pitch: float
    louvre_length: float
    louvre_angle_deg: float
    fin_thickness: float
    hydraulic_diameter: float


def louvred_surface(construction: Construction) -> LouvredSurface:
    """Give the lengths of a construction that the correlations ask for."""
    c = construction
    return LouvredSurface(
        tube_pitch=c.tube_pitch_m,
        tube_thickness=c.tube_thickness_m,
        flow_depth=c.flow_depth_m,
        fin_height=c.fin_height_m,
        fin_pitch=c.fin_pitch_m,
        louvre_pitch=c.louvre_pitch_m,
        louvre_length=c.louvre_length_m,
        louvre_angle_deg=c.louvre_angle_deg,
        fin_thickness=c.fin_thickness_m,
        hydraulic_diameter=c.air_hydraulic_diameter_m,
    )


def colburn_j(construction: Construction, reynolds: Numbers) -> Values:
    """Give the Colburn factor j of the air side.

    Parameters
    ----------
    construction : fins and tubes
    reynolds : Reynolds number on louvre pitch, any shape [-]

    Returns
    -------
    j, same shape [-]

    Valid for: Re 100 to 3000, and the lengths of `range_notes`; 89 % of its data within 15 %. From 50 to 100 the power law
    is carried on; below 50 j·Re is held, above 3000 j.

    Source: [CW1997]
    """
    return surface_colburn_j(louvred_surface(construction), reynolds)


def fanning_f(construction: Construction, reynolds: Numbers) -> Values:
    """Give the Fanning friction factor f of the air side.

    Parameters
    ----------
    construction : fins and tubes
    reynolds : Reynolds number on louvre pitch, any shape [-]

    Returns
    -------
    f, same shape [-]

    Valid for: Re 50 to 5000, and the lengths of `range_notes`; 83 to 85 % of its data within 15 %, another published
    correlation 23 to 72 % higher. Below 50 f·Re is held, above 5000 f. Not monotone in pressure loss between 130 and 230:
    use the fit of `core_loss`.

    Source: [C2000], [C2006]
    """
    return surface_fanning_f(louvred_surface(construction), reynolds)


def surface_colburn_j(surface: LouvredSurface, reynolds: Numbers) -> Values:
    """Give j as `colburn_j` does, from bare lengths."""
    re = np.asarray(reynolds, dtype=np.float64)
    held = clamped(re, LOWEST_LOUVRE_REYNOLDS, HIGHEST_J_REYNOLDS)
    return _j_factor(surface) * held**-0.49 * _creeping(re)


def surface_fanning_f(surface: LouvredSurface, reynolds: Numbers) -> Values:
    """Give f as `fanning_f` does, from bare lengths."""
    re = np.asarray(reynolds, dtype=np.float64)
    held = clamped(re, LOWEST_LOUVRE_REYNOLDS, HIGHEST_F_REYNOLDS)
    low = _f_low(surface, np.minimum(held, _BLEND_FROM))
    high = _f_high(surface, np.maximum(held, _BLEND_TO))
    # 1 up to Re 130, -1 from Re 230: the root then is the low, respectively the high branch alone.
    w = clamped(3.6 - 0.02 * held, -1.0, 1.0)
    return np.sqrt(0.5 * ((1.0 + w) * low**2 + (1.0 - w) * high**2)) * _creeping(re)


def air_film_w_per_m2_k(construction: Construction, mass_flux_kg_s_m2: Numbers, temperature_degc: Numbers) -> Values:
    """Give the film coefficient on the air side, per square metre of fin and tube.

    Parameters
    ----------
    construction : fins and tubes
    mass_flux_kg_s_m2 : air per square metre of FACE, any shape [kg/(s·m²)]; zero or reversed counts as creeping
    temperature_degc : temperature of the air in the core, any shape that broadcasts [°C]

    Returns
    -------
    film coefficient, the common shape [W/(m²·K)]; never less than its value at Re 50

    Valid for: as `colburn_j`.

    Source: [CW1997]
    """
    viscosity = viscosity_pa_s(temperature_degc)
    narrowest_flux = np.asarray(mass_flux_kg_s_m2, dtype=np.float64) / construction.free_flow_frac
    re = np.maximum(narrowest_flux * construction.louvre_pitch_m / viscosity, LOWEST_LOUVRE_REYNOLDS)
    j: Values = _j_factor(louvred_surface(construction)) * np.minimum(re, HIGHEST_J_REYNOLDS) ** -0.49
    per_viscosity: float = AIR_HEAT_CAPACITY_J_PER_KG_K * _PRANDTL_POWER / construction.louvre_pitch_m
    return j * re * viscosity * per_viscosity


def range_notes(construction: Construction) -> tuple[str, ...]:
    """Give one sentence for each length that lies outside the data behind j and f; empty when none does.

    Source: [CW1997], ranges from memory
    """
    c = construction
    ranges = (
        ("Core depth", c.flow_depth_m, 15.6, 57.4),
        ("Air-side hydraulic diameter", c.air_hydraulic_diameter_m, 0.82, 5.02),
        ("Fin pitch", c.fin_pitch_m, 0.51, 3.33),
        ("Louvre pitch", c.louvre_pitch_m, 0.5, 3.0),
        ("Fin height", c.fin_height_m, 2.84, 20.0),
        ("Louvre length", c.louvre_length_m, 2.13, 18.5),
        ("Tube pitch", c.tube_pitch_m, 7.51, 25.0),
        ("Fin thickness", c.fin_thickness_m, 0.0254, 0.16),
    )
    notes = [
        f"{name} {length_m * 1e3:.3g} mm is outside {low:g} to {high:g} mm, the range of the data behind the correlation."
        for name, length_m, low, high in ranges
        if not low <= length_m * 1e3 <= high
    ]
    if not 8.4 <= c.louvre_angle_deg <= 35.0:
        notes.append(
            f"Louvre angle {c.louvre_angle_deg:g}° is outside 8.4 to 35°, the range of the data behind the correlation."
        )
    if c.fin_thickness_m < _LEAST_THICKNESS_TO_PITCH * c.fin_pitch_m:
        notes.append(
            f"Fin thickness {c.fin_thickness_m * 1e3:.3g} mm is under a fiftieth of the fin pitch: "
            "friction is that of a fiftieth."
        )
    return tuple(notes)


def _creeping(reynolds: Values) -> Values:
    return LOWEST_LOUVRE_REYNOLDS / clamped(reynolds, 1.0e-3, LOWEST_LOUVRE_REYNOLDS)


def _j_factor(s: LouvredSurface) -> float:
    lp = s.louvre_pitch
    return float(
        (s.louvre_angle_deg / 90.0) ** 0.27
        * (s.fin_pitch / lp) ** -0.14
        * (s.fin_height / lp) ** -0.29
        * (s.flow_depth / lp) ** -0.23
        * (s.louvre_length / lp) ** 0.68
        * (s.tube_pitch / lp) ** -0.28
        * (s.fin_thickness / lp) ** -0.05
    )


def _thickness_to_pitch(s: LouvredSurface) -> float:
    return max(s.fin_thickness / s.fin_pitch, _LEAST_THICKNESS_TO_PITCH)


def _f_low(s: LouvredSurface, re: Values) -> Values:
    scale: float = (
        14.39
        * math.log(1.0 + s.fin_pitch / s.louvre_pitch) ** 3.04
        * math.log(_thickness_to_pitch(s) ** 0.48 + 0.9) ** -1.435
        * (s.hydraulic_diameter / s.louvre_pitch) ** -3.01
        * (s.fin_pitch / s.louvre_length) ** -0.308
        * (s.flow_depth / s.louvre_length) ** -0.308
        * math.exp(-0.1167 * s.tube_pitch / s.tube_thickness)
        * s.louvre_angle_deg**0.35
    )
    return scale * re ** (-0.805 * s.fin_pitch / s.fin_height) * np.log(0.5 * re) ** -3.01


def _f_high(s: LouvredSurface, re: Values) -> Values:
    fin_gap = s.tube_pitch - s.tube_thickness
    scale: float = (
        4.97
        * math.log(_thickness_to_pitch(s) ** 0.5 + 0.9) ** -0.527
        * (s.hydraulic_diameter / s.louvre_pitch) ** -2.966
        * (s.fin_pitch / s.louvre_length) ** (-0.7931 * s.tube_pitch / fin_gap)
        * (s.tube_pitch / s.tube_thickness) ** -0.0446
        * math.log(1.2 + (s.louvre_pitch / s.fin_pitch) ** 1.4) ** -3.553
        * s.louvre_angle_deg**-0.477
    )
    power: float = 0.6049 - 1.064 / s.louvre_angle_deg**0.2
    return scale * re**power * np.log(0.3 * re) ** -2.966
