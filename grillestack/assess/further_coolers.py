"""What is known of a further cooler: its heat, or what flows in, so that it is marched."""

from __future__ import annotations

import enum
from typing import Final

from grillestack.model.parts import Core, CoreRole, TubeFluid
from grillestack.physics.coolant import Coolant
from grillestack.physics.oil import TRANSMISSION_OIL, Oil


class Known(enum.Enum):
    """How the heat of a further cooler is found."""

    HEAT = "its heat is typed"
    INLET = "its heat follows from what flows in"
    NOTHING = "not known: it warms no air"


def known_of(core: Core) -> Known:
    """Return how this further cooler's heat is found; a typed heat wins."""
    if core.given_heat_w is not None:
        return Known.HEAT
    return Known.NOTHING if what_is_missing(core) else Known.INLET


def is_marched(core: Core) -> bool:
    """Return whether this core's heat follows from a given inlet temperature and flow in its tubes."""
    return core.role is CoreRole.COOLER and known_of(core) is Known.INLET


def oil_of(core: Core) -> Oil | None:
    """Return the oil in the tubes of a further cooler; nothing if it is coolant or not known."""
    is_oil = core.role is CoreRole.COOLER and core.tube_fluid is TubeFluid.OIL
    return TRANSMISSION_OIL if is_oil else None


def tube_flow_kg_s(core: Core, coolant: Coolant) -> float:
    """Return the mass flow in a marched cooler's tubes: its volume flow, measured as it comes in."""
    if core.tube_inlet_degc is None or core.tube_flow_m3_s is None:
        return 0.0
    liquid = oil_of(core) or coolant
    return core.tube_flow_m3_s * float(liquid.density_kg_m3(core.tube_inlet_degc))


_WANTED: Final = (
    ("tube_fluid", "what flows through it"),
    ("tube_inlet_degc", "how hot it comes in"),
    ("tube_flow_m3_s", "how much flows"),
)


def what_is_missing(core: Core) -> tuple[str, ...]:
    """Return in words what is not typed of the three things that a cooler is marched from."""
    return tuple(words for field, words in _WANTED if getattr(core, field) is None)
