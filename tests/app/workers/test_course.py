"""From which duty case into which the course goes: as wished, else from the coolest drive into the deciding case."""

from dataclasses import replace

import pytest

from grillestack.app.workers.course import Course, course_of
from grillestack.assess.assess import assess
from tests.app.workers.made import demo


@pytest.fixture(scope="module")
def assessment():
    return assess(demo(1))


def test_it_goes_from_the_coolest_drive_into_the_deciding_case(assessment):
    # Standing still with A/C is cooler, but nobody begins a climb from there.
    names = {case.case_id: case.name for case in assessment.cases}
    course = course_of(assessment, None)
    assert (names[course.from_id], names[course.to_id]) == ("Motorway", assessment.deciding_case.name)


def test_a_wish_is_followed_as_far_as_its_cases_are_there(assessment):
    assert course_of(assessment, Course("case-2", "case-3")) == Course("case-2", "case-3")
    assert course_of(assessment, Course("gone", "case-3")).to_id == "case-3"
    assert course_of(assessment, Course("case-2", "gone")) == Course("case-2", "case-1")


def test_without_a_deciding_case_there_is_none(assessment):
    assert course_of(replace(assessment, deciding_case=None), None) is None


def test_a_single_case_goes_into_itself(assessment):
    only = replace(assessment, cases=(assessment.deciding_case,))
    assert course_of(only, None) == Course("case-1", "case-1")
