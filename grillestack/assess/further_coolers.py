"""What is known of a further cooler: its heat, or what flows in, so that it is marched."""

from __future__ import annotations

import enum
from typing import Final

from grillestack.model.parts import Core, CoreRole, TubeFluid


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


def runs_oil(core: Core) -> bool:
    """Return whether oil is said to run through this further cooler."""
    return core.role is CoreRole.COOLER and core.tube_fluid is TubeFluid.OIL


_WANTED: Final = (
    ("tube_fluid", "what flows through it"),
    ("tube_inlet_degc", "how hot it comes in"),
    ("tube_flow_m3_s", "how much flows"),
)


def what_is_missing(core: Core) -> tuple[str, ...]:
    """Return in words what is not typed of the three things that a cooler is marched from."""
    return tuple(words for field, words in _WANTED if getattr(core, field) is None)
