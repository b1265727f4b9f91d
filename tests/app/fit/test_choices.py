"""Which slots are offered: the place of each part of the kind first, then one more in each gap."""

from __future__ import annotations

from grillestack.app.fit.choices import slots_of
from grillestack.fit.slots import Kind
from grillestack.model.project import Project
from tests.app.workers.made import demo


def test_the_place_of_the_present_part_comes_first_then_every_gap():
    slots = slots_of(demo(1), Kind.CHARGE_AIR_COOLER)
    assert [slot.words for slot in slots] == [
        "in place of “Charge-air cooler”",
        "one more, ahead of “Condenser”",
        "one more, between “Condenser” and “Charge-air cooler”",
        "one more, between “Charge-air cooler” and “Radiator”",
        "one more, behind “Radiator”",
    ]
    assert [slot.taken_out for slot in slots] == ["charge-air-cooler-2", None, None, None, None]


def test_each_of_several_fans_has_its_place_and_one_more_may_stand_behind():
    words = [slot.words for slot in slots_of(demo(1), Kind.FAN)]
    assert words == ["in place of “Left fan”", "in place of “Right fan”", "one more, behind the radiator"]


def test_in_an_empty_pack_a_core_has_one_slot_and_a_shroud_none():
    assert [slot.words for slot in slots_of(Project(), Kind.RADIATOR)] == ["in the empty pack"]
    assert slots_of(Project(), Kind.SHROUD) == ()
