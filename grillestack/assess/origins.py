"""Where the value of an input comes from: the engine sheet, something typed, an estimate, or a marked default."""

from __future__ import annotations

from typing import Final

from grillestack.assess.defaults import default_for
from grillestack.model.engine import EngineSheet, Environment

ENGINE_SHEET: Final = "engine sheet"
GIVEN: Final = "given"
NOT_GIVEN: Final = "not given"
FROM_POWER: Final = "estimated from the rated power"
FROM_HEAT: Final = "estimated from the heat to the coolant"


def heat_origin(sheet: EngineSheet) -> str:
    """Return where the heat to the coolant comes from."""
    if sheet.heat_to_coolant_w is not None:
        return ENGINE_SHEET
    return NOT_GIVEN if sheet.rated_power_w is None else FROM_POWER


def coolant_flow_origin(sheet: EngineSheet) -> str:
    """Return where the coolant flow comes from."""
    return ENGINE_SHEET if sheet.coolant_flow_m3_s is not None else FROM_HEAT


def charge_flow_origin(sheet: EngineSheet) -> str:
    """Return where the charge-air flow comes from."""
    if sheet.charge_flow_kg_s is not None:
        return ENGINE_SHEET
    return NOT_GIVEN if sheet.rated_power_w is None else FROM_POWER


def field_origin(of: EngineSheet | Environment, field: str) -> str:
    """Return where a field's value comes from: given, or a default and what that rests on."""
    if getattr(of, field) is not None:
        return ENGINE_SHEET if isinstance(of, EngineSheet) else GIVEN
    default = default_for(field)
    return NOT_GIVEN if default is None else f"default: {default.source}"
