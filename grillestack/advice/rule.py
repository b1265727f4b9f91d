"""What a rule of practice is given, what it gives back, and the words for what it rests on."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from grillestack.assess.result import Assessment, Finding
from grillestack.model.parts import Part
from grillestack.model.project import Project
from grillestack.model.values import UnknownIdError
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

NO_SOURCE = "common practice, no source"
FROM_MEMORY = "common practice, from memory"
PUBLISHED = "published or maker's figure, seen in summary"
COMPUTED = "computed for this pack"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What a rule may look at: the document, what follows from it, and the units its sentences are written in."""

    project: Project
    assessment: Assessment
    units: UnitSystem

    def named(self, thing_id: str) -> str:
        """Return the name of a part, opening or obstruction in quotation marks."""
        nose = self.project.nose
        for thing in (*self.project.parts, *nose.openings, *nose.obstructions):
            if thing.id == thing_id:
                return f"“{thing.name}”"
        raise UnknownIdError("part, opening or obstruction", thing_id)

    def length(self, length_mm: float) -> str:
        """Return a length in words."""
        return _shown(length_mm, Dimension.LENGTH, self.units)

    def area(self, area_mm2: float) -> str:
        """Return an area in words."""
        return _shown(area_mm2, Dimension.AREA, self.units)

    def temperature(self, temperature_degc: float) -> str:
        """Return a temperature in words."""
        return _shown(temperature_degc, Dimension.TEMPERATURE, self.units)

    def difference(self, difference_k: float) -> str:
        """Return a temperature difference in words."""
        return _shown(difference_k, Dimension.TEMPERATURE_DIFFERENCE, self.units)

    def altitude(self, altitude_m: float) -> str:
        """Return a height above the sea in words."""
        return _shown(altitude_m, Dimension.ALTITUDE, self.units)

    def pressure(self, pressure_pa: float) -> str:
        """Return a pressure of coolant or charge air in words."""
        return _shown(pressure_pa, Dimension.PRESSURE, self.units)


@functools.lru_cache(maxsize=512)
def _shown(value: float, dimension: Dimension, units: UnitSystem) -> str:
    """Return the value in words; limits and days come again and again while a part is dragged."""
    return show_quantity(value, dimension, units)


Rule = Callable[[Facts], Iterable[Finding]]


def quoted(part: Part) -> str:
    """Return the part's name in quotation marks."""
    return f"“{part.name}”"


def percent(share: float) -> str:
    """Return a share in whole percent; a small one keeps a digit, so that it never reads as nothing."""
    shown = 100 * share
    return f"{shown:.0f} %" if shown >= 1 else f"{shown:.1f} %"


def found(rules: Iterable[Rule], facts: Facts) -> Iterator[Finding]:
    """Return what these rules find, in the order of the rules."""
    for rule in rules:
        yield from rule(facts)
