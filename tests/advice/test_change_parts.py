"""Fans and radiators exchanged for others of the catalogue."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.change_parts import other_radiators, stronger_fans
from grillestack.advice.change_shroud import covers
from grillestack.model import edits
from grillestack.model.nose import DepthStations
from grillestack.model.parts import FanDrive
from grillestack.model.project import Project, fans, radiator, shrouds
from tests.advice.situations import candidates, fan
from tests.advice.situations import radiator as listed
from tests.assess import packs


def _names(project: Project) -> list[str]:
    return [one.name for one in fans(project)]


def _with_pulley(project: Project, x_mm: float) -> Project:
    return edits.set_nose(project, replace(project.nose, stations=DepthStations(pulley_x_mm=x_mm)))


def test_every_fan_is_exchanged_for_the_next_stronger_one_in_its_place():
    project = packs.behind(packs.project())
    catalogue = (fan(1, 380.0, 1.6), fan(2, 380.0, 1.2), fan(3, 380.0, 0.9))
    (one,) = candidates(stronger_fans, project, catalogue)
    assert _names(one.project) == ["Invented fan 2"] * 2
    assert [(new.id, new.placement) for new in fans(one.project)] == [(old.id, old.placement) for old in fans(project)]
    assert one.parts == tuple(old.id for old in fans(project))


def test_a_ring_that_runs_into_its_neighbour_or_out_of_the_shroud_is_passed_over():
    # By hand: rings of 300 mm at y ±160 are 20 mm apart and end at 310 of the shroud's 350; rings of 330 meet.
    project = packs.behind(packs.project())
    for old, y_mm in zip(fans(project), (-160.0, 160.0), strict=True):
        at = replace(old.placement, y_mm=y_mm)
        project = edits.replace_part(project, replace(old, ring_diameter_mm=300.0, placement=at))
    (one,) = candidates(stronger_fans, project, (fan(1, 330.0, 1.2), fan(2, 315.0, 1.4)))
    assert _names(one.project) == ["Invented fan 2"] * 2
    # By hand: one alone, at y 160, may grow to 2 × 190 = 380 mm.
    single = edits.remove_parts(project, [fans(project)[0].id])
    assert len(candidates(stronger_fans, single, (fan(1, 380.0, 1.2),))) == 1
    assert candidates(stronger_fans, single, (fan(1, 385.0, 1.2),)) == []


def test_unlike_fans_are_exchanged_each_for_its_own_next():
    project = packs.behind(packs.project())
    weak, _strong = fans(project)
    project = edits.replace_part(project, replace(weak, curve=fan(0, 380.0, 0.7).curve))
    (one,) = candidates(stronger_fans, project, (fan(1, 380.0, 0.9), fan(2, 380.0, 1.2)))
    assert _names(one.project) == ["Invented fan 1", "Invented fan 2"]


def test_a_deeper_fan_keeps_its_distance_to_the_pulley():
    project = packs.behind(packs.project())
    deep = replace(fan(1, 380.0, 1.3), depth_mm=80.0)
    # By hand: from 275, 80 deep ends at 355; 25 mm are kept to the pulley.
    assert candidates(stronger_fans, _with_pulley(project, 375.0), (deep,)) == []
    assert len(candidates(stronger_fans, _with_pulley(project, 380.0), (deep,))) == 1


def test_fans_of_another_voltage_or_driven_by_a_belt_are_not_exchanged():
    project = packs.behind(packs.project())
    for old in fans(project):
        project = edits.replace_part(project, replace(old, rated_voltage_v=12.0))
    assert candidates(stronger_fans, project, (fan(1, 380.0, 1.3, 24.0),)) == []
    assert len(candidates(stronger_fans, project, (fan(1, 380.0, 1.3, 12.0),))) == 1
    for old in fans(project):
        project = edits.replace_part(project, replace(old, drive=FanDrive.BELT))
    assert candidates(stronger_fans, project, (fan(1, 380.0, 1.3, 12.0),)) == []


def test_a_fan_of_which_nothing_is_known_has_no_stronger_one():
    project = packs.behind(packs.project())
    for old in fans(project):
        project = edits.replace_part(project, replace(old, curve=()))
    assert candidates(stronger_fans, project, (fan(1, 380.0, 1.3),)) == []


def test_the_words_say_what_the_fans_draw_where_it_is_known():
    project = packs.behind(packs.project())
    for old in fans(project):
        project = edits.replace_part(project, replace(old, running_current_a=15.0))
    stronger = replace(fan(1, 380.0, 1.3), running_current_a=21.0)
    (one,) = candidates(stronger_fans, project, (stronger,))
    assert "42 A instead of 30 A" in one.words
    assert "fuses" in one.words


def test_a_thicker_radiator_moves_what_stands_behind_it_back():
    project = packs.behind(packs.project())
    (one,) = candidates(other_radiators, project, (listed(1, 700.0, 460.0, 50.0),))
    assert one.kind == "thicker radiator"
    main = radiator(one.project)
    assert (main.id, main.placement) == (radiator(project).id, radiator(project).placement)
    for before, after in zip(project.parts[1:], one.project.parts[1:], strict=True):
        assert after.placement.x_mm == before.placement.x_mm + 14.0
    assert "14 mm" in one.words


def test_a_larger_radiator_takes_its_shroud_along():
    project = packs.behind(packs.project())
    (one,) = candidates(other_radiators, project, (listed(1, 720.0, 520.0, 36.0),))
    assert one.kind == "larger radiator"
    assert covers(shrouds(one.project)[0], radiator(one.project))


def test_a_larger_radiator_is_shifted_into_the_window_and_one_too_large_is_passed_over():
    # By hand: window z -30 to 550, 840 mm wide; about z 255, 560 mm of height reach down to -25. At z 240 they would reach -40.
    project = packs.behind(packs.project())
    main = radiator(project)
    low = edits.place_part(project, main.id, replace(main.placement, z_mm=240.0))
    (one,) = candidates(other_radiators, low, (listed(1, 700.0, 560.0, 36.0),))
    assert radiator(one.project).placement.z_mm == pytest.approx(250.0)
    assert candidates(other_radiators, project, (listed(1, 700.0, 590.0, 36.0), listed(2, 760.0, 500.0, 36.0))) == []


def test_a_radiator_no_larger_and_no_thicker_is_no_change():
    project = packs.behind(packs.project())
    same = (listed(1, 700.0, 460.0, 36.0), listed(2, 640.0, 420.0, 60.0), listed(3, 690.0, 460.0, 26.0))
    assert candidates(other_radiators, project, same) == []


def test_the_pulley_bounds_the_thickness():
    project = packs.behind(packs.project())
    # By hand: the fans end at 335; 14 mm more is 349, and 25 mm are kept to the pulley.
    thicker = (listed(1, 700.0, 460.0, 50.0),)
    assert candidates(other_radiators, _with_pulley(project, 370.0), thicker) == []
    assert len(candidates(other_radiators, _with_pulley(project, 375.0), thicker)) == 1


def test_what_the_catalogue_does_not_hold_is_not_offered():
    project = packs.behind(packs.project())
    assert candidates(stronger_fans, project) == []
    assert candidates(other_radiators, project) == []
