"""How a single rule is tried: what it finds for an assessment."""

from __future__ import annotations

from grillestack.advice.rule import Facts, Rule
from grillestack.assess.result import Assessment, Finding
from grillestack.units.display import UnitSystem


def found_by(rule: Rule, assessment: Assessment, units: UnitSystem = UnitSystem.METRIC) -> list[Finding]:
    """Return what the rule finds."""
    return list(rule(Facts(project=assessment.project, assessment=assessment, units=units)))
