"""The report: three pages at most, nothing collides, every figure is the assessment's, what is missing is said."""

from __future__ import annotations

import functools

import pytest
from msgspec.structs import replace

from grillestack.advice.ladder import ladder
from grillestack.assess.assess import assess
from grillestack.assess.confidence import confidence
from grillestack.assess.waterfall import waterfall
from grillestack.model.sheet_choices import DrawingUnits, Paper
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.compose_report import WorkedOut, compose_report
from grillestack.sheets.title_block import finished_sheets
from grillestack.storage.catalogue import bundled_parts
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity
from tests.sheets.drawn import demo
from tests.sheets.random_packs import random_pack


@functools.cache
def _known(number: int):
    project = demo(number)
    assessment = assess(project)
    case = assessment.deciding_case
    return assessment, WorkedOut(
        waterfall=waterfall(project, case.case_id),
        confidence=confidence(project, case.case_id, samples=125),
        ladder=ladder(project, bundled_parts()) if number == 2 else None,
    )


def _sheets(number: int, paper: Paper = Paper.A3, worked_out: WorkedOut | None = None):
    project = demo(number, paper)
    assessment, known = _known(number)
    return finished_sheets(project, compose_report(project, assessment, worked_out or known))


def _said(sheets) -> str:
    return " ".join(text.text for sheet in sheets for text in all_texts(sheet.marks))


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER, Paper.A4])
@pytest.mark.parametrize("number", [1, 2, 3])
def test_a_normal_pack_takes_three_pages_and_nothing_collides(number, paper):
    sheets = _sheets(number, paper)
    assert len(sheets) <= 3
    for sheet in sheets:
        assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_case_has_its_figures(number):
    assessment, _ = _known(number)
    said = _said(_sheets(number))
    for case in assessment.cases:
        assert case.name in said
        for value in (case.limiting_ambient_degc, case.top_tank_degc, case.charge_out_degc):
            assert show_quantity(value, Dimension.TEMPERATURE, UnitSystem.METRIC) in said


def test_steps_of_the_waterfall_lead_from_its_start_to_its_end():
    _, known = _known(2)
    said = _said(_sheets(2))
    for step in known.waterfall.steps:
        assert step.name in said
    assert show_quantity(known.waterfall.start_degc, Dimension.TEMPERATURE, UnitSystem.METRIC) in said


def test_changes_and_their_side_effects_are_told():
    _, known = _known(2)
    said = " ".join(_said(_sheets(2)).split())
    for rung in known.ladder.rungs:
        assert rung.title.split(" ")[0] in said
        assert f"+{show_quantity(rung.buys_k, Dimension.TEMPERATURE_DIFFERENCE, UnitSystem.METRIC)}" in said


def test_what_was_not_worked_out_is_said_not_to_be():
    said = _said(_sheets(1, worked_out=WorkedOut()))
    assert said.count("not worked out for this report") == 3


def test_shares_of_fresh_air_are_those_of_the_faces():
    assessment, _ = _known(3)
    said = _said(_sheets(3))
    for face in assessment.faces.values():
        assert f"{100 * face.exposed_mm2 / face.core_mm2:.0f} % fresh" in said


def test_cautions_and_licensed_practice_are_there():
    said = _said(_sheets(2))
    for words in (
        "scalding coolant",
        "fans that start by themselves",
        "refrigerant",
        "crash structure",
        "lamps and plate",
    ):
        assert f"CAUTION {words}" in said
    assert "Local codes and licensed practice decide" in said
    assert "not a proof: verify by test" in said


def test_defaults_that_stand_in_are_listed():
    said = " ".join(_said(_sheets(2)).split())
    assert "Defaults stand in for:" in said
    assert "ram recovery (default" in said


def test_a_pack_that_cannot_be_judged_says_so():
    project = replace(demo(1), parts=())
    sheets = finished_sheets(project, compose_report(project, assess(project)))
    said = _said(sheets)
    assert "NOT KNOWN whether this pack passes" in said
    assert "Not known:" in said


def test_inches_on_the_drawings_are_fahrenheit_in_the_report():
    project = demo(1)
    project = replace(project, sheet=replace(project.sheet, units=DrawingUnits.INCH_FRACTIONS))
    said = _said(finished_sheets(project, compose_report(project, assess(project))))
    assert "°F" in said
    assert "°C" not in said


@pytest.mark.parametrize("seed", [1, 7, 9, 27])
def test_packs_by_lot_are_reported_without_collision_on_any_paper(seed):
    project = random_pack(seed)
    for sheet in finished_sheets(project, compose_report(project, assess(project))):
        assert collisions(sheet.marks) == ()
