"""Comparisons built by hand, for the widgets that show them."""

from __future__ import annotations

from grillestack.assess.compare import comparison_of
from grillestack.assess.comparison import Comparison
from grillestack.assess.result import Assessment
from grillestack.model import edits
from tests.advice import example_assessments as example


def named(side: Assessment, name: str, note: str = "") -> Assessment:
    """Return the assessment as that of a layout of this name."""
    return example.with_project(side, variant_name=name, variant_note_text=note)


def failing_beside_passing() -> Comparison:
    """Return a failing layout beside one, in hand, whose charge-air cooler is 60 mm lower and which passes."""
    other = named(example.failing(), "As bought", "What the shop had.")
    lower = edits.move_parts(other.project, ["charge-air-cooler-1"], dz_mm=-60.0)
    return comparison_of(other, example.with_project(named(example.passing(), "Low cooler"), parts=lower.parts))
