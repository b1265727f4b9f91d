"""Which inputs of a pack are uncertain, by how much, and why: default spreads from how each was obtained."""

from __future__ import annotations

import enum
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Final

from grillestack.assess.fan_figures import fan_figures
from grillestack.assess.further_coolers import Known, known_of
from grillestack.geometry.fan_rims import passages
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, fans

_P95: Final = NormalDist().inv_cdf(0.95)
_MEMORY: Final = "common practice, from memory"


class Kind(enum.Enum):
    """What a sampled value does to the problem; a factor multiplies, a shift is added."""

    RADIATOR_HEAT = "heat of the radiator"
    CORE_HEAT = "conductance of another core"
    AIR_RESISTANCE = "air resistance of a core"
    GRILLE = "loss of the grille"
    RAM = "ram recovery"
    EXIT = "pressure at the exit"
    BAY = "loss of the engine bay"
    PASSAGE = "loss of the way under a shroud"
    LEAK = "area of the leaks"
    FAN = "pressure of the fans"
    HEAT_TARGET = "heat to coolant"
    COOLANT_FLOW = "coolant flow"
    CHARGE_FLOW = "charge-air flow"
    CHARGE_INLET = "charge inlet temperature"
    CONDENSER = "condenser load"
    COOLER_HEAT = "typed heat of a further cooler"
    COOLER_INLET = "inlet temperature of a further cooler"
    COOLER_FLOW = "flow in a further cooler"


SHIFTS: Final = frozenset({Kind.RAM, Kind.EXIT, Kind.CHARGE_INLET, Kind.COOLER_INLET})


@dataclass(frozen=True, slots=True)
class Uncertain:
    """One uncertain input: the 5th and 95th percentile of its factor or shift.

    A factor is log-normal, a shift normal. `layer` is the number of the core it belongs to, if any.
    """

    name: str
    kind: Kind
    p5: float
    p95: float
    source: str
    layer: int | None = None

    def value_at(self, quantile: float) -> float:
        """Return the factor or shift at a quantile between 0 and 1."""
        score = NormalDist().inv_cdf(quantile) / _P95
        low, high = (self.p5, self.p95) if self.kind in SHIFTS else (math.log(self.p5), math.log(self.p95))
        value = 0.5 * (low + high) + 0.5 * (high - low) * score
        return value if self.kind in SHIFTS else math.exp(value)


def uncertain_inputs(
    project: Project, stack: Sequence[Core], heat_spread: Sequence[tuple[float, float, str]]
) -> tuple[Uncertain, ...]:
    """Return the uncertain inputs of a pack.

    Parameters
    ----------
    heat_spread
        For each core the 5th and 95th percentile of true over computed heat, and the source.
    """
    return (*_of_cores(stack, heat_spread), *_of_air(project), *_of_engine(project, stack))


def _of_cores(stack: Sequence[Core], heat_spread: Sequence[tuple[float, float, str]]) -> Iterator[Uncertain]:
    seen_radiator = False
    for number, (core, (low, high, source)) in enumerate(zip(stack, heat_spread, strict=True)):
        if core.role is CoreRole.RADIATOR and not seen_radiator:
            seen_radiator = True
            yield Uncertain(f"heat of “{core.name}”", Kind.RADIATOR_HEAT, low, high, source, number)
        elif core.role is CoreRole.CHARGE_AIR_COOLER:
            yield Uncertain(f"heat of “{core.name}”", Kind.CORE_HEAT, low, high, source, number)
        elif core.role is CoreRole.COOLER:
            yield from _of_further_cooler(core, (low, high, source), number)
        measured = core.description.table is not None
        low_loss, high_loss = (0.93, 1.07) if measured else (0.75, 1.45)
        why = "measured table, from memory" if measured else "two published friction correlations differ by 25 to 70 %"
        yield Uncertain(f"air resistance of “{core.name}”", Kind.AIR_RESISTANCE, low_loss, high_loss, why, number)


def _of_further_cooler(core: Core, spread: tuple[float, float, str], number: int) -> Iterator[Uncertain]:
    known = known_of(core)
    if known is Known.HEAT:
        low, high = 1.0 / 1.15, 1.15
        yield Uncertain(f"heat of “{core.name}”", Kind.COOLER_HEAT, low, high, f"as typed, spread {_MEMORY}", number)
    elif known is Known.INLET:
        yield Uncertain(f"heat of “{core.name}”", Kind.CORE_HEAT, *spread, number)
        yield Uncertain(
            f"inlet temperature of “{core.name}”", Kind.COOLER_INLET, -5.0, 5.0, f"as typed, spread {_MEMORY}", number
        )
        yield Uncertain(
            f"flow in “{core.name}”", Kind.COOLER_FLOW, 1.0 / 1.15, 1.15, f"as typed, spread {_MEMORY}", number
        )


def _of_air(project: Project) -> Iterator[Uncertain]:
    yield Uncertain("ram recovery at the opening", Kind.RAM, -0.15, 0.12, _MEMORY)
    yield Uncertain("pressure where the air leaves", Kind.EXIT, -0.2, 0.2, _MEMORY)
    yield Uncertain("loss of the engine bay", Kind.BAY, 0.7, 1.45, _MEMORY)
    yield Uncertain("loss of the grille", Kind.GRILLE, 0.7, 1.45, _MEMORY)
    if any(way.rim_mm > 0.0 for way in passages(project)):
        # A rounded inlet costs less than a sharp one; swirl and the turn into the ring cost more.
        yield Uncertain("loss of the way under the shroud", Kind.PASSAGE, 0.6, 1.6, _MEMORY)
    yield Uncertain("leaks round the pack", Kind.LEAK, 0.5, 2.0, _MEMORY)
    mine = fans(project)
    if mine:
        derived = any(fan_figures(fan).derived for fan in mine)
        spread = (
            (0.75, 1.2, "curve derived from the free flow") if derived else (0.9, 1.08, "maker's curve, " + _MEMORY)
        )
        yield Uncertain("pressure of the fans", Kind.FAN, *spread)


def _of_engine(project: Project, stack: Sequence[Core]) -> Iterator[Uncertain]:
    sheet = project.engine

    def given(value: float | None, sheet_spread: float, default_spread: float) -> tuple[float, float, str]:
        spread, why = (sheet_spread, "engine sheet") if value is not None else (default_spread, "default")
        return 1.0 / (1.0 + spread), 1.0 + spread, f"{why}, spread {_MEMORY}"

    yield Uncertain("heat to coolant", Kind.HEAT_TARGET, *given(sheet.heat_to_coolant_w, 0.05, 0.2))
    yield Uncertain("coolant flow", Kind.COOLANT_FLOW, *given(sheet.coolant_flow_m3_s, 0.1, 0.3))
    if any(core.role is CoreRole.CHARGE_AIR_COOLER for core in stack):
        yield Uncertain("charge-air flow", Kind.CHARGE_FLOW, *given(sheet.charge_flow_kg_s, 0.05, 0.15))
        width, why = (5.0, "engine sheet") if sheet.charge_inlet_degc is not None else (15.0, "default")
        yield Uncertain("charge inlet temperature", Kind.CHARGE_INLET, -width, width, f"{why}, spread {_MEMORY}")
    for number, core in enumerate(stack):
        if core.role is CoreRole.CONDENSER:
            yield Uncertain("condenser load", Kind.CONDENSER, *given(sheet.condenser_heat_w, 0.15, 0.35), number)
