"""The scientific core, loaded behind the first paint: numpy, shapely and fluids take longer than the whole window."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import msgspec

from grillestack.app.workers.messages import Ask, Question
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:
    from grillestack.advice.mend import Mended
    from grillestack.app.workers.answers import Result
    from grillestack.assess.comparison import Comparison
    from grillestack.assess.result import Assessment, Finding


class ScientificCore:
    """Loads `assess` and `advice` once, when asked for the first time."""

    def __init__(self) -> None:
        self._assess: Any = None
        self._findings: Any = None
        self._mend: Any = None
        self._compare: Any = None
        self._answer: Any = None
        self._unpacked: Any = None

    def load(self) -> None:
        """Import the core; the one place where the window imports anything late."""
        if self._assess is None:
            from grillestack.advice.findings import findings
            from grillestack.advice.mend import mend
            from grillestack.assess.assess import assess
            from grillestack.assess.compare import compare

            self._assess, self._findings, self._mend, self._compare = assess, findings, mend, compare

    def load_answers(self) -> None:
        """Import what the further questions need; the first verdict does not wait for it."""
        if self._answer is None:
            from grillestack.app.workers.answers import answer, unpacked

            self._answer, self._unpacked = answer, unpacked

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

    def mend(self, project: Project, assessment: Assessment, finding: Finding, units: UnitSystem) -> Mended | str:
        """Return the project with that finding mended, or why it is not."""
        self.load()
        done: Mended | str = self._mend(project, assessment, finding, units)
        return done

    def compare(self, project: Project, other_name: str) -> Comparison:
        """Return the layout in hand beside that other one."""
        self.load()
        comparison: Comparison = self._compare(project, other_name)
        return comparison

    def answer(self, ask: Ask) -> Result:
        """Return the answer to a further question, worked out here."""
        self.load_answers()
        result: Result = self._answer(ask)
        return result

    def unpack(self, question: Question, raw: msgspec.Raw) -> Result:
        """Return the answer that the second process gave."""
        self.load_answers()
        result: Result = self._unpacked(question, raw)
        return result
