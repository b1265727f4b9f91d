"""Rules about what keeps air from the faces."""

from __future__ import annotations

from dataclasses import replace

import pytest
from msgspec import structs

from grillestack.advice import faces
from grillestack.assess.result import Severity
from grillestack.geometry.exposure import core_faces
from grillestack.geometry.overlay import build_overlay
from grillestack.model.engine import Environment
from grillestack.model.nose import Nose, Opening, SupportWindow
from grillestack.model.outline import Rect, rectangle_outline
from grillestack.model.parts import Solid, SolidKind
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def pack(**areas):
    return replace(example.passing(), radiator=example.radiator_face(**areas))


@pytest.mark.parametrize("rule", faces.RULES)
def test_a_good_pack_and_a_pack_without_radiator_raise_nothing(rule):
    assert found_by(rule, example.passing()) == []
    empty = example.with_project(replace(example.passing(), radiator=None, faces={}), parts=())
    assert found_by(rule, empty) == []


def test_a_radiator_wholly_behind_other_cores_names_them():
    # 280 000 of 290 400 mm² are 96.4 %
    (finding,) = found_by(faces.whole_radiator_covered, pack(behind_mm2=280_000.0))
    assert finding.text.startswith("96 % of “Crossflow 660” stands behind “Condenser 600” and “Bar-and-plate 550”")
    assert finding.parts == ("radiator-1", "condenser-1", "charge-air-cooler-1")


def test_a_core_beside_the_opening_says_how_much():
    good = example.passing()
    aside = replace(good.faces["radiator-1"], off_opening_mm2=43_560.0)
    (finding,) = found_by(faces.core_off_the_opening, replace(good, faces={**good.faces, "radiator-1": aside}))
    assert finding.text.startswith("436 cm² of “Crossflow 660” (15 %) lie beside the opening")


def faces_of(project):
    return replace(example.passing(), project=project, faces=core_faces(build_overlay(project, 0.0), project))


def test_a_tank_over_a_core_says_how_much_it_costs():
    # A tank 50 mm wide and 220 mm high at the charge-air cooler's side, wholly ahead of the radiator's core, which
    # reaches to 330 mm: from 275 to 325 mm it covers 50 × 220 mm = 110 cm², 3.8 % of 2904 cm².
    tank = Solid(
        kind=SolidKind.TANK, rect=Rect(u_min_mm=275.0, v_min_mm=-110.0, u_max_mm=325.0, v_max_mm=110.0), depth_mm=64.0
    )
    cooler = structs.replace(example.CHARGE_AIR_COOLER, solids=(tank,))
    pack = faces_of(structs.replace(example.project(), parts=(cooler, example.RADIATOR)))
    (finding,) = found_by(faces.tank_over_core, pack)
    assert finding.severity is Severity.WARNING
    assert finding.text.startswith(
        "Tanks or plates of “Bar-and-plate 550” cover 110 cm² (4 %) of the core of “Crossflow 660”"
    )
    assert finding.parts == ("charge-air-cooler-1", "radiator-1")


def test_a_core_outside_the_support_window_is_covered_by_the_plate():
    # The window ends 33 mm inside the core's right edge: 33 × 440 mm of 660 × 440 mm are 5 %.
    window = SupportWindow(outline=rectangle_outline(-400.0, 400.0, 297.0, 900.0), x_mm=10.0)
    project = example.project()
    pack = faces_of(
        structs.replace(project, parts=(example.RADIATOR,), nose=structs.replace(project.nose, support_window=window))
    )
    (finding,) = found_by(faces.tank_over_core, pack)
    assert finding.text.startswith("The core support outside its window covers 145 cm² (5 %) of the core")
    assert finding.parts == ("radiator-1",)


def test_an_opening_that_leads_past_the_pack_is_found_unless_closed_off():
    # An opening 100 mm wider than the core on either side, no spread: 2 × 100 × 400 mm lead past it.
    wide = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-430.0, 440.0, 430.0, 840.0))
    project = example.project()
    open_pack = structs.replace(project, parts=(example.RADIATOR,), nose=Nose(openings=(wide,)))
    (finding,) = found_by(faces.opening_uncovered, faces_of(open_pack))
    assert finding.text.startswith("800 cm² of the air's way from the opening")
    closed = structs.replace(open_pack, environment=Environment(opening_closed_off=True))
    assert found_by(faces.opening_uncovered, faces_of(closed)) == []


def test_a_core_without_shroud_over_more_than_15_percent_is_found():
    # 58 080 of 290 400 mm² are 20 %; 43 560 are 15 %
    (finding,) = found_by(faces.radiator_without_shroud, pack(unshrouded_mm2=58_080.0))
    assert finding.text.startswith("20 % of “Crossflow 660”")
    assert "sweep 45 % of the core" in finding.text
    assert found_by(faces.radiator_without_shroud, pack(unshrouded_mm2=43_560.0)) == []


def test_where_fans_sweep_nearly_all_a_shroud_is_not_called_essential():
    (finding,) = found_by(faces.radiator_without_shroud, pack(unshrouded_mm2=58_080.0, unswept_mm2=58_080.0))
    assert "essential" not in finding.text


def test_fans_that_sweep_less_than_40_percent_are_noted():
    (finding,) = found_by(faces.fans_sweep_too_little, pack(unswept_mm2=203_280.0))
    assert "sweep 30 %" in finding.text


def test_without_fans_nobody_speaks_of_shroud_or_sweep():
    bare = pack(unshrouded_mm2=290_400.0, unswept_mm2=290_400.0)
    bare = example.with_project(bare, parts=tuple(p for p in bare.project.parts if p.id != "fan-1"))
    assert found_by(faces.radiator_without_shroud, bare) == []
    assert found_by(faces.fans_sweep_too_little, bare) == []
