"""What the further figures rest on."""

from __future__ import annotations

import pytest

from grillestack.assess.confidence import Confidence, Driver
from grillestack.assess.over_time import OverTime
from grillestack.assess.result import Basis
from grillestack.assess.waterfall import Waterfall, WaterfallStep
from grillestack.assess.why_further import why_band, why_chance, why_driver, why_over_time, why_step

STEPS = Waterfall(
    case_name="Grade pull",
    start_degc=70.0,
    steps=(
        WaterfallStep(name="Opening and grille", before_degc=70.0, after_degc=52.0),
        WaterfallStep(name="Condenser", before_degc=52.0, after_degc=None),
    ),
)
BAND = Confidence(
    case_name="Grade pull",
    p10_degc=30.0,
    p50_degc=36.0,
    p90_degc=None,
    meets_design_day_frac=0.4,
    drivers=(Driver("ram recovery", 0.5, "from memory"), Driver("heat of “R”", 0.3, "NG2005, nine radiators")),
    samples=1000,
)


def test_a_step_shows_the_day_before_and_after_and_their_difference():
    found = why_step(STEPS, 1)
    assert found.quantity.value == -18.0
    assert [one.quantity.value for one in found.inputs] == [70.0, 52.0]
    assert found.title == "Opening and grille, Grade pull"


def test_a_step_without_an_answer_says_no_day():
    found = why_step(STEPS, 2)
    assert found.quantity.value is None
    assert found.inputs[1].quantity.words == "no day"


def test_the_first_and_last_rows_are_the_radiator_alone_and_the_whole_pack():
    assert why_step(STEPS, 0).quantity.value == 70.0
    assert why_step(STEPS, 3).quantity.words == "no day"


def test_the_band_lists_its_days_and_what_it_hangs_on_with_sources():
    inputs = {one.name: one for one in why_band(BAND).inputs}
    assert inputs["Nine in ten reach"].quantity.value == 30.0
    assert inputs["One in ten reaches"].quantity.words == "no day"
    assert inputs["Ram recovery"].origin == "from memory"
    assert inputs["Samples"].quantity.words == "1000"
    assert why_chance(BAND).quantity.value == pytest.approx(0.4)


def test_a_share_of_the_band_names_its_source_by_id_where_it_has_one():
    assert why_driver(BAND, 0).source_words == "from memory"
    assert why_driver(BAND, 1).sources == ("NG2005",)
    assert why_driver(BAND, 2) is None


def test_the_course_over_time_carries_its_own_basis():
    course = OverTime(
        from_case_name="Motorway",
        to_case_name="Grade pull",
        start_degc=90.0,
        steady_degc=None,
        limit_degc=107.0,
        thermostat_degc=88.0,
        time_to_limit_s=100.0,
        points=(),
        cooling=None,
        capacity_j_per_k=1e5,
        basis=(
            Basis(figure="whole", method="one lump", source="INCROPERA in SOURCES.md"),
            Basis(figure="thermostat", method="shut below 88 °C", source="engine sheet"),
        ),
        notes=(),
    )
    found = why_over_time(course)
    assert found.method == "One lump."
    assert found.sources == ("INCROPERA",)
    assert [(one.name, one.origin) for one in found.inputs] == [("Thermostat", "engine sheet")]
