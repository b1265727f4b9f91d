"""What runs through a further cooler, and how much of it, in the terms of physics."""

from __future__ import annotations

from grillestack.assess.further_coolers import runs_oil
from grillestack.model.parts import Core
from grillestack.physics.coolant import Coolant
from grillestack.physics.oil import TRANSMISSION_OIL, Oil


def oil_of(core: Core) -> Oil | None:
    """Return the oil in the tubes of a further cooler; nothing if it is coolant or not known."""
    return TRANSMISSION_OIL if runs_oil(core) else None


def tube_flow_kg_s(core: Core, coolant: Coolant) -> float:
    """Return the mass flow in a marched cooler's tubes: its volume flow, measured as it comes in."""
    if core.tube_inlet_degc is None or core.tube_flow_m3_s is None:
        return 0.0
    liquid = oil_of(core) or coolant
    return core.tube_flow_m3_s * float(liquid.density_kg_m3(core.tube_inlet_degc))
