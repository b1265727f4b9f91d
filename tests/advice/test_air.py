"""Rules about fans, shrouds and the ways of the air."""

from __future__ import annotations

from dataclasses import replace as change

from msgspec.structs import replace

from grillestack.advice import air
from grillestack.assess.result import Severity
from grillestack.geometry.exposure import core_faces
from grillestack.geometry.overlay import build_overlay
from grillestack.model.engine import Environment, Seal
from grillestack.model.nose import Opening
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import Placement
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def without(*part_ids):
    good = example.passing()
    return example.with_project(good, parts=tuple(p for p in good.project.parts if p.id not in part_ids))


def test_a_radiator_without_fan_is_serious_and_an_empty_nose_is_spared():
    assert found_by(air.no_fan, without("fan-1"))[0].severity is Severity.SERIOUS
    assert found_by(air.no_fan, example.passing()) == []
    assert found_by(air.no_fan, example.with_project(example.passing(), parts=())) == []


def test_a_fan_with_free_flow_only_warns_and_with_nothing_is_serious():
    free = example.with_part(example.passing(), replace(example.FAN, curve=(), free_flow_m3_s=1.1))
    bare = example.with_part(example.passing(), replace(example.FAN, curve=()))
    assert found_by(air.fan_without_curve, free)[0].severity is Severity.WARNING
    assert found_by(air.fan_without_curve, bare)[0].severity is Severity.SERIOUS
    assert found_by(air.fan_without_curve, example.passing()) == []


def test_a_fan_without_shroud_cools_a_ring_only():
    (finding,) = found_by(air.fan_outside_shrouds, without("shroud-1"))
    assert finding.parts == ("fan-1",)
    assert found_by(air.fan_outside_shrouds, example.passing()) == []


def test_a_shroud_whose_fan_was_taken_out_is_found():
    (finding,) = found_by(air.shroud_without_fan, without("fan-1"))
    assert finding.parts == ("shroud-1",)
    assert found_by(air.shroud_without_fan, example.passing()) == []


def test_a_fan_between_two_cores_is_found():
    between = replace(example.FAN, id="fan-2", placement=Placement(x_mm=120.0, z_mm=640.0))
    assert found_by(air.fan_between_cores, example.with_part(example.passing(), between))[0].parts == ("fan-2",)
    assert found_by(air.fan_between_cores, example.passing()) == []


def test_a_pusher_beside_a_puller_is_noted_and_alone_is_not():
    pusher = replace(example.FAN, id="fan-2", name="Pusher", placement=Placement(x_mm=-30.0, z_mm=640.0))
    both = example.with_part(example.passing(), pusher)
    (finding,) = found_by(air.pusher_and_puller, both)
    assert "“Pusher” pushes while “Fan 406” pulls" in finding.text
    alone = example.with_project(both, parts=tuple(p for p in both.project.parts if p.id != "fan-1"))
    assert found_by(air.pusher_and_puller, alone) == []


def test_hot_air_drawn_round_standing_still_asks_for_closed_edges():
    idle = example.with_case(example.passing(), 4, recirculated_frac=0.27)
    (finding,) = found_by(air.air_drawn_round_again, idle)
    assert "27 %" in finding.text
    assert "Close the edges" in finding.text
    sealed = example.with_project(idle, environment=Environment(seal=Seal.SEALED))
    assert "Close the edges" not in found_by(air.air_drawn_round_again, sealed)[0].text
    assert found_by(air.air_drawn_round_again, example.with_case(idle, 4, recirculated_frac=0.1)) == []


def test_hot_air_drawn_round_on_the_move_is_not_this_finding():
    moving = example.with_case(example.passing(), 2, recirculated_frac=0.4)
    assert found_by(air.air_drawn_round_again, moving) == []


def test_air_past_the_radiator_names_the_worst_case_and_what_to_close():
    pack = example.with_case(example.with_case(example.passing(), 1, bypassed_frac=0.15), 3, bypassed_frac=0.21)
    (finding,) = found_by(air.air_past_the_radiator, pack)
    assert finding.text.startswith("Motorway: 21 %")
    assert finding.text.endswith("Close the edges of the pack.")
    wide = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-430.0, 440.0, 430.0, 840.0))
    nose = replace(pack.project.nose, openings=(wide,))
    project = replace(pack.project, nose=nose)
    wider = change(pack, project=project, faces=core_faces(build_overlay(project, 7.0), project))
    assert "part of the opening with no core behind it" in found_by(air.air_past_the_radiator, wider)[0].text


def test_shares_nobody_knows_raise_nothing():
    pack = example.passing()
    for number in (1, 2, 3, 4):
        pack = example.with_case(pack, number, recirculated_frac=None, bypassed_frac=None)
    assert found_by(air.air_drawn_round_again, pack) == []
    assert found_by(air.air_past_the_radiator, pack) == []
