"""The scientific core, loaded behind the first paint: numpy, shapely and fluids take longer than the whole window."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:
    from grillestack.assess.result import Assessment, Finding


class ScientificCore:
    """Loads `assess` and `advice` once, when asked for the first time."""

    def __init__(self) -> None:
        self._assess: Any = None
        self._findings: Any = None

    def load(self) -> None:
        """Import the core; the one place where the window imports anything late."""
        if self._assess is None:
            from grillestack.advice.findings import findings
            from grillestack.assess.assess import assess

            self._assess, self._findings = assess, findings

    def assess(self, project: Project, previous: Assessment | None = None) -> Assessment:
        """Return what the pack does."""
        self.load()
        assessment: Assessment = self._assess(project, previous)
        return assessment

    def advise(self, project: Project, assessment: Assessment, units: UnitSystem) -> tuple[Finding, ...]:
        """Return what an old hand would say of it."""
        self.load()
        found: tuple[Finding, ...] = self._findings(project, assessment, units)
        return found
