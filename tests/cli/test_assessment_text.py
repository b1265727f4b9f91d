"""The page of text, whole: kept as it should read, for packs built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from grillestack.advice.findings import findings
from grillestack.cli.assessment_text import assessment_text
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

KEPT = Path(__file__).parent.parent / "golden" / "cli"


def page(assessment, units=UnitSystem.METRIC, *, detail=False):
    return assessment_text(assessment, findings(assessment.project, assessment, units), units, detail=detail)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("passing", lambda: page(example.passing())),
        ("failing", lambda: page(example.failing())),
        ("unknown", lambda: page(example.unknown())),
        ("close_in_inches", lambda: page(example.close(), UnitSystem.INCH)),
        ("in_detail", lambda: page(example.in_detail(), detail=True)),
    ],
)
def test_page_reads_as_kept(name, text, golden):
    golden(KEPT / f"{name}.txt", f"{text()}\n".encode())


@pytest.mark.parametrize("pack", [example.passing, example.close, example.failing, example.unknown])
def test_no_line_is_wider_than_a_terminal_and_none_ends_in_blanks(pack):
    lines = page(pack()).splitlines()
    assert all(len(line) <= 100 for line in lines)
    assert all(line == line.rstrip() for line in lines)


def test_verdict_comes_before_every_figure():
    assert page(example.failing()).splitlines()[2].startswith("FAIL: ")


def test_last_word_asks_for_a_test():
    assert page(example.passing()).endswith("verify by test.")
