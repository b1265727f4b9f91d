"""Cautions: each is said once where the danger is there, and not where it is not."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice import safety
from grillestack.assess.result import Severity
from grillestack.model.nose import Nose, SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole, TubeFluid
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by

OF_PART = {
    safety.hot_coolant_under_pressure: ("radiator-1", "scalds"),
    safety.fans_start_by_themselves: ("fan-1", "start by themselves"),
    safety.refrigerant_for_licensed_people: ("condenser-1", "licensed people only"),
    safety.hot_charge_pipes: ("charge-air-cooler-1", "burn skin"),
}


@pytest.mark.parametrize("rule", OF_PART)
def test_a_caution_comes_with_its_part_and_goes_with_it(rule):
    part_id, words = OF_PART[rule]
    good = example.passing()
    found = found_by(rule, good)
    assert found
    assert words in found[0].text
    assert all(f.severity is Severity.NOTE and f.parts == (part_id,) for f in found)
    without = example.with_project(good, parts=tuple(p for p in good.project.parts if p.id != part_id))
    assert found_by(rule, without) == []


def test_oil_is_spoken_of_where_it_runs_through_a_further_cooler_and_not_where_coolant_does():
    good = example.passing()
    condenser = next(part for part in good.project.parts if part.id == "condenser-1")

    def found(fluid: TubeFluid | None) -> list:
        cooler = replace(condenser, id="cooler-1", role=CoreRole.COOLER, tube_fluid=fluid)
        return found_by(safety.hot_oil, example.with_project(good, parts=(*good.project.parts, cooler)))

    (caution,) = found(TubeFluid.OIL)
    assert caution.parts == ("cooler-1",)
    assert "rated for this oil" in caution.text
    assert "maker" in caution.text
    assert found(TubeFluid.COOLANT) == found(None) == found_by(safety.hot_oil, good) == []


def test_coolant_is_called_poisonous():
    assert any("poisonous" in f.text for f in found_by(safety.hot_coolant_under_pressure, example.passing()))


def test_fusing_names_the_largest_current():
    texts = [f.text for f in found_by(safety.fans_start_by_themselves, example.passing())]
    assert any("1.25 to 1.5 times its running current (the largest here draws 19 A)" in text for text in texts)


def test_structure_and_lamps_are_spoken_of_where_the_nose_tempts_to_cut():
    good = example.passing()
    assert len(found_by(safety.cutting_the_front_structure, good)) == 1
    assert len(found_by(safety.lamps_and_plate, good)) == 1
    bare = example.with_project(good, nose=Nose())
    assert found_by(safety.cutting_the_front_structure, bare) == []
    assert found_by(safety.lamps_and_plate, bare) == []
    window = example.with_project(
        good, nose=Nose(support_window=SupportWindow(outline=rectangle_outline(-1, -1, 1, 1)))
    )
    assert len(found_by(safety.cutting_the_front_structure, window)) == 1


def test_an_estimate_asks_for_a_test():
    assert "verify by test" in found_by(safety.verify_by_test, example.passing())[0].text
    assert found_by(safety.verify_by_test, example.with_project(example.passing(), parts=())) == []
