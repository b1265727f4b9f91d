"""Layouts put aside and taken in hand again: nothing gets lost, nothing is mixed up, the vehicle stays one."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.model import edits, variants
from grillestack.model.project import Project, Variant
from grillestack.model.values import ModelError
from tests.model.examples import a_fan, a_full_project, a_radiator
from tests.model.random_projects import parts, projects


def two_layouts() -> Project:
    """Return a project whose copy, in hand, has its radiator 20 mm lower than the layout it was copied from."""
    project = Project(parts=(a_radiator(), a_fan()), next_number=2)
    return edits.move_parts(variants.duplicate_variant(project), ["radiator-1"], dz_mm=-20.0)


def test_a_project_of_before_is_one_layout():
    assert variants.layout_names(Project()) == ("Layout A",)


def test_a_copy_is_in_hand_under_the_next_free_name_and_shares_its_parts():
    project = Project(parts=(a_radiator(),))
    copied = variants.duplicate_variant(project)
    assert copied.variant_name == "Layout B"
    assert copied.parts is project.parts
    assert copied.variants == (Variant(name="Layout A", parts=project.parts),)
    assert variants.duplicate_variant(copied).variant_name == "Layout C"


def test_a_copy_may_be_named_and_a_name_that_came_free_is_given_again():
    named = variants.duplicate_variant(Project(), "Tight")
    assert variants.layout_names(named) == ("Layout A", "Tight")
    assert variants.duplicate_variant(named).variant_name == "Layout B"


def test_what_is_changed_in_the_copy_leaves_the_first_as_it_was():
    project = two_layouts()
    first = variants.switch_variant(project, "Layout A")
    assert first.part("radiator-1") == a_radiator()
    assert project.part("radiator-1").placement.z_mm == a_radiator().placement.z_mm - 20.0


def test_nose_engine_cases_and_environment_are_shared_by_all_layouts():
    project = variants.duplicate_variant(a_full_project())
    other = edits.set_engine(project, replace(project.engine, heat_to_coolant_w=1.0))
    there = variants.switch_variant(other, "No fan")
    assert (there.nose, there.cases, there.environment) == (project.nose, project.cases, project.environment)
    assert there.engine.heat_to_coolant_w == 1.0


def test_a_note_goes_with_its_layout():
    project = variants.note_variant(variants.duplicate_variant(Project()), "costs less")
    there = variants.switch_variant(project, "Layout A")
    assert there.variant_note_text == ""
    assert variants.switch_variant(there, "Layout B").variant_note_text == "costs less"


def test_the_order_of_the_names_does_not_hang_on_which_is_in_hand():
    project = variants.duplicate_variant(two_layouts(), "a first one")
    names = variants.layout_names(project)
    assert names == ("a first one", "Layout A", "Layout B")
    assert {variants.layout_names(variants.switch_variant(project, name)) for name in names} == {names}


def test_to_the_layout_in_hand_there_is_nothing_to_switch():
    project = two_layouts()
    assert variants.switch_variant(project, "Layout B") is project


@pytest.mark.parametrize("name", ["Layout A", "Layout B"])
def test_a_new_name_changes_nothing_but_the_name(name):
    project = two_layouts()
    renamed = variants.rename_variant(project, name, "Tight")
    assert sorted(variants.layout_names(renamed)) == sorted({"Layout A", "Layout B", "Tight"} - {name})
    assert variants.rename_variant(renamed, "Tight", name) == project


@pytest.mark.parametrize("taken", ["Layout A", "layout a", " Layout  A "])
def test_two_layouts_may_not_have_one_name(taken):
    with pytest.raises(ModelError, match=r"There are two layouts called “.*A ?”: give one of them another name\."):
        variants.rename_variant(two_layouts(), "Layout B", taken)
    with pytest.raises(ModelError, match="two layouts"):
        variants.duplicate_variant(two_layouts(), taken)


def test_a_layout_needs_a_name():
    with pytest.raises(ModelError, match="The name of the layout is empty"):
        variants.rename_variant(two_layouts(), "Layout B", "")


def test_removing_the_layout_in_hand_takes_up_its_neighbour():
    three = variants.duplicate_variant(two_layouts())
    assert variants.remove_variant(three, "Layout C").variant_name == "Layout B"
    first = variants.switch_variant(three, "Layout A")
    assert variants.remove_variant(first, "Layout A").variant_name == "Layout B"


def test_removing_another_layout_leaves_the_one_in_hand():
    project = two_layouts()
    left = variants.remove_variant(project, "Layout A")
    assert left.parts is project.parts
    assert variants.layout_names(left) == ("Layout B",)


def test_the_last_layout_cannot_be_removed():
    with pytest.raises(ModelError, match="“Layout A” is the only layout"):
        variants.remove_variant(Project(), "Layout A")


@pytest.mark.parametrize("name", ["Layout A", "Layout B"])
def test_adopting_a_layout_leaves_it_alone_in_the_project(name):
    project = two_layouts()
    adopted = variants.adopt_variant(project, name)
    assert adopted.parts == variants.switch_variant(project, name).parts
    assert variants.layout_names(adopted) == (name,)


@pytest.mark.parametrize(
    "edit",
    [
        lambda p: variants.switch_variant(p, "Z"),
        lambda p: variants.rename_variant(p, "Z", "Y"),
        lambda p: variants.remove_variant(p, "Z"),
        lambda p: variants.adopt_variant(p, "Z"),
    ],
)
def test_a_layout_that_is_not_there_is_named_with_those_that_are(edit):
    with pytest.raises(ModelError, match="There is no layout “Z” in this project: it has “Layout A”, “Layout B”"):
        edit(two_layouts())


def test_there_are_twenty_layouts_at_most():
    project = Project()
    for _ in range(19):
        project = variants.duplicate_variant(project)
    assert variants.layout_names(project)[-1] == "Layout T"
    with pytest.raises(ModelError, match="layouts” has 20 entries, but may have 19 at most"):
        variants.duplicate_variant(project)


def test_two_parts_of_a_layout_aside_may_not_share_an_id_but_those_of_two_layouts_may():
    with pytest.raises(ModelError, match="“part” carry the id “fan-1”"):
        Variant(name="B", parts=(a_fan(), a_fan()))
    Project(parts=(a_fan(),), variants=(Variant(name="B", parts=(a_fan(),)),))


def test_a_part_that_is_added_never_takes_an_id_that_another_layout_uses():
    # The number is one for all layouts, but a file written by hand may have it too low.
    low = replace(two_layouts(), next_number=1)
    one, added_here = edits.add_part(low, a_fan())
    _, added_there = edits.add_part(variants.switch_variant(one, "Layout A"), a_fan())
    assert len({"fan-1", added_here, added_there}) == 3
    emptied = edits.remove_parts(low, ["fan-1", "radiator-1"])
    assert edits.add_part(emptied, a_fan())[1] != "fan-1"


@settings(max_examples=30, deadline=None)
@given(projects())
def test_switching_there_and_back_gives_the_same_project(project):
    for name in variants.layout_names(project):
        there = variants.switch_variant(project, name)
        assert there.variant_name == name
        assert variants.switch_variant(there, project.variant_name) == project


@settings(max_examples=30, deadline=None)
@given(projects())
def test_a_copy_taken_back_is_as_if_it_had_never_been(project):
    copied = variants.duplicate_variant(project, "the copy")
    assert variants.adopt_variant(copied, "the copy").parts == project.parts
    back = variants.remove_variant(variants.switch_variant(copied, project.variant_name), "the copy")
    assert back == project


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(["add", "copy", "switch", "remove"]), parts()), max_size=12))
def test_an_id_is_in_two_layouts_only_if_it_was_copied_with_one(steps):
    project, made_in = Project(), {}
    for act, part in steps:
        if act == "add":
            before = {p.id for v in project.variants for p in v.parts} | {p.id for p in project.parts}
            project, part_id = edits.add_part(project, part)
            assert part_id not in before
            made_in[part_id] = part.name
        elif act == "copy":
            project = variants.duplicate_variant(project)
        elif act == "switch":
            project = variants.switch_variant(project, variants.layout_names(project)[0])
        elif project.parts:
            project = edits.remove_parts(project, [project.parts[0].id])
        for held in (project.parts, *(v.parts for v in project.variants)):
            assert all(made_in[p.id] == p.name for p in held)
