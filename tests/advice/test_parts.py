"""Rules about what is there and how it is drawn."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.advice import parts
from grillestack.assess.result import Severity
from grillestack.model.nose import Nose
from grillestack.model.outline import Point
from grillestack.model.parts import CoreRole, Placement
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def test_a_nose_without_opening_is_serious():
    bare = example.with_project(example.passing(), nose=Nose())
    assert found_by(parts.no_opening, bare)[0].severity is Severity.SERIOUS
    assert found_by(parts.no_opening, example.passing()) == []


def test_a_pack_without_radiator_is_serious():
    without = example.with_project(example.passing(), parts=(example.CONDENSER, example.FAN))
    assert found_by(parts.radiator_missing, without)[0].severity is Severity.SERIOUS
    assert found_by(parts.radiator_missing, example.passing()) == []


def test_the_radiator_that_stands_behind_the_first_is_the_second():
    second = replace(example.RADIATOR, id="radiator-2", name="Rear one", placement=Placement(x_mm=260.0, z_mm=640.0))
    (finding,) = found_by(parts.second_radiator, example.with_part(example.passing(), second))
    assert finding.parts == ("radiator-2",)
    assert "“Rear one” is a second radiator: only “Crossflow 660” is counted" in finding.text
    assert found_by(parts.second_radiator, example.passing()) == []
    assert found_by(parts.second_radiator, example.with_project(example.passing(), parts=())) == []


def test_charge_air_without_a_cooler_for_it_is_said():
    good = example.passing()
    kept = tuple(p for p in good.project.parts if getattr(p, "role", None) is not CoreRole.CHARGE_AIR_COOLER)
    assert len(found_by(parts.charge_air_cooler_missing, example.with_project(good, parts=kept))) == 1
    assert found_by(parts.charge_air_cooler_missing, good) == []


def test_a_lean_of_more_than_15_degrees_either_way_warns():
    def leaning(tilt_deg):
        core = replace(example.RADIATOR, placement=replace(example.RADIATOR.placement, tilt_deg=tilt_deg))
        return found_by(parts.leans_too_far, example.with_part(example.passing(), core))

    assert leaning(15.0) == []
    assert "leans 18°, more than 15°" in leaning(18.0)[0].text
    assert "leans 18°" in leaning(-18.0)[0].text


def test_an_outline_that_crosses_itself_is_named():
    good = example.passing()
    bow_tie = (Point(-100.0, 500.0), Point(100.0, 700.0), Point(100.0, 500.0), Point(-100.0, 700.0))
    crossed = replace(good.project.nose.openings[0], outline=bow_tie)
    pack = example.with_project(good, nose=replace(good.project.nose, openings=(crossed,)))
    (finding,) = found_by(parts.outlines_that_cannot_be_meant, pack)
    assert finding.text.startswith("The outline of “Grille” crosses itself")
    assert finding.parts == ("opening-1",)
    assert found_by(parts.outlines_that_cannot_be_meant, good) == []


def test_a_radius_without_room_between_the_sides_is_said_and_one_that_just_fits_is_not():
    def rounded(radius_mm):
        opening = example.passing().project.nose.openings[0]
        corners = (Point(0, 0), Point(100, 0), Point(100, 80), Point(0, 80))
        changed = replace(opening, outline=corners, corner_radii_mm=(radius_mm,) * 4)
        return found_by(
            parts.outlines_that_cannot_be_meant, example.with_project(example.passing(), nose=Nose(openings=(changed,)))
        )

    assert rounded(0.0) == rounded(40.0) == []
    assert "4 of the rounded corners" in rounded(41.0)[0].text
