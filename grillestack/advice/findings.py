"""Everything there is to say about a pack, worst first."""

from __future__ import annotations

from grillestack.advice import air, boiling, depth, faces, heat, parts, safety
from grillestack.advice.rule import Facts, Rule, found
from grillestack.assess.result import Assessment, Finding, Severity
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

# The order of the topics is the order of findings of equal severity.
RULES: tuple[Rule, ...] = (
    *parts.RULES,
    *heat.RULES,
    *boiling.RULES,
    *air.RULES,
    *faces.RULES,
    *depth.RULES,
    *safety.RULES,
)

_RANK = {severity: rank for rank, severity in enumerate(Severity)}


def findings(project: Project, assessment: Assessment, units: UnitSystem = UnitSystem.METRIC) -> tuple[Finding, ...]:
    """Return the assessment's own remarks and what the rules of practice find, worst first and each once."""
    facts = Facts(project=project, assessment=assessment, units=units)
    once: dict[tuple[str, tuple[str, ...]], Finding] = {}
    for finding in (*assessment.remarks, *found(RULES, facts)):
        once.setdefault((finding.text, finding.parts), finding)
    return tuple(sorted(once.values(), key=lambda finding: _RANK[finding.severity]))
