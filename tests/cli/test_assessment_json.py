"""JSON of an assessment: exactly the promised keys, null for what is not known, the same figures to the last digit."""

from __future__ import annotations

import json
import math

import pytest

from grillestack.advice.findings import findings
from grillestack.cli.assessment_json import assessment_dict
from tests.advice import example_assessments as example

KEYS = {"verdict", "radiator", "cases", "deciding_case", "findings", "basis"}
RADIATOR_KEYS = {
    "core_mm2",
    "exposed_mm2",
    "behind_mm2",
    "blocked_mm2",
    "off_opening_mm2",
    "unshrouded_mm2",
    "effective_mm2",
    "required_mm2",
}
CASE_KEYS = {
    "name",
    "verdict",
    "heat_target_w",
    "heat_capacity_w",
    "top_tank_degc",
    "top_tank_limit_degc",
    "limiting_ambient_degc",
    "design_ambient_degc",
    "air_kg_s",
    "face_velocity_m_s",
    "effective_mm2",
    "required_mm2",
    "charge_out_degc",
    "charge_out_limit_degc",
    "charge_loss_pa",
    "charge_loss_limit_pa",
    "condensing_degc",
    "recirculated_frac",
    "bypassed_frac",
}
PACKS = [example.passing, example.close, example.failing, example.unknown]


def read_back(assessment, **how):
    made = assessment_dict(assessment, findings(assessment.project, assessment), **how)
    return json.loads(json.dumps(made, allow_nan=False))


@pytest.mark.parametrize("pack", PACKS)
def test_keys_are_exactly_the_promised_ones(pack):
    answer = read_back(pack())
    assert set(answer) == KEYS
    assert set(answer["radiator"]) == RADIATOR_KEYS
    assert len(answer["cases"]) == 4
    assert all(set(case) == CASE_KEYS for case in answer["cases"])
    assert all(set(finding) == {"severity", "text", "parts", "source"} for finding in answer["findings"])
    assert all(set(basis) == {"figure", "method", "source", "inputs", "spread"} for basis in answer["basis"])


@pytest.mark.parametrize(
    ("pack", "word"), [(PACKS[0], "pass"), (PACKS[1], "close"), (PACKS[2], "fail"), (PACKS[3], "unknown")]
)
def test_the_verdict_is_one_of_four_words(pack, word):
    assert read_back(pack())["verdict"] == word


def test_figures_come_through_to_the_last_digit():
    third = 100.0 / 3.0
    pack = example.with_case(example.passing(), limiting_ambient_degc=third, air_kg_s=math.pi)
    case = read_back(pack)["cases"][0]
    assert case["limiting_ambient_degc"] == third
    assert case["air_kg_s"] == math.pi


def test_what_is_not_known_is_null():
    answer = read_back(example.unknown())
    assert answer["deciding_case"] is None
    assert answer["radiator"]["effective_mm2"] is None
    assert answer["cases"][0]["limiting_ambient_degc"] is None


@pytest.mark.parametrize("odd", [math.nan, math.inf, -math.inf])
def test_a_number_nobody_can_compute_with_is_null_and_never_nan(odd):
    pack = example.with_case(example.passing(), air_kg_s=odd)
    assert read_back(pack)["cases"][0]["air_kg_s"] is None


def test_the_deciding_case_is_named():
    assert read_back(example.close())["deciding_case"] == "Grade pull"


def test_a_pack_without_radiator_has_none():
    from dataclasses import replace

    assert read_back(replace(example.unknown(), radiator=None))["radiator"] is None


def test_detail_adds_faces_zones_cores_and_fans_and_leaves_the_rest():
    plain, detailed = read_back(example.in_detail()), read_back(example.in_detail(), detail=True)
    assert set(detailed) == KEYS | {"zones"}
    assert set(detailed["cases"][0]) == CASE_KEYS | {"cores", "zones", "fans"}
    assert {key: detailed[key] for key in KEYS - {"cases"}} == {key: plain[key] for key in KEYS - {"cases"}}
    assert detailed["cases"][0]["fans"] == [{"part_id": "fan-1", "flow_m3_s": 0.93, "pressure_pa": 41.0}]
    assert detailed["cases"][0]["cores"][1]["conductance_w_per_k"] is None


def test_zones_of_every_face_add_up_to_its_core():
    faces = read_back(example.in_detail(), detail=True)["zones"]
    assert [face["part_id"] for face in faces] == ["condenser-1", "charge-air-cooler-1", "radiator-1"]
    for face in faces:
        assert sum(zone["area_mm2"] for zone in face["zones"]) == pytest.approx(face["core_mm2"], rel=1e-9)
    behind = [zone for zone in faces[2]["zones"] if zone["state"] == "behind"]
    assert {"condenser-1"} <= {part_id for zone in behind for part_id in zone["behind"]}
