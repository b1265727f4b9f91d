"""What stands in for a field that the document leaves open, where it follows from another field of the document."""

from __future__ import annotations

from collections.abc import Callable

from grillestack.assess.defaults import (
    CHARGE_KG_PER_J,
    COOLANT_M3_PER_W,
    ENGINE_KG_PER_W,
    HEAT_PER_POWER_FRAC,
    Default,
    Tag,
    default_for,
)
from grillestack.model.project import Project

_PER_POWER = {
    "heat_to_coolant_w": HEAT_PER_POWER_FRAC,
    "charge_flow_kg_s": CHARGE_KG_PER_J,
    "coolant_volume_m3": COOLANT_M3_PER_W,
    "engine_mass_kg": ENGINE_KG_PER_W,
}


def of_engine(field: str) -> Callable[[Project], Default | None]:
    """Return what stands in for a line of the engine sheet: its default, or a share of the rated power."""

    def stand_in(project: Project) -> Default | None:
        power = project.engine.rated_power_w
        if field in _PER_POWER and power is not None:
            return Default(_PER_POWER[field] * power, Tag.MEMORY, "from the rated power; common practice, no source")
        return default_for(field)

    return stand_in


def of_case(field: str) -> Callable[[Project], Default | None]:
    """Return what stands in for a field of a duty case: that of the design day."""
    of_day = {"ambient_degc": "design_ambient_degc", "altitude_m": "altitude_m"}

    def stand_in(project: Project) -> Default | None:
        name = of_day.get(field)
        if name is None:
            return None
        given = getattr(project.environment, name)
        return default_for(name) if given is None else Default(given, Tag.COMPUTED, "that of the design day")

    return stand_in
