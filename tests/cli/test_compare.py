"""The verb `compare`: what may be typed, its exit codes, and the page as it should read."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from grillestack.assess.compare import compare, comparison_of
from grillestack.cli.assessment_text import NO_PROOF
from grillestack.cli.compare import comparison_text, name_of_other, to_compare
from grillestack.cli.main import run
from grillestack.cli.refused import RefusedWordsError
from grillestack.model import edits, variants
from grillestack.model.project import Project
from grillestack.storage.project_file import write_project
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example
from tests.assess import packs

KEPT = Path(__file__).parent.parent / "golden" / "cli"


def two_layouts() -> Project:
    """Return a pack and, in hand, its copy with the charge-air cooler 60 mm lower."""
    project = variants.duplicate_variant(packs.full_height_pack())
    return edits.move_parts(project, [project.parts[0].id], dz_mm=-60.0)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "pack.grillestack"
    write_project(two_layouts(), path)
    return str(path)


@pytest.mark.parametrize(
    ("words", "name"),
    [(["x"], None), (["x", "--with", "Layout A"], "Layout A"), (["--with=Layout A", "x"], "Layout A")],
)
def test_file_and_layout_may_stand_in_any_order(words, name):
    asked = to_compare(words)
    assert (str(asked.path), asked.other_name) == ("x", name)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Name one project"),
        (["a", "b"], "Name one project"),
        (["a", "--with"], "--with needs the name of a layout"),
        (["a", "--with="], "--with needs the name of a layout"),
        (["a", "--json"], "The verb “compare” has no option “--json”: it knows --with."),
    ],
)
def test_words_that_make_no_sense_are_refused_with_what_to_type(words, sentence):
    with pytest.raises(RefusedWordsError, match=sentence):
        to_compare(words)


def test_the_only_other_layout_need_not_be_named_and_any_case_will_do():
    project = two_layouts()
    assert name_of_other(project, to_compare(["x"])) == "Layout A"
    assert name_of_other(project, to_compare(["x", "--with", "layout a"])) == "Layout A"


@pytest.mark.parametrize(
    ("project", "words", "sentence"),
    [
        (Project(), ["x"], "This project has one layout only, “Layout A”: make a copy of it in the window"),
        (
            variants.duplicate_variant(two_layouts()),
            ["x"],
            "“Layout C” can be compared with “Layout A”, “Layout B”: say which after --with.",
        ),
        (two_layouts(), ["x", "--with", "Z"], "There is no layout “Z” to compare “Layout B” with: this project has"),
        (two_layouts(), ["x", "--with", "Layout B"], "There is no layout “Layout B” to compare “Layout B” with"),
    ],
)
def test_a_layout_that_cannot_be_compared_with_is_refused_with_those_that_can(project, words, sentence):
    with pytest.raises(RefusedWordsError, match=sentence):
        name_of_other(project, to_compare(words))


def test_it_prints_the_comparison_and_ends_as_the_layout_in_hand_is_judged(file, capsys):
    comparison = compare(two_layouts(), "Layout A")
    code = run(["compare", file])
    assert capsys.readouterr().out == f"{comparison_text(comparison)}\n"
    assert code == run(["assess", file])


@pytest.mark.parametrize("words", [["compare"], ["compare", "missing.grillestack"]])
def test_what_cannot_be_done_is_one_sentence_and_code_2(words, capsys):
    assert run(words) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1


def test_a_project_of_one_layout_is_told_what_to_do(tmp_path, capsys):
    path = tmp_path / "one.grillestack"
    write_project(packs.half_height_pack(), path)
    assert run(["compare", str(path)]) == 2
    assert "make a copy of it" in capsys.readouterr().err


def test_help_says_how(capsys):
    assert run(["compare", "--help"]) == 0
    assert "--with NAME" in capsys.readouterr().out


def _kept_pair():
    other = example.with_project(example.failing(), variant_name="As bought", variant_note_text="What the shop had.")
    lower = edits.move_parts(other.project, ["charge-air-cooler-1"], dz_mm=-60.0, dx_mm=4.0)
    no_condenser = edits.remove_parts(lower, ["condenser-1"])
    larger = edits.replace_part(
        no_condenser, replace(no_condenser.part("fan-1"), name="Fan 432", ring_diameter_mm=432.0)
    )
    in_hand = replace(larger, variant_name="Low cooler", variant_note_text="Needs a\nbracket.")
    return other, example.with_project(example.passing(), **{f: getattr(in_hand, f) for f in in_hand.__struct_fields__})


def _unknown_pair():
    other = example.with_project(example.unknown(), variant_name="As bought")
    return other, example.with_project(example.unknown(), variant_name="Its copy")


@pytest.mark.parametrize(
    ("name", "pair", "units"),
    [
        ("compare", _kept_pair, UnitSystem.METRIC),
        ("compare_in_inches", _kept_pair, UnitSystem.INCH),
        ("compare_unknown", _unknown_pair, UnitSystem.METRIC),
    ],
)
def test_comparison_reads_as_kept(name, pair, units, golden):
    golden(KEPT / f"{name}.txt", f"{comparison_text(comparison_of(*pair()), units)}\n".encode())


def test_the_last_word_asks_for_a_test():
    assert comparison_text(comparison_of(*_kept_pair())).endswith(NO_PROOF)
