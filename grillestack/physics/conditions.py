"""What is asked of a pack: a batch of problems that share its geometry."""

from __future__ import annotations

import enum
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.coolant import Coolant

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]


class Ask(enum.IntEnum):
    """Which quantity of a problem is the unknown one."""

    HEAT = 0
    TOP_TANK = 1
    AMBIENT = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """B problems; every array has shape (B,) unless said otherwise.

    Attributes
    ----------
    ask
        The unknown: the radiator's heat at a given top tank temperature, the top tank temperature that sheds the heat
        target, or the ambient at which the heat shed at the given top tank temperature equals the target.
    present
        Which layers are there with their tanks; shape (B, C).
    given_heat_w
        Heat of the layers whose heat is given; shape (B, C).
    given_inlet_degc, given_flow_kg_s
        Inlet temperature and flow of the further coolers that are given both; shape (B, C), `None` if there are none.
    charge_inlet_degc, charge_reference_degc
        Charge inlet temperature at its reference ambient; it scales with absolute ambient temperature.
    fan_speed_ratio
        1 for the speed of its curve, 0 for a fan that is off; shape (B,), or (B, F) with one column per fan.
    heat_factor, air_loss_factor
        Multipliers on a layer's conductance and on its air resistance; shape (B, C), `None` for 1.
    opening_loss_factor, passage_loss_factor, leak_factor, fan_factor
        Multipliers on the loss of the grille and of the way under a shroud, the leak's area and the fans' pressure; shape
        (B,), `None` for 1.
    """

    ask: NDArray[np.int_]
    present: BoolArray
    ambient_degc: FloatArray
    air_pressure_pa: FloatArray
    road_speed_m_s: FloatArray
    ram_recovery_frac: FloatArray
    exit_pressure_factor: FloatArray
    bay_loss_factor: FloatArray
    fan_speed_ratio: FloatArray
    surface_heat_w: FloatArray
    top_tank_degc: FloatArray
    heat_target_w: FloatArray
    coolant: Coolant
    coolant_flow_kg_s: FloatArray
    charge_flow_kg_s: FloatArray
    charge_inlet_degc: FloatArray
    charge_reference_degc: FloatArray
    charge_pressure_pa: FloatArray
    given_heat_w: FloatArray
    given_inlet_degc: FloatArray | None = None
    given_flow_kg_s: FloatArray | None = None
    heat_factor: FloatArray | None = None
    air_loss_factor: FloatArray | None = None
    opening_loss_factor: FloatArray | None = None
    passage_loss_factor: FloatArray | None = None
    leak_factor: FloatArray | None = None
    fan_factor: FloatArray | None = None

    def inlet_of(self, layer: int) -> FloatArray:
        """Return the given inlet temperature of a further cooler; shape (B,)."""
        return self.ambient_degc if self.given_inlet_degc is None else self.given_inlet_degc[:, layer]

    def flow_of(self, layer: int) -> FloatArray:
        """Return the given tube flow of a further cooler; shape (B,)."""
        return np.zeros(self.size) if self.given_flow_kg_s is None else self.given_flow_kg_s[:, layer]

    @property
    def size(self) -> int:
        """Return the number of problems."""
        return int(self.ask.size)
