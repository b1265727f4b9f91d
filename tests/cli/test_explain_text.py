"""The explanation, whole: kept as it should read, for packs built by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from grillestack.advice.ladder import Ladder, Rung
from grillestack.assess.confidence import Confidence, Driver
from grillestack.assess.result import Verdict
from grillestack.assess.waterfall import Waterfall, WaterfallStep
from grillestack.cli.assessment_text import NO_PROOF
from grillestack.cli.explain_text import Explained, explanation
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

KEPT = Path(__file__).parent.parent / "golden" / "cli"

STEPS = Waterfall(
    case_name="Grade pull",
    start_degc=60.0,
    steps=(
        WaterfallStep(name="Opening and grille", before_degc=60.0, after_degc=57.5),
        WaterfallStep(name="Condenser", before_degc=57.5, after_degc=57.52),
        WaterfallStep(name="Tanks and side plates", before_degc=57.52, after_degc=33.1),
    ),
)
BAND = Confidence(
    case_name="Grade pull",
    p10_degc=24.0,
    p50_degc=31.0,
    p90_degc=39.0,
    meets_design_day_frac=0.14,
    drivers=(
        Driver("heat of “Crossflow 660”", 0.6, "tests"),
        Driver("ram recovery at the opening", 0.2, "from memory"),
        Driver("heat to coolant", 0.1, "engine sheet"),
        Driver("leaks round the pack", 0.05, "from memory"),
        Driver("air resistance of “Bar-and-plate 550”", 0.05, "correlations"),
    ),
    samples=1000,
)


def rung(title: str, buys_k: float | None, *side_effects: str, spoils: bool = False) -> Rung:
    """Return a rung of a ladder built by hand."""
    return Rung(
        title=title,
        words="",
        project=example.project(),
        parts=(),
        buys_k=buys_k,
        hottest_before_degc=33.1,
        hottest_after_degc=33.1 + (buys_k or 0.0),
        verdict_after=Verdict.FAIL,
        verdict_reason="",
        side_effects=side_effects,
        spoils=spoils,
    )


LADDER = Ladder(
    case_id="case-1",
    case_name="Grade pull",
    rungs=(
        rung("Move the charge-air cooler 60 mm down", 4.4, "also brings the charge air back within its limit"),
        rung("Seal the edges of the pack", 0.9),
        rung("Open the grille to 75 % free area", 0.6),
        rung("Clean the cores", 0.4),
        rung("Put the radiator ahead of the charge-air cooler", 9.0, "also brings the charge air over it", spoils=True),
    ),
    too_little_count=3,
    harmful_count=1,
    reason="",
)


def _failing() -> Explained:
    told = example.in_detail().cases[0]
    pack = example.failing()
    case = replace(pack.cases[0], opening_kg_s=1.6, cores=told.cores)
    pack = replace(pack, deciding_case=case, cases=(case, *pack.cases[1:]))
    return Explained(assessment=pack, case=case, waterfall=STEPS, confidence=BAND, ladder=LADDER)


def _unknown() -> Explained:
    pack = example.unknown()
    return Explained(assessment=pack, case=pack.cases[0])


def _other_case() -> Explained:
    pack = example.failing()
    return Explained(assessment=pack, case=pack.cases[3])


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("explain_failing", lambda: explanation(_failing())),
        ("explain_failing_in_inches", lambda: explanation(_failing(), UnitSystem.INCH)),
        ("explain_unknown", lambda: explanation(_unknown())),
        ("explain_other_case", lambda: explanation(_other_case())),
    ],
)
def test_explanation_reads_as_kept(name, text, golden):
    golden(KEPT / f"{name}.txt", f"{text()}\n".encode())


@pytest.mark.parametrize("subject", [_failing, _unknown, _other_case])
def test_it_is_short_enough_to_read_aloud_and_fits_a_terminal(subject):
    lines = explanation(subject()).splitlines()
    assert len(lines) <= 30
    assert all(len(line) <= 100 and line == line.rstrip() for line in lines)


@pytest.mark.parametrize("subject", [_failing, _unknown, _other_case])
def test_the_last_word_asks_for_a_test(subject):
    assert explanation(subject()).endswith(NO_PROOF)


def test_links_of_the_chain_come_in_their_order():
    text = explanation(_failing())
    order = (
        "The engine gives",
        "enter the opening",
        "Of the radiator's core",
        "It meets the radiator",
        "At that limit",
    )
    order += (
        "hottest day",
        "charge air leaves",
        "Where the degrees go",
        "How sure",
        "What to change first",
        "It rests on",
    )
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_three_rungs_are_told_and_what_spoils_something_is_not_recommended():
    text = explanation(_failing())
    assert "  3. Open the grille" in text
    assert "Clean the cores" not in text
    assert "ahead of the charge-air cooler" not in text
    assert "1 more would buy less. 1 would bring something over its limit." in text


def test_where_every_rung_spoils_something_they_are_told_with_what_they_spoil():
    ladder = replace(LADDER, rungs=LADDER.rungs[-1:])
    text = " ".join(explanation(replace(_failing(), ladder=ladder)).split())
    assert "1. Put the radiator ahead of the charge-air cooler: buys 9.0 K, also brings the charge air over it." in text


def test_a_ladder_without_rungs_says_why():
    ladder = replace(LADDER, rungs=(), reason="No single change buys Grade pull 0.2 K or more.")
    text = " ".join(explanation(replace(_failing(), ladder=ladder)).split())
    assert "What to change first: No single change buys Grade pull 0.2 K or more. 3 other changes" in text


def test_a_case_without_hottest_day_says_so_and_gives_no_number_for_it():
    subject = _failing()
    case = replace(subject.case, limiting_ambient_degc=None)
    steps = replace(STEPS, steps=(*STEPS.steps[:2], WaterfallStep(name="Leaks", before_degc=57.52, after_degc=None)))
    band = replace(BAND, p10_degc=None, meets_design_day_frac=0.0)
    text = " ".join(explanation(replace(subject, case=case, waterfall=steps, confidence=band)).split())
    assert "There is no hottest day: however cold the air" in text
    assert "leaks: no answer" in text
    assert "What is left: no hottest day." in text
    assert "no day at all to 39 °C" in text
    assert "met in none of 1000 samples" in text


def test_what_was_not_computed_is_left_out():
    text = explanation(replace(_failing(), waterfall=None, confidence=None, ladder=None))
    for words in ("Where the degrees go", "How sure", "What to change first", "not known"):
        assert words not in text
