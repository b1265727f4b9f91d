"""Where a part is to go: in place of another, in a gap between the cores that stay, behind the radiator."""

from __future__ import annotations

import pytest

from grillestack.fit.slots import Kind, kind_of, slot_for, slot_in_place_of
from grillestack.model.edits import remove_parts
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from tests.fit.packs import failing, passing


def test_without_a_number_the_present_part_makes_way():
    slot = slot_for(passing(), Kind.CHARGE_AIR_COOLER)
    assert slot.taken_out == "charge-air-cooler-2"
    assert (slot.number, slot.ahead) == (2, ("condenser-1",))
    assert slot.behind[0] == "radiator-3"
    assert slot.words == "in place of “Charge-air cooler”"


def test_a_number_counts_the_gaps_between_the_cores_that_stay():
    slot = slot_for(passing(), Kind.CHARGE_AIR_COOLER, 1)
    assert slot.taken_out == "charge-air-cooler-2"
    assert (slot.ahead, slot.behind[:2]) == ((), ("condenser-1", "radiator-3"))
    assert slot.words == "ahead of “Condenser”"


def test_a_part_that_is_kept_is_a_core_like_another():
    slot = slot_for(passing(), Kind.CHARGE_AIR_COOLER, 2, keep=True)
    assert slot.taken_out is None
    assert slot.words == "between “Condenser” and “Charge-air cooler”"


def test_where_there_is_none_yet_it_goes_ahead_of_the_radiator():
    slot = slot_for(failing(), Kind.CONDENSER)
    assert slot.taken_out is None
    assert slot.words == "between “Charge-air cooler” and “Radiator”"


@pytest.mark.parametrize("number", [0, 4, 99])
def test_a_slot_that_is_not_there_is_refused_with_those_that_are(number):
    with pytest.raises(ModelError, match=f"There is no slot {number}: the 2 cores that stay leave slots 1 to 3"):
        slot_for(passing(), Kind.CHARGE_AIR_COOLER, number)


def test_in_an_empty_pack_there_is_one_slot():
    assert slot_for(Project(), Kind.RADIATOR).words == "in the empty pack"
    with pytest.raises(ModelError, match="with no other core there is slot 1 only"):
        slot_for(Project(), Kind.RADIATOR, 2)


def test_fans_and_shrouds_stand_behind_the_radiator():
    project = failing()
    assert slot_for(project, Kind.FAN).words == "in place of “Left fan”"
    assert slot_for(project, Kind.SHROUD, keep=True).words == "behind the radiator"
    with pytest.raises(ModelError, match="A fan has no slot between cores"):
        slot_for(project, Kind.FAN, 2)
    with pytest.raises(ModelError, match="needs a radiator to stand behind"):
        slot_for(remove_parts(project, ["radiator-2"]), Kind.SHROUD, keep=True)


def test_the_slot_of_every_part_takes_that_part_out():
    project = passing()
    for part in project.parts:
        slot = slot_in_place_of(project, part.id)
        assert (slot.taken_out, slot.kind) == (part.id, kind_of(part))
        assert set(slot.ahead) | set(slot.behind) == {other.id for other in project.parts} - {part.id}
