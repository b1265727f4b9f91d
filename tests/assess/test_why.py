"""What each figure rests on, with the values that enter it."""

from __future__ import annotations

import dataclasses

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.defaults import HEAT_PER_POWER_FRAC, default_for
from grillestack.assess.figure import FigureName, Subject
from grillestack.assess.why import BASIS_OF, SAYS, why
from grillestack.assets.locate import demo_projects
from grillestack.assets.sources import sources
from grillestack.model.engine import EngineSheet, Environment
from grillestack.storage.project_file import read_project
from tests.assess import packs

FURTHER = {
    FigureName.BAND,
    FigureName.CHANCE,
    FigureName.DRIVER,
    FigureName.STEP,
    FigureName.GAIN,
    FigureName.OVER_TIME,
}


def a_pack():
    return packs.behind(packs.project())


@pytest.fixture(scope="module")
def assessed():
    return assess(read_project(demo_projects()[1]))


def test_every_figure_has_its_basis_or_is_one_of_the_further_answers():
    assert set(BASIS_OF) | FURTHER == set(FigureName)
    assert set(BASIS_OF).isdisjoint(FURTHER)
    assert set(SAYS) == set(BASIS_OF)


@pytest.mark.parametrize("figure", list(BASIS_OF))
def test_every_figure_of_a_whole_pack_says_method_inputs_source_and_spread(figure, assessed):
    for case in assessed.cases:
        found = why(assessed, Subject(figure, case.case_id))
        assert found is not None
        assert found.says
        assert found.method
        assert found.inputs
        assert found.sources or found.source_words
        assert found.spread
        assert all(one.origin for one in found.inputs)
        assert set(found.sources) <= set(sources())


def test_the_value_is_that_of_the_assessment_and_of_the_case_asked(assessed):
    for case in assessed.cases:
        found = why(assessed, Subject(FigureName.TOP_TANK, case.case_id))
        assert found.quantity.value == case.top_tank_degc
        assert found.title == f"Top tank, {case.name}"
    face = why(assessed, Subject(FigureName.EXPOSED_FACE))
    assert face.quantity.value == assessed.radiator.exposed_mm2


def test_without_a_case_the_deciding_one_is_meant(assessed):
    found = why(assessed, Subject(FigureName.HOTTEST_DAY))
    assert found.quantity.value == assessed.deciding_case.limiting_ambient_degc
    assert assessed.deciding_case.name in found.title


def named(found, name):
    return next(one for one in found.inputs if one.name == name)


def test_a_default_is_marked_with_what_it_rests_on_and_what_is_typed_with_the_sheet():
    project = replace(a_pack(), engine=EngineSheet(heat_to_coolant_w=60e3), environment=Environment())
    found = why(assess(project), Subject(FigureName.HOTTEST_DAY))
    heat, limit, ram = (named(found, n) for n in ("Heat to coolant, full load", "Top tank limit", "Ram recovery"))
    assert (heat.quantity.value, heat.origin, heat.is_default) == (60e3, "engine sheet", False)
    assert limit.is_default
    assert limit.quantity.value == default_for("top_tank_limit_degc").value
    assert default_for("top_tank_limit_degc").source in limit.origin
    assert ram.is_default
    given = replace(project, environment=Environment(ram_recovery_frac=0.7))
    ram = named(why(assess(given), Subject(FigureName.HOTTEST_DAY)), "Ram recovery")
    assert (ram.quantity.value, ram.origin, ram.is_default) == (0.7, "surroundings", False)


def test_heat_from_the_rated_power_shows_the_power_and_says_that_it_is_estimated():
    project = replace(a_pack(), engine=EngineSheet(rated_power_w=100e3))
    found = why(assess(project), Subject(FigureName.HEAT_TARGET))
    heat = named(found, "Heat to coolant, full load")
    assert named(found, "Rated power").quantity.value == 100e3
    assert heat.quantity.value == pytest.approx(HEAT_PER_POWER_FRAC * 100e3)
    assert heat.origin == "estimated from the rated power"


def test_heat_share_times_heat_at_full_load_is_the_heat_to_shed(assessed):
    for case in assessed.cases:
        found = why(assessed, Subject(FigureName.HEAT_TARGET, case.case_id))
        full, share = (named(found, n).quantity.value for n in ("Heat to coolant, full load", "Heat share"))
        assert full * share == pytest.approx(case.heat_target_w)


def test_the_areas_that_enter_the_exposed_face_add_up_to_the_core(assessed):
    found = why(assessed, Subject(FigureName.EXPOSED_FACE))
    parts = [
        named(found, n).quantity.value for n in ("behind another core", "behind tanks or frames", "off the opening")
    ]
    assert sum(parts) + found.quantity.value == pytest.approx(named(found, "Core").quantity.value)


def test_a_days_own_ambient_and_altitude_come_from_the_duty_case():
    project = a_pack()
    first = replace(project.cases[0], ambient_degc=44.0, altitude_m=1500.0)
    project = replace(project, cases=(first, *project.cases[1:]))
    found = why(assess(project), Subject(FigureName.DESIGN_DAY, first.id))
    assert [(one.quantity.value, one.origin) for one in found.inputs] == [
        (44.0, "duty case"),
        (1500.0, "duty case"),
    ]


def test_a_fan_that_is_off_says_so_and_not_a_flow(assessed):
    project = assessed.project
    still = replace(project.cases[0], fans_on=False)
    off = assess(replace(project, cases=(still,)))
    moves = next(one for one in why(off, Subject(FigureName.AIR)).inputs if one.name.endswith("moves"))
    assert (moves.quantity.words, moves.quantity.value) == ("off", None)


def test_a_figure_that_is_not_known_says_so_and_still_says_what_would_enter():
    unknown = assess(replace(a_pack(), engine=EngineSheet()))
    found = why(unknown, Subject(FigureName.HOTTEST_DAY))
    assert found.quantity.value is None
    assert named(found, "Heat to coolant, full load").origin == "not given"


def test_a_case_that_has_no_day_says_no_day(assessed):
    case = dataclasses.replace(
        assessed.cases[0], limiting_ambient_degc=None, verdict=type(assessed.verdict).FAIL, heat_target_w=1.0
    )
    hopeless = dataclasses.replace(assessed, cases=(case,), deciding_case=case)
    assert why(hopeless, Subject(FigureName.HOTTEST_DAY)).quantity.words == "no day"


def test_a_case_that_is_gone_has_no_answer(assessed):
    assert why(assessed, Subject(FigureName.HOTTEST_DAY, "gone")) is None
    assert why(assessed, Subject(FigureName.BAND)) is None
