"""One thing that could be changed: what a change is given, and what it gives back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from grillestack.advice.room import has_room
from grillestack.geometry.depth import DepthReport
from grillestack.model.parts import Core, Part
from grillestack.model.project import Project, cores
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What a change may look at: the document, how it stands along x, the parts that can be had, the units of its words."""

    project: Project
    depth: DepthReport
    catalogue: Sequence[Part]
    units: UnitSystem

    def has_room(self, changed: Project) -> bool:
        """Return whether the changed pack can be built where the present one can."""
        return has_room(self.project, self.depth, changed)

    def length(self, length_mm: float) -> str:
        """Return a length in words."""
        return show_quantity(length_mm, Dimension.LENGTH, self.units)

    def the(self, core: Core) -> str:
        """Return what to call this core in a sentence."""
        return called(self.project, core)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One changed project; of those of the same kind only the best is shown.

    `title` is an order to a fitter, `words` say what it takes, `parts` are the parts it touches.
    """

    kind: str
    title: str
    words: str
    project: Project
    parts: tuple[str, ...] = ()


def called(project: Project, core: Core) -> str:
    """Return what to call a core in a sentence: its role, or its name where there are two of the role."""
    if len(cores(project, core.role)) > 1:
        return f"“{core.name}”"
    return f"the {core.role.value.replace('charge-air-', 'charge-air ')}"


Change = Callable[[Situation], Iterator[Candidate]]
