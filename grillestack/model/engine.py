"""What the engine asks for, on which days, and what surrounds the pack."""

from __future__ import annotations

import enum
from typing import Annotated

from msgspec import Meta

from grillestack.model.values import (
    AmbientDegc,
    ClockDeg,
    CoordinateMm,
    Identifier,
    Name,
    Share,
    SizeMm,
    TemperatureDegc,
    Text,
    Value,
)

Watts = Annotated[float, Meta(gt=0, le=2e6)]
AltitudeM = Annotated[float, Meta(ge=-400, le=5_000)]


class ConnectionPurpose(enum.Enum):
    """What a connection of the engine is for."""

    CHARGE_OUT = "compressor outlet"
    CHARGE_IN = "engine intake"
    COOLANT_OUT = "coolant outlet"
    COOLANT_IN = "coolant inlet"


class EngineSide(enum.Enum):
    """The vehicle's side on which a connection stands."""

    LEFT = "left"
    RIGHT = "right"
    MIDDLE = "middle"


class EngineConnection(Value, frozen=True, kw_only=True):
    """Where hoses and charge pipes meet the engine; the place is the vehicle's, as far as it was measured.

    `clock_angles_deg` are the ways the connection may be turned about the vehicle's length, 0 up, clockwise as seen from
    ahead; none listed means that it cannot be turned.
    """

    purpose: ConnectionPurpose
    side: EngineSide
    x_mm: CoordinateMm | None = None
    y_mm: CoordinateMm | None = None
    z_mm: CoordinateMm | None = None
    bore_mm: SizeMm | None = None
    clock_angles_deg: Annotated[tuple[ClockDeg, ...], Meta(max_length=36)] = ()


class EngineSheet(Value, frozen=True, kw_only=True):
    """The engine maker's installation sheet at full load; what it does not say stays `None`."""

    name: Name = "Engine"
    rated_power_w: Watts | None = None
    heat_to_coolant_w: Watts | None = None
    coolant_flow_m3_s: Annotated[float, Meta(gt=0, le=0.05)] | None = None
    top_tank_limit_degc: Annotated[float, Meta(ge=60, le=140)] | None = None
    glycol_frac: Annotated[float, Meta(ge=0, le=0.7)] | None = None
    charge_flow_kg_s: Annotated[float, Meta(gt=0, le=5)] | None = None
    charge_inlet_degc: TemperatureDegc | None = None
    charge_inlet_pa: Annotated[float, Meta(ge=50_000, le=1e6)] | None = None
    charge_reference_ambient_degc: AmbientDegc | None = None
    charge_out_limit_degc: TemperatureDegc | None = None
    charge_loss_limit_pa: Annotated[float, Meta(gt=0, le=1e5)] | None = None
    condenser_heat_w: Annotated[float, Meta(ge=0, le=1e5)] | None = None
    # What engine, hoses and radiator hold together, the dry engine, and where coolant begins to reach the radiator.
    coolant_volume_m3: Annotated[float, Meta(gt=0, le=1)] | None = None
    engine_mass_kg: Annotated[float, Meta(gt=0, le=20_000)] | None = None
    thermostat_degc: Annotated[float, Meta(ge=30, le=130)] | None = None
    connections: Annotated[tuple[EngineConnection, ...], Meta(max_length=20)] = ()
    notes_text: Text = ""


class DutyCase(Value, frozen=True, kw_only=True):
    """One day's work: road speed, shares of the full-load figures, ambient and altitude where they differ."""

    id: Identifier
    name: Name
    road_speed_m_s: Annotated[float, Meta(ge=0, le=100)]
    heat_frac: Share
    coolant_frac: Share
    charge_frac: Share
    ambient_degc: AmbientDegc | None = None
    altitude_m: AltitudeM | None = None
    air_conditioning_on: bool = True
    fans_on: bool = True
    engine_speed_rpm: Annotated[float, Meta(ge=0, le=10_000)] | None = None


class Seal(enum.Enum):
    """How well the edges of the pack are closed against the nose."""

    SEALED = "sealed"
    ROUGH = "rough"
    OPEN = "open"


class Environment(Value, frozen=True, kw_only=True):
    """The design day and what the air meets besides the pack.

    `seal` says how all edges of the pack are closed, `seal_top` and its kin how one of them is, where it differs; left and
    right are the vehicle's. `supply_voltage_v` is what reaches the electric fans; without it they run at their rated one.
    """

    design_ambient_degc: AmbientDegc | None = None
    altitude_m: AltitudeM | None = None
    ram_recovery_frac: Annotated[float, Meta(ge=0, le=1)] | None = None
    exit_pressure_factor: Annotated[float, Meta(ge=-1, le=1)] | None = None
    bay_loss_factor: Annotated[float, Meta(gt=0, le=100)] | None = None
    jet_spread_deg: Annotated[float, Meta(ge=0, le=45)] | None = None
    seal: Seal | None = None
    seal_top: Seal | None = None
    seal_bottom: Seal | None = None
    seal_left: Seal | None = None
    seal_right: Seal | None = None
    supply_voltage_v: Annotated[float, Meta(gt=0, le=1_000)] | None = None
    opening_closed_off: bool = False
    dirty_core: bool = False
    surface_heat_w: Annotated[float, Meta(ge=0, le=1e5)] | None = None


def usual_duty_cases() -> tuple[DutyCase, ...]:
    """Return the four cases of the trade: grade pull, crawl, motorway, idle with A/C (common practice, from memory)."""
    kmh = 1 / 3.6
    return (
        DutyCase(
            id="case-1", name="Grade pull", road_speed_m_s=72 * kmh, heat_frac=1.0, coolant_frac=1.0, charge_frac=1.0
        ),
        DutyCase(
            id="case-2", name="Crawl", road_speed_m_s=15 * kmh, heat_frac=0.45, coolant_frac=0.6, charge_frac=0.35
        ),
        DutyCase(
            id="case-3", name="Motorway", road_speed_m_s=110 * kmh, heat_frac=0.6, coolant_frac=0.85, charge_frac=0.55
        ),
        DutyCase(
            id="case-4", name="Idle with A/C", road_speed_m_s=0.0, heat_frac=0.12, coolant_frac=0.35, charge_frac=0.12
        ),
    )
