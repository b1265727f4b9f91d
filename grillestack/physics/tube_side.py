"""Films and pressure losses inside a core's tubes: coolant in flat tubes, charge air in plain or finned ones."""

from __future__ import annotations

import numpy as np

from grillestack.physics import air, offset_strip
from grillestack.physics.arrays import Numbers, Values
from grillestack.physics.construction import Construction
from grillestack.physics.fin_efficiency import inner_fin_efficiency, surface_efficiency
from grillestack.physics.passage_ends import entrance_and_recovery
from grillestack.physics.tube_flow import Transition, darcy_f_flat_tube, nusselt_flat_tube

__all__ = [
    "Transition",
    "charge_core_loss_pa",
    "charge_film_w_per_m2_k",
    "coolant_core_loss_pa",
    "coolant_film_w_per_m2_k",
    "nusselt_flat_tube",
]

_LEAST_OUTLET_PRESSURE_FRAC = 0.5
_PRESSURE_PASSES = 3


def coolant_film_w_per_m2_k(
    construction: Construction,
    mass_flow_per_tube_kg_s: Numbers,
    viscosity_pa_s: Numbers,
    conductivity_w_per_m_k: Numbers,
    heat_capacity_j_per_kg_k: Numbers,
    transition: Transition = Transition.BLENDED,
) -> Values:
    """Give the film coefficient of coolant in the tubes, per square metre of bore, enhancement included.

    Times `inner_area_m2_per_m2` it is the conductance per square metre of face that `overall` asks for.

    Parameters
    ----------
    construction : fins and tubes, no inner fin
    mass_flow_per_tube_kg_s : coolant in one tube, any shape [kg/s]; zero or reversed counts as laminar
    viscosity_pa_s, conductivity_w_per_m_k, heat_capacity_j_per_kg_k : of the coolant at its temperature in the
        core, any shapes that broadcast [Pa·s], [W/(m·K)], [J/(kg·K)]
    transition : smooth or dimpled tube

    Returns
    -------
    film coefficient, the common shape [W/(m²·K)]

    Valid for: as `tube_flow.nusselt_flat_tube`.

    Source: [SL1978], [GN2013]
    """
    viscosity = np.asarray(viscosity_pa_s, dtype=np.float64)
    conductivity = np.asarray(conductivity_w_per_m_k, dtype=np.float64)
    reynolds = _mass_flux(construction, mass_flow_per_tube_kg_s) * construction.bore_hydraulic_diameter_m / viscosity
    prandtl = viscosity * heat_capacity_j_per_kg_k / conductivity
    nusselt = nusselt_flat_tube(reynolds, prandtl, construction.bore_aspect, transition)
    return nusselt * conductivity * (construction.tube_enhancement_factor / construction.bore_hydraulic_diameter_m)


def charge_film_w_per_m2_k(
    construction: Construction,
    mass_flow_per_tube_kg_s: Numbers,
    temperature_degc: Numbers,
    transition: Transition = Transition.BLENDED,
) -> Values:
    """Give the film coefficient of charge air, per square metre of wetted area, the inner fin's efficiency included.

    Times `inner_area_m2_per_m2`, which counts the inner fin whole, it is the conductance per square metre of
    face that `overall` asks for.

    Parameters
    ----------
    construction : fins and tubes, with an inner fin or plain
    mass_flow_per_tube_kg_s : charge air in one tube, any shape [kg/s]; zero or reversed counts as creeping
    temperature_degc : temperature of the charge air, any shape that broadcasts [°C]
    transition : smooth or dimpled tube; an inner fin does not look at it

    Returns
    -------
    working film coefficient, the common shape [W/(m²·K)]

    Valid for: as `offset_strip.colburn_j`, plain tubes as `tube_flow.nusselt_flat_tube`.

    Source: [MB1995], [INCROPERA], plain tubes [SL1978], [GN2013]
    """
    c = construction
    viscosity = air.viscosity_pa_s(temperature_degc)
    reynolds = _mass_flux(c, mass_flow_per_tube_kg_s) * c.bore_hydraulic_diameter_m / viscosity
    if c.inner_fin is None:
        nusselt = nusselt_flat_tube(reynolds, air.AIR_PRANDTL, c.bore_aspect, transition)
        film = nusselt * air.conductivity_w_per_m_k(temperature_degc) / c.bore_hydraulic_diameter_m
        return film * c.tube_enhancement_factor
    # j·Re is held below the range, so the film stays finite where nothing flows.
    moving = np.maximum(reynolds, offset_strip.LOWEST_STRIP_REYNOLDS)
    flux = moving * viscosity / c.bore_hydraulic_diameter_m
    film = (
        offset_strip.colburn_j(c.inner_fin, moving)
        * flux
        * air.charge_air_heat_capacity_j_per_kg_k(temperature_degc)
        * (c.tube_enhancement_factor * air.AIR_PRANDTL ** (-2.0 / 3.0))
    )
    working: Values = film * surface_efficiency(inner_fin_efficiency(c, film), c.inner_fin.fin_area_frac)
    return working


def charge_core_loss_pa(
    construction: Construction,
    mass_flow_per_tube_kg_s: Numbers,
    tube_length_m: float,
    temperature_in_degc: Numbers,
    temperature_out_degc: Numbers,
    pressure_pa: Numbers,
) -> Values:
    """Give what the charge air loses in the tubes: entrance, friction, exit, less what slowing down gives back.

    Parameters
    ----------
    construction : fins and tubes, with an inner fin or plain
    mass_flow_per_tube_kg_s : charge air in one tube, any shape [kg/s]
    tube_length_m : tank to tank [m]
    temperature_in_degc, temperature_out_degc : of the charge air, any shapes that broadcast [°C]
    pressure_pa : absolute pressure at the inlet, any shape that broadcasts [Pa]

    Returns
    -------
    pressure loss, the common shape, with the sign of the flow [Pa]; tanks and pipes are not in it

    Valid for: as `offset_strip.fanning_f`, plain tubes as `tube_flow.darcy_f_flat_tube`. The outlet density is taken
    at no less than half the inlet pressure.

    Source: [KL1984], [MB1995], [RENNELS]
    """
    c = construction
    inlet = np.asarray(pressure_pa, dtype=np.float64)
    flux = _mass_flux(c, mass_flow_per_tube_kg_s)
    mean_degc = 0.5 * (np.asarray(temperature_in_degc, dtype=np.float64) + temperature_out_degc)
    reynolds = np.abs(flux) * c.bore_hydraulic_diameter_m / air.viscosity_pa_s(mean_degc)
    if c.inner_fin is None:
        friction = darcy_f_flat_tube(reynolds, c.bore_aspect)
    else:
        friction = 4.0 * offset_strip.fanning_f(c.inner_fin, reynolds)
    friction = friction * (tube_length_m / c.bore_hydraulic_diameter_m)
    entrance, recovery = _ends(c)
    density_in = air.density_kg_m3(temperature_in_degc, inlet)
    head = flux * np.abs(flux) / (2.0 * density_in)
    loss: Values = np.zeros_like(head)
    for _ in range(_PRESSURE_PASSES):
        outlet = np.maximum(inlet - loss, _LEAST_OUTLET_PRESSURE_FRAC * inlet)
        thinning = density_in / air.density_kg_m3(temperature_out_degc, outlet)
        loss = head * (entrance + 2.0 * (thinning - 1.0) + friction * 0.5 * (1.0 + thinning) - recovery * thinning)
    return loss


def coolant_core_loss_pa(
    construction: Construction,
    mass_flow_per_tube_kg_s: Numbers,
    tube_length_m: float,
    density_kg_m3: Numbers,
    viscosity_pa_s: Numbers,
    transition: Transition = Transition.BLENDED,
) -> Values:
    """Give what the coolant loses in the tubes: entrance, friction and exit; tanks and hoses are not in it.

    Parameters
    ----------
    construction : fins and tubes, no inner fin
    mass_flow_per_tube_kg_s : coolant in one tube, any shape [kg/s]
    tube_length_m : tank to tank, all passes [m]
    density_kg_m3, viscosity_pa_s : of the coolant, any shapes that broadcast [kg/m³], [Pa·s]
    transition : smooth or dimpled tube; the drag of the dimples themselves is not known and not counted

    Returns
    -------
    pressure loss, the common shape, with the sign of the flow [Pa]

    Valid for: as `tube_flow.darcy_f_flat_tube`.

    Source: [KL1984], [SL1978], [RENNELS]
    """
    c = construction
    flux = _mass_flux(c, mass_flow_per_tube_kg_s)
    reynolds = np.abs(flux) * c.bore_hydraulic_diameter_m / np.asarray(viscosity_pa_s, dtype=np.float64)
    friction = darcy_f_flat_tube(reynolds, c.bore_aspect, transition) * (tube_length_m / c.bore_hydraulic_diameter_m)
    entrance, recovery = _ends(c)
    return flux * np.abs(flux) / (2.0 * np.asarray(density_kg_m3, dtype=np.float64)) * (entrance - recovery + friction)


def _mass_flux(c: Construction, mass_flow_per_tube_kg_s: Numbers) -> Values:
    return np.asarray(mass_flow_per_tube_kg_s, dtype=np.float64) / c.bore_area_m2


def _ends(c: Construction) -> tuple[float, float]:
    return entrance_and_recovery(c.bore_area_m2 * c.tubes_per_m / c.flow_depth_m)
