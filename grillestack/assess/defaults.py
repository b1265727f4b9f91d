"""Values that stand in for what the document does not say: each with where it comes from, all replaceable by the user."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Final

from grillestack.model.engine import EngineSheet, Environment, Seal


class Tag(enum.Enum):
    """How a default was obtained."""

    PUBLISHED = "a published or maker's figure, seen in summary"
    MEMORY = "common practice, no source"
    COMPUTED = "computed"


@dataclass(frozen=True, slots=True)
class Default:
    """A stand-in value in the field's own unit, and what it rests on."""

    value: float
    tag: Tag
    source: str


def _memory(value: float, source: str = "common practice, no source") -> Default:
    return Default(value, Tag.MEMORY, source)


_DEFAULTS: Final[dict[str, Default]] = {
    "top_tank_limit_degc": Default(107.0, Tag.PUBLISHED, "usual highest top tank temperature under a pressure cap"),
    "glycol_frac": _memory(0.5, "the usual half and half mix, common practice"),
    "charge_inlet_degc": _memory(170.0),
    "charge_inlet_pa": _memory(240_000.0),
    "charge_reference_ambient_degc": _memory(25.0),
    "charge_out_limit_degc": Default(
        75.0, Tag.PUBLISHED, "usual highest manifold temperature of charge-cooled diesels"
    ),
    "charge_loss_limit_pa": _memory(13_500.0, "turbocharger to manifold, common practice"),
    "condenser_heat_w": _memory(9_000.0, "middle of 6 to 12 kW with A/C on, common practice"),
    "thermostat_degc": Default(88.0, Tag.PUBLISHED, "middle of the usual opening temperatures, 82 to 93 °C"),
    "design_ambient_degc": _memory(38.0, "temperate design day, common practice"),
    "altitude_m": _memory(0.0, "sea level"),
    "ram_recovery_frac": _memory(0.85),
    "exit_pressure_factor": _memory(-0.1),
    "bay_loss_factor": _memory(4.0),
    "jet_spread_deg": _memory(7.0),
    "free_area_frac": _memory(0.6, "an opening with bars, common practice"),
    "air_inlet_degc": _memory(25.0, "air of a test bench, common practice"),
    "surface_heat_w": Default(0.0, Tag.COMPUTED, "left out unless given"),
}

DEFAULT_SEAL: Final = Seal.ROUGH
SEAL_GAP_MM: Final[dict[Seal, float]] = {Seal.SEALED: 1.0, Seal.ROUGH: 4.0, Seal.OPEN: 15.0}
DIRTY_CORE_FACTOR: Final = 1.1
COOLANT_RISE_K: Final = 8.0
"""The coolant flow at full load carries its heat with this much temperature difference, if the sheet gives no flow."""
HEAT_PER_POWER_FRAC: Final = 0.6
"""Heat to coolant per rated power at full load where the sheet gives none: upper end of 0.45–0.60 without cooled exhaust."""
CHARGE_KG_PER_J: Final = 5.25 / 3.6e6
"""Charge air per rated energy: 5.0–5.5 kg per kWh, common practice."""

COOLANT_M3_PER_W: Final = 0.014 / 100e3
"""Coolant in engine, hoses and radiator per rated power where the sheet gives none: 14 L for 100 kW, common practice."""
ENGINE_KG_PER_W: Final = 3.2e-3
"""Dry engine per rated power where the sheet gives no mass: 3.2 kg/kW, a charge-cooled diesel, common practice."""
FAN_ON_DEGC: Final = 99.0
"""Where a fan switch usually closes; a published or maker's figure, seen in summary."""


def default_for(field: str) -> Default | None:
    """Return the default of a document field, or nothing if there is none."""
    return _DEFAULTS.get(field)


def default_value(field: str) -> float:
    """Return the default's value; the field must have one."""
    return _DEFAULTS[field].value


def engine_value(sheet: EngineSheet, field: str) -> float:
    """Return what the sheet says, else the default."""
    given = getattr(sheet, field)
    return default_value(field) if given is None else float(given)


def environment_value(environment: Environment, field: str) -> float:
    """Return what the environment says, else the default."""
    given = getattr(environment, field)
    return default_value(field) if given is None else float(given)
