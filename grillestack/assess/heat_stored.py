"""How much heat the coolant, the engine's metal and the radiator take up for each kelvin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from grillestack.assess.asked import coolant_of, full_load_heat_w
from grillestack.assess.defaults import COOLANT_M3_PER_W, ENGINE_KG_PER_W, HEAT_PER_POWER_FRAC, engine_value
from grillestack.model.core_description import CoreMetal, CoreType
from grillestack.model.parts import Core
from grillestack.model.project import Project, radiator
from grillestack.units.convert import m3_from_mm3

ENGINE_SHARE_FRAC: Final = 0.6
"""Share of the engine's mass that follows the coolant within minutes: block round the liners, and head; from memory."""
ENGINE_J_PER_KG_K: Final = 500.0
"""Mostly cast iron; handbook value, from memory."""
_RADIATOR_J_PER_KG_K: Final = {CoreMetal.ALUMINIUM: 900.0, CoreMetal.COPPER_BRASS: 385.0}
"""Handbook values, from memory."""
_RADIATOR_KG_M3: Final = {CoreMetal.ALUMINIUM: 450.0, CoreMetal.COPPER_BRASS: 700.0}
"""Dry radiator with its tanks over the volume of its finned core; typical of the trade, from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Store:
    """One thing that takes up heat with the coolant, and what its figure rests on."""

    name: str
    capacity_j_per_k: float
    source: str


def heat_stores(project: Project) -> tuple[Store, ...] | None:
    """Return what takes up heat with the coolant, or nothing if size of engine or radiator cannot even be guessed.

    Valid for: minutes. Oil, the rest of the engine, cab heater and hoses are left out, so the coolant moves a little faster
    here than on the vehicle.
    """
    core, power = radiator(project), _rated_power(project)
    if core is None or power is None:
        return None
    return _coolant(project, *power), _engine(project, *power), _radiator(core)


def _rated_power(project: Project) -> tuple[float, str] | None:
    """Return the rated power, typed or turned back from the heat to coolant, and what to call it."""
    if project.engine.rated_power_w is not None:
        return project.engine.rated_power_w, "rated power"
    heat_w = full_load_heat_w(project)
    return None if heat_w is None else (heat_w / HEAT_PER_POWER_FRAC, "rated power guessed from the heat to coolant")


def _coolant(project: Project, power_w: float, power_words: str) -> Store:
    volume_m3, source = project.engine.coolant_volume_m3, "volume from the engine sheet"
    if volume_m3 is None:
        volume_m3 = COOLANT_M3_PER_W * power_w
        source = f"default: {COOLANT_M3_PER_W * 1e8:g} L for each 100 kW of {power_words}, common practice, no source"
    coolant, at_degc = coolant_of(project), engine_value(project.engine, "top_tank_limit_degc")
    per_m3 = float(coolant.density_kg_m3(at_degc) * coolant.heat_capacity_j_per_kg_k(at_degc))
    return Store(name=f"{volume_m3 * 1e3:.1f} L of coolant", capacity_j_per_k=per_m3 * volume_m3, source=source)


def _engine(project: Project, power_w: float, power_words: str) -> Store:
    mass_kg, source = project.engine.engine_mass_kg, "mass from the engine sheet"
    if mass_kg is None:
        mass_kg = ENGINE_KG_PER_W * power_w
        source = f"default: {ENGINE_KG_PER_W * 1e3:g} kg for each kW of {power_words}, common practice, no source"
    return Store(
        name=f"{ENGINE_SHARE_FRAC * 100:.0f} % of an engine of {mass_kg:.0f} kg",
        capacity_j_per_k=ENGINE_SHARE_FRAC * mass_kg * ENGINE_J_PER_KG_K,
        source=f"{source}; the share that follows the coolant from memory",
    )


def _radiator(core: Core) -> Store:
    description = core.description
    metal = CoreMetal.COPPER_BRASS if description.core_type is CoreType.COPPER_BRASS else CoreMetal.ALUMINIUM
    if description.construction is not None:
        metal = description.construction.metal
    mass_kg, source = core.weight_kg, "weight of the part"
    if mass_kg is None:
        mass_kg = _RADIATOR_KG_M3[metal] * m3_from_mm3(core.core_width_mm * core.core_height_mm * core.depth_mm)
        source = f"default: {_RADIATOR_KG_M3[metal]:g} kg for each m³ of finned core, from memory"
    return Store(
        name=f"{mass_kg:.1f} kg of radiator", capacity_j_per_k=mass_kg * _RADIATOR_J_PER_KG_K[metal], source=source
    )
