"""Which fan belongs to which shroud, and what the others do."""

from __future__ import annotations

from grillestack.geometry.fan_places import FanDuty, fan_duties, fans_in_shrouds
from grillestack.geometry.projection import project_part
from grillestack.model.parts import CoreRole
from tests.geometry.packs import a_core, a_fan, a_shroud


def _places(fans, shrouds, cores=()):
    fans, shrouds, cores = ([project_part(part) for part in parts] for parts in (fans, shrouds, cores))
    inside = fans_in_shrouds(fans, shrouds)
    return inside, fan_duties(fans, inside, cores)


def test_fan_sits_in_the_shroud_that_holds_its_centre():
    left = a_shroud("left", (300, 400), (150, -150, 0))
    right = a_shroud("right", (300, 400), (150, 150, 0))
    inside, duties = _places([a_fan(at_mm=(160, 140, 0)), a_fan("out", at_mm=(160, 310, 0))], [left, right])
    assert inside == (1, -1)
    assert duties == (FanDuty.IN_SHROUD, FanDuty.PULLER)


def test_centre_on_the_border_of_two_shrouds_goes_to_the_first():
    left = a_shroud("left", (300, 400), (150, -150, 0))
    right = a_shroud("right", (300, 400), (150, 150, 0))
    assert _places([a_fan(at_mm=(160, 0, 0))], [left, right])[0] == (0,)


def test_fan_ahead_of_the_shroud_does_not_sit_in_it():
    pusher = a_fan(at_mm=(20, 0, 0), depth_mm=60)
    inside, duties = _places([pusher], [a_shroud(at_mm=(150, 0, 0))], [a_core(at_mm=(100, 0, 0))])
    assert inside == (-1,)
    assert duties == (FanDuty.PUSHER,)


def test_fan_without_shroud_pulls_if_it_stands_behind_the_radiator():
    condenser = a_core("condenser", at_mm=(50, 0, 0), role=CoreRole.CONDENSER)
    radiator = a_core("radiator", at_mm=(100, 0, 0))
    fans = [a_fan("behind", at_mm=(160, 0, 0)), a_fan("ahead", at_mm=(0, 0, 0)), a_fan("between", at_mm=(70, 0, 0))]
    assert _places(fans, [], [condenser, radiator])[1] == (FanDuty.PULLER, FanDuty.PUSHER, FanDuty.BETWEEN_CORES)


def test_without_a_radiator_the_rearmost_core_counts():
    cooler = a_core("cooler", at_mm=(50, 0, 0), role=CoreRole.COOLER)
    assert _places([a_fan(at_mm=(100, 0, 0))], [], [cooler])[1] == (FanDuty.PULLER,)


def test_no_fan_has_no_place():
    assert _places([], [a_shroud()], [a_core()]) == ((), ())
