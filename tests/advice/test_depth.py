"""Rules about room. Least distances: common practice, no source, except core to fan (published, seen in summary)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from msgspec import structs

from grillestack.advice import depth
from grillestack.assess.result import Severity
from grillestack.geometry.depth import BONNET_LINE, GRILLE_PLANE, PULLEY_PLANE, Clearance, Gap, Overlap
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core, Fan
from grillestack.model.project import shrouds
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def pack(**changes):
    good = example.passing()
    return replace(good, depth=replace(good.depth, **changes))


@pytest.mark.parametrize("rule", depth.RULES)
def test_a_pack_with_room_everywhere_raises_nothing(rule):
    assert found_by(rule, example.passing()) == []


def test_two_parts_in_the_same_space_are_serious_and_named():
    bad = pack(overlaps=(Overlap("radiator-1", "obstruction-1", "tank and obstruction", 12.0),))
    (finding,) = found_by(depth.same_space, bad)
    assert finding.severity is Severity.SERIOUS
    assert "“Crossflow 660” and “Bumper beam” are in the same space, 12 mm deep" in finding.text
    assert finding.parts == ("radiator-1", "obstruction-1")


def test_cores_closer_than_10_mm_cannot_be_cleaned():
    (finding,) = found_by(depth.core_gap_too_small, pack(gaps=(Gap("charge-air-cooler-1", "radiator-1", 6.0),)))
    assert "“Bar-and-plate 550” and “Crossflow 660” are 6 mm apart: keep at least 10 mm" in finding.text
    assert found_by(depth.core_gap_too_small, pack(gaps=(Gap("charge-air-cooler-1", "radiator-1", 10.0),))) == []


def test_cores_that_touch_have_no_room():
    (finding,) = found_by(depth.core_gap_too_small, pack(gaps=(Gap("charge-air-cooler-1", "radiator-1", 0.0),)))
    assert "“Bar-and-plate 550” and “Crossflow 660” touch: keep at least 10 mm" in finding.text


def test_cores_further_apart_than_25_mm_want_closed_edges():
    (finding,) = found_by(depth.core_gap_too_large, pack(gaps=(Gap("charge-air-cooler-1", "radiator-1", 40.0),)))
    assert finding.severity is Severity.NOTE
    assert "40 mm apart, more than 25 mm" in finding.text
    assert found_by(depth.core_gap_too_large, pack(gaps=(Gap("charge-air-cooler-1", "radiator-1", 25.0),))) == []


def _shroud_of(good, **changes):
    (shroud,) = shrouds(good.project)
    return replace(good, project=replace_part(good.project, structs.replace(shroud, **changes)))


def test_a_shroud_shallower_than_13_mm_starves_what_no_fan_sweeps():
    good = example.passing()
    (shroud,) = shrouds(good.project)
    rear_mm = max(p.placement.x_mm + p.depth_mm for p in good.project.parts if isinstance(p, Core))
    shallow = _shroud_of(good, depth_mm=rear_mm + 9.0 - shroud.placement.x_mm)
    (finding,) = found_by(depth.shallow_shroud, shallow)
    assert finding.parts == (shroud.id,)
    assert "leaves 9 mm on average" in finding.text
    assert "deeper shroud" in finding.text
    enough = _shroud_of(good, depth_mm=rear_mm + 14.0 - shroud.placement.x_mm)
    assert found_by(depth.shallow_shroud, enough) == []
    # A fan that stands too close is said by the rule above; one remedy, one finding.
    fan = next(p for p in shallow.project.parts if isinstance(p, Fan))
    both = replace(shallow, depth=replace(shallow.depth, gaps=(Gap("radiator-1", fan.id, 8.0),)))
    assert found_by(depth.shallow_shroud, both) == []


def test_a_fan_closer_than_13_mm_to_the_fins_is_found_but_a_shroud_is_not_a_fan():
    (finding,) = found_by(
        depth.fan_against_fins, pack(gaps=(Gap("radiator-1", "shroud-1", 0.0), Gap("radiator-1", "fan-1", 8.0)))
    )
    assert finding.parts == ("radiator-1", "fan-1")
    assert "8 mm apart" in finding.text
    assert "13 mm" in finding.text


def test_what_is_in_the_same_space_is_not_called_too_near_as_well():
    bad = pack(
        gaps=(Gap("charge-air-cooler-1", "radiator-1", -4.0), Gap("radiator-1", "fan-1", -2.0)),
        clearances=(Clearance("radiator-1", "obstruction-1", -3.0),),
        overlaps=(
            Overlap("charge-air-cooler-1", "radiator-1", "core and core", 4.0),
            Overlap("radiator-1", "fan-1", "core and fan", 2.0),
            Overlap("radiator-1", "obstruction-1", "tank and obstruction", 3.0),
        ),
    )
    for rule in (depth.core_gap_too_small, depth.fan_against_fins, depth.obstruction_too_near):
        assert found_by(rule, bad) == []
    assert len(found_by(depth.same_space, bad)) == 3


def test_less_than_25_mm_to_the_pulley_warns_and_none_is_serious():
    near = found_by(depth.pulley_too_near, pack(clearances=(Clearance("fan-1", PULLEY_PLANE, 12.0),)))
    through = found_by(depth.pulley_too_near, pack(clearances=(Clearance("fan-1", PULLEY_PLANE, -7.0),)))
    assert near[0].severity is Severity.WARNING
    assert "“Fan 406” leaves 12 mm to the pulley, less than 25 mm" in near[0].text
    assert through[0].severity is Severity.SERIOUS
    assert "7 mm" in through[0].text


def test_less_than_20_mm_under_the_bonnet_warns():
    (finding,) = found_by(depth.bonnet_too_near, pack(clearances=(Clearance("radiator-1", BONNET_LINE, 14.0),)))
    assert "leaves 14 mm to the bonnet line, less than 20 mm" in finding.text


def test_a_part_ahead_of_the_grille_is_serious_and_one_at_it_is_not():
    (finding,) = found_by(depth.ahead_of_the_grille, pack(clearances=(Clearance("condenser-1", GRILLE_PLANE, -30.0),)))
    assert "stands 30 mm ahead of the grille" in finding.text
    assert found_by(depth.ahead_of_the_grille, pack(clearances=(Clearance("condenser-1", GRILLE_PLANE, 0.0),))) == []


def test_less_than_25_mm_to_a_beam_warns():
    (finding,) = found_by(
        depth.obstruction_too_near, pack(clearances=(Clearance("condenser-1", "obstruction-1", 5.0),))
    )
    assert "“Condenser 600” leaves 5 mm to “Bumper beam”, less than 25 mm" in finding.text
