"""Which parts are tried, once each and in one order, and which are refused with a sentence."""

from __future__ import annotations

import random

from msgspec.structs import replace

from grillestack.fit.candidates import candidates, size_mm
from grillestack.fit.slots import Kind
from grillestack.model.edits import add_part
from grillestack.model.parts import Placement
from grillestack.model.project import Project
from grillestack.storage.catalogue import bundled_parts
from tests.fit.packs import a_cooler, coolers
from tests.geometry.packs import a_fan


def test_only_parts_of_the_kind_are_tried_in_the_order_of_their_numbers():
    found = candidates(Project(), bundled_parts(), Kind.CHARGE_AIR_COOLER)
    assert [part.id for part in found.parts] == sorted(part.id for part in coolers())


def test_the_order_of_the_catalogue_does_not_matter():
    shuffled = list(bundled_parts())
    random.Random(7).shuffle(shuffled)
    for kind in Kind:
        assert candidates(Project(), shuffled, kind) == candidates(Project(), bundled_parts(), kind)


def test_equal_parts_are_tried_once():
    twin = replace(coolers()[0], id="own-twin")
    found = candidates(Project(), [twin, *coolers()], Kind.CHARGE_AIR_COOLER)
    assert len(found.parts) == len(coolers())
    assert "own-twin" not in {part.id for part in found.parts}


def test_what_was_typed_from_a_tape_into_the_project_is_tried_too():
    typed = replace(a_cooler("mine", 500.0, 180.0), own_sizes=True, placement=Placement(x_mm=50.0))
    project, part_id = add_part(Project(), typed)
    found = candidates(project, (), Kind.CHARGE_AIR_COOLER)
    assert [part.id for part in found.parts] == [part_id]
    assert found.parts[0].placement == Placement()


def test_two_parts_of_one_number_both_have_a_number():
    one, other = a_cooler("same", 500.0, 180.0), a_cooler("same", 400.0, 180.0)
    assert len({part.id for part in candidates(Project(), [one, other], Kind.CHARGE_AIR_COOLER).parts}) == 2


def test_an_empty_catalogue_is_said():
    found = candidates(Project(), (), Kind.FAN)
    assert found.parts == ()
    assert found.refused == ("There is no fan to try: the catalogue has none and none was typed into this project.",)


def test_a_part_of_next_to_no_size_is_refused_by_name():
    found = candidates(Project(), [a_fan("speck", 0.5)], Kind.FAN)
    assert found.refused == ("“Invented fan” has next to no size (0.5 × 0.5 × 60 mm): correct its sizes to try it.",)


def test_the_size_of_a_core_is_over_all_and_its_tanks_may_be_deeper():
    # core 420 × 130 × 50, tanks 52 at either end and plates of 10, tanks 3 mm deeper on both sides
    part = next(one for one in coolers() if one.id == "gs-cb-0420-0130-50-o")
    assert size_mm(part) == (524.0, 150.0, 56.0)
