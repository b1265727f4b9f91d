"""All findings together: worst first, each once, always in the same order, in the units asked for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.advice.findings import RULES, findings
from grillestack.assess.result import Finding, Severity
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

PACKS = {
    "passing": example.passing,
    "close": example.close,
    "failing": example.failing,
    "unknown": example.unknown,
}


@pytest.mark.parametrize("pack", PACKS)
def test_findings_run_from_serious_to_note(pack):
    assessment = PACKS[pack]()
    found = findings(assessment.project, assessment)
    ranks = [list(Severity).index(finding.severity) for finding in found]
    assert found
    assert ranks == sorted(ranks)


@pytest.mark.parametrize("pack", PACKS)
def test_same_pack_gives_same_findings_and_none_twice(pack):
    first, second = (findings(a.project, a) for a in (PACKS[pack](), PACKS[pack]()))
    assert first == second
    assert len({(f.text, f.parts) for f in first}) == len(first)


@pytest.mark.parametrize("pack", PACKS)
def test_every_finding_says_what_it_rests_on_and_is_one_or_two_sentences(pack):
    assessment = PACKS[pack]()
    for finding in findings(assessment.project, assessment):
        assert finding.source, finding.text
        assert finding.text.endswith("."), finding.text
        assert 1 <= finding.text.replace("1.25 to 1.5", "").count(". ") + 1 <= 3, finding.text
        assert len(finding.text) <= 260, finding.text


def test_remarks_of_the_assessment_come_along_and_a_repeated_one_comes_once():
    remark = Finding(severity=Severity.WARNING, text="The fan's curve is derived from its free flow.", parts=("fan-1",))
    assessment = replace(example.passing(), remarks=(remark, remark))
    assert findings(assessment.project, assessment).count(remark) == 1


def test_a_pack_in_which_nothing_is_wrong_has_only_notes():
    assessment = example.passing()
    assert {f.severity for f in findings(assessment.project, assessment)} == {Severity.NOTE}


def test_a_bad_pack_has_its_faults_before_its_cautions():
    assessment = example.failing()
    found = findings(assessment.project, assessment)
    assert found[0].severity is Severity.SERIOUS
    assert "4.9 K below the design day of 38 °C" in found[0].text


def test_lengths_follow_the_units():
    assessment = example.failing()
    metric = " ".join(f.text for f in findings(assessment.project, assessment, UnitSystem.METRIC))
    inch = " ".join(f.text for f in findings(assessment.project, assessment, UnitSystem.INCH))
    assert "leaves 12 mm to the pulley" in metric
    # 12 mm is 0.4724 in, and 7.56 sixteenths round to a half
    assert "leaves 1/2 in to the pulley" in inch
    assert " mm" not in inch
    assert "°C" not in inch


def test_every_part_a_finding_speaks_of_can_be_selected():
    assessment = example.failing()
    nose = assessment.project.nose
    known = {thing.id for thing in (*assessment.project.parts, *nose.openings, *nose.obstructions)}
    for finding in findings(assessment.project, assessment):
        assert set(finding.parts) <= known


def test_each_rule_is_registered_once():
    assert len(set(RULES)) == len(RULES) >= 25
