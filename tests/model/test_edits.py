"""Edits give a new project, share what they did not touch, and obey the laws of turning and moving."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.model import edits
from grillestack.model.engine import EngineSheet, Environment
from grillestack.model.nose import Nose
from grillestack.model.parts import Placement
from grillestack.model.project import Project, stack
from grillestack.model.values import ModelError, UnknownIdError
from tests.model.examples import a_charge_air_cooler, a_fan, a_full_project, a_radiator, a_shroud

RIGHT, UP, REAR = (0, 1, 0), (0, 0, 1), (1, 0, 0)


def _turned_about_x(v):
    # Clockwise as seen from ahead: the vehicle's right goes to where up was.
    x, y, z = v
    return (x, -z, y)


def _flipped(v):
    # Half a turn about the vertical axis.
    x, y, z = v
    return (-x, -y, z)


def _posed(placement: Placement, v):
    """Return where a direction of the part's own frame points in the vehicle (flip first, then quarter turns)."""
    if placement.flipped:
        v = _flipped(v)
    for _ in range(placement.quarter_turns):
        v = _turned_about_x(v)
    return v


def test_an_edit_leaves_the_project_it_started_from_as_it_was():
    project, before = a_full_project(), a_full_project()
    edits.move_parts(project, ["radiator-1"], dx_mm=5.0)
    edits.remove_parts(project, ["fan-1"])
    edits.set_title(project, "other")
    assert project == before


def test_moving_one_part_shares_all_others_and_the_nose():
    project = a_full_project()
    moved = edits.move_parts(project, ["radiator-1"], dy_mm=10.0)
    assert moved.nose is project.nose
    assert moved.engine is project.engine
    for old, new in zip(project.parts, moved.parts, strict=True):
        assert (new is old) == (new.id != "radiator-1")


def test_an_added_part_gets_a_new_id_after_its_role_and_the_place_asked_for():
    there = Placement(x_mm=10.0, z_mm=500.0)
    project, part_id = edits.add_part(Project(), a_charge_air_cooler("from-the-shelf"), there)
    assert part_id == "charge-air-cooler-1"
    assert project.part(part_id).placement == there
    project, second_id = edits.add_part(project, a_shroud())
    project, third_id = edits.add_part(project, a_fan())
    assert (second_id, third_id) == ("shroud-2", "fan-3")


def test_the_number_of_a_removed_part_is_not_given_out_again():
    project, first = edits.add_part(Project(), a_fan())
    project, second = edits.add_part(edits.remove_parts(project, [first]), a_fan())
    assert second != first


def test_an_id_that_stands_in_the_file_already_is_passed_over():
    project = Project(parts=(a_fan("fan-1"), a_fan("fan-2")), next_number=1)
    added, part_id = edits.add_part(project, a_fan())
    assert part_id == "fan-3"
    assert added.next_number == 4


def test_parts_are_removed_together_or_not_at_all():
    project = a_full_project()
    assert [p.id for p in edits.remove_parts(project, ["fan-1", "shroud-1"]).parts] == [
        "charge-air-cooler-1",
        "radiator-1",
    ]
    with pytest.raises(UnknownIdError, match="fan-9"):
        edits.remove_parts(project, ["fan-1", "fan-9"])


def test_replacing_a_part_that_is_not_there_is_refused():
    with pytest.raises(UnknownIdError, match="fan-9"):
        edits.replace_part(a_full_project(), a_fan("fan-9"))
    heavier = replace(a_fan(), weight_kg=2.5)
    assert edits.replace_part(a_full_project(), heavier).part("fan-1") == heavier


@given(st.tuples(*[st.integers(-500, 500)] * 3))
def test_moving_there_and_back_gives_the_same_project(by):
    project = a_full_project()
    ids = ["radiator-1", "fan-1"]
    there = edits.move_parts(project, ids, dx_mm=by[0], dy_mm=by[1], dz_mm=by[2])
    assert edits.move_parts(there, ids, dx_mm=-by[0], dy_mm=-by[1], dz_mm=-by[2]) == project


def test_a_part_named_twice_is_moved_once():
    moved = edits.move_parts(a_full_project(), ["fan-1", "fan-1"], dx_mm=7.0)
    assert moved.part("fan-1").placement.x_mm == a_fan().placement.x_mm + 7.0


def test_moving_out_of_the_world_is_refused_with_the_field():
    with pytest.raises(ModelError, match="place along the vehicle"):
        edits.move_parts(a_full_project(), ["fan-1"], dx_mm=20_000.0)


def test_four_quarter_turns_and_two_flips_each_give_the_same_project():
    project = a_full_project()
    turned = project
    for _ in range(4):
        turned = edits.turn_part(turned, "radiator-1")
    assert turned == project
    assert edits.flip_part(edits.flip_part(project, "charge-air-cooler-1"), "charge-air-cooler-1") == project


def test_a_quarter_turn_back_undoes_one_forth():
    project = a_full_project()
    assert edits.turn_part(edits.turn_part(project, "radiator-1", 1), "radiator-1", -1) == project


@pytest.mark.parametrize(("turns", "flipped"), [*itertools.product(range(4), (False, True))])
def test_turning_and_flipping_act_on_the_part_as_it_stands_in_the_vehicle(turns, flipped):
    start = Placement(quarter_turns=turns, flipped=flipped)
    project = Project(parts=(replace(a_radiator(), placement=start),))
    turned = edits.turn_part(project, "radiator-1").part("radiator-1").placement
    flipped_over = edits.flip_part(project, "radiator-1").part("radiator-1").placement
    for direction in (RIGHT, UP, REAR):
        assert _posed(turned, direction) == _turned_about_x(_posed(start, direction))
        assert _posed(flipped_over, direction) == _flipped(_posed(start, direction))


def test_restacking_keeps_the_front_place_and_the_gaps_between_neighbours():
    # By hand: the cooler is 64 mm deep from x = 40, so 16 mm gap to the radiator at 120, which is 56 deep: 4 mm gap to
    # the shroud at 180, 50 deep: no gap to the fan at 230.
    project = edits.restack(a_full_project(), ["radiator-1", "charge-air-cooler-1", "shroud-1", "fan-1"])
    assert {p.id: p.placement.x_mm for p in project.parts} == {
        "radiator-1": 40.0,
        "charge-air-cooler-1": 40.0 + 56.0 + 16.0,
        "shroud-1": 40.0 + 56.0 + 16.0 + 64.0 + 4.0,
        "fan-1": 230.0,
    }


@given(st.permutations(["charge-air-cooler-1", "radiator-1", "shroud-1", "fan-1"]))
def test_restacking_gives_the_order_asked_for_and_the_same_total_depth(order):
    project = a_full_project()
    restacked = edits.restack(project, order)
    assert [part.id for part in stack(restacked)] == order
    rear = max(p.placement.x_mm + p.depth_mm for p in project.parts)
    assert max(p.placement.x_mm + p.depth_mm for p in restacked.parts) == pytest.approx(rear)
    assert [p.id for p in restacked.parts] == [p.id for p in project.parts]


def test_restacking_in_the_present_order_changes_nothing_at_all():
    project = a_full_project()
    assert edits.restack(project, [part.id for part in stack(project)]) is project
    assert edits.restack(Project(), []) == Project()


@pytest.mark.parametrize("order", [["fan-1"], [], ["fan-1", "fan-1", "radiator-1", "shroud-1"]])
def test_an_order_that_does_not_name_every_part_once_is_refused(order):
    with pytest.raises(ModelError, match="every part of the pack once"):
        edits.restack(a_full_project(), order)


def test_a_duty_case_is_added_under_a_new_id_exchanged_and_removed():
    project = Project()
    added = edits.add_case(project, replace(project.cases[0], name="Tow"))
    assert [case.id for case in added.cases][-1] == "case-5"
    changed = edits.replace_case(added, replace(added.cases[-1], road_speed_m_s=12.0))
    assert changed.cases[-1].road_speed_m_s == 12.0
    assert edits.remove_case(changed, "case-5").cases == project.cases


@pytest.mark.parametrize("edit", [edits.remove_case, lambda p, i: edits.replace_case(p, replace(p.cases[0], id=i))])
def test_a_duty_case_that_is_not_there_is_named(edit):
    with pytest.raises(UnknownIdError, match="no duty case with the id “case-9”"):
        edit(Project(), "case-9")


def test_each_setter_changes_its_own_field_only():
    project = a_full_project()
    changes = {
        "nose": edits.set_nose(project, Nose()),
        "engine": edits.set_engine(project, EngineSheet()),
        "environment": edits.set_environment(project, Environment()),
        "title": edits.set_title(project, "Other"),
        "notes_text": edits.set_notes(project, "other"),
    }
    for field, changed in changes.items():
        differing = [f for f in Project.__struct_fields__ if getattr(changed, f) != getattr(project, f)]
        assert differing == [field]
