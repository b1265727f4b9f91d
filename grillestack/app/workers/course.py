"""From which duty case into which does the coolant's course over time go, if nobody chooses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Assessment


@dataclass(frozen=True, slots=True)
class Course:
    """The duty case before the step and the one after it."""

    from_id: str
    to_id: str


def course_of(assessment: Assessment, wished: Course | None) -> Course | None:
    """Return the course that was wished, as far as its cases are there; else from the coolest drive into the deciding case."""
    there = {case.case_id for case in assessment.cases}
    deciding = assessment.deciding_case
    to_id = wished.to_id if wished and wished.to_id in there else deciding.case_id if deciding else None
    if to_id is None:
        return None
    if wished and wished.from_id in there:
        return Course(wished.from_id, to_id)
    driven = {case.id for case in assessment.project.cases if case.road_speed_m_s > 0.0}
    coolest = min(
        (case for case in assessment.cases if case.case_id != to_id and case.top_tank_degc is not None),
        key=lambda case: (case.case_id not in driven, case.top_tank_degc or 0.0),
        default=None,
    )
    return Course(coolest.case_id if coolest else to_id, to_id)
