"""The document holds each thing once and can be asked for its parts in depth order."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.model.nose import Nose
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores, fans, radiator, shrouds, stack
from grillestack.model.values import ModelError, UnknownIdError
from tests.model.examples import a_charge_air_cooler, a_fan, a_full_project, a_nose, a_radiator, a_shroud


def test_an_empty_project_is_legal_and_has_no_radiator():
    assert radiator(Project()) is None
    assert stack(Project()) == cores(Project()) == fans(Project()) == shrouds(Project()) == ()


def test_two_parts_with_one_id_are_refused_by_that_id():
    with pytest.raises(ModelError, match="“part” carry the id “fan-1”"):
        Project(parts=(a_fan(), a_fan()))


def test_a_fan_and_a_core_may_not_share_an_id_either():
    with pytest.raises(ModelError, match="carry the id “same”"):
        Project(parts=(a_fan("same"), a_radiator("same")))


def test_two_duty_cases_with_one_id_are_refused():
    case = Project().cases[0]
    with pytest.raises(ModelError, match="“duty case” carry the id “case-1”"):
        Project(cases=(case, case))


def test_an_opening_and_an_obstruction_may_not_share_an_id():
    nose = a_nose()
    same = replace(nose.obstructions[0], id=nose.openings[0].id)
    with pytest.raises(ModelError, match="opening or obstruction"):
        Project(nose=replace(nose, obstructions=(same,)))


def test_at_most_two_hundred_parts():
    Project(parts=tuple(a_fan(f"fan-{n}") for n in range(200)))
    with pytest.raises(ModelError, match="has 201 entries, but may have 200"):
        Project(parts=tuple(a_fan(f"fan-{n}") for n in range(201)))


def test_a_part_is_found_by_its_id_and_an_unknown_one_is_named():
    project = a_full_project()
    assert project.part("fan-1") == a_fan()
    with pytest.raises(UnknownIdError, match="no part with the id “fan-7”"):
        project.part("fan-7")


def test_the_stack_runs_from_front_to_back_whatever_the_order_in_the_document():
    project = Project(parts=(a_fan(x_mm=230.0), a_radiator(x_mm=120.0), a_charge_air_cooler(x_mm=40.0)))
    assert [part.id for part in stack(project)] == ["charge-air-cooler-1", "radiator-1", "fan-1"]


def test_parts_side_by_side_keep_their_order_in_the_document():
    project = Project(parts=(a_radiator("b", 50.0), a_radiator("a", 50.0)))
    assert [part.id for part in stack(project)] == ["b", "a"]


def test_cores_can_be_asked_for_by_role_and_leave_out_fans_and_shrouds():
    project = a_full_project()
    assert [core.id for core in cores(project)] == ["charge-air-cooler-1", "radiator-1"]
    assert [core.id for core in cores(project, CoreRole.RADIATOR)] == ["radiator-1"]
    assert cores(project, CoreRole.CONDENSER) == ()


def test_the_radiator_is_the_first_one_from_the_front():
    project = Project(parts=(a_radiator("behind", 200.0), a_radiator("ahead", 100.0)))
    assert radiator(project).id == "ahead"


def test_shrouds_and_fans_are_told_apart():
    project = Project(parts=(a_shroud(), a_fan(), a_fan("fan-2")))
    assert [part.id for part in shrouds(project)] == ["shroud-1"]
    assert [part.id for part in fans(project)] == ["fan-1", "fan-2"]


def test_projects_made_alike_are_equal():
    assert a_full_project() == a_full_project()
    assert a_full_project() != replace(a_full_project(), nose=Nose())
