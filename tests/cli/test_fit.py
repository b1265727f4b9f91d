"""The verb `fit`: what may be typed, its exit codes, and that its page and its JSON say the same."""

from __future__ import annotations

import json

import pytest
from msgspec.structs import replace

from grillestack.cli import main
from grillestack.cli.fit import found_for, to_fit
from grillestack.cli.fit_json import fit_dict
from grillestack.cli.fit_text import fit_text
from grillestack.cli.main import run
from grillestack.cli.refused import RefusedWordsError
from grillestack.fit.slots import Kind
from grillestack.model.project import Project
from grillestack.storage.project_file import write_project
from tests.fit.packs import DEMOS, a_cooler, coolers, failing

FAILING = str(DEMOS / "3-pick-up-fails.grillestack")


def two_coolers():
    return [part for part in coolers() if part.id in ("gs-cb-0660-0220-76-d", "gs-cb-0640-0200-64-s")]


def test_words_may_stand_in_any_order():
    asked = to_fit(["--kind", "radiator", "x", "--slot=2", "--json", "--keep", "--no-assess"])
    assert (str(asked.path), asked.kind, asked.number) == ("x", Kind.RADIATOR, 2)
    assert (asked.as_json, asked.keep, asked.assess) == (True, True, False)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Name one project to look into"),
        (["a", "b"], "Name one project to look into"),
        (["a", "--kind"], "--kind needs a word after it"),
        (
            ["a", "--kind", "wing"],
            "There is no kind “wing”: it is one of cac, radiator, condenser, oil-cooler, fan, shroud.",
        ),
        (["a", "--slot", "-1"], "--slot needs a whole number from 1, not “-1”."),
        (["a", "--slot", "two"], "--slot needs a whole number from 1, not “two”."),
        (["a", "--fast"], "The verb “fit” has no option “--fast”"),
        (["a", "--in-place-of", "Fan", "--slot", "1"], "--in-place-of says already what is looked for"),
    ],
)
def test_words_that_make_no_sense_are_refused_with_what_to_type(words, sentence):
    with pytest.raises(RefusedWordsError, match=sentence):
        to_fit(words)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["x", "--slot", "9"], "There is no slot 9: the one|There is no slot 9"),
        (["x", "--in-place-of", "Wing"], "There is no part “Wing” in this pack: it has “Charge-air cooler”"),
    ],
)
def test_a_slot_or_part_that_is_not_there_is_refused(words, sentence):
    with pytest.raises(RefusedWordsError, match=sentence):
        found_for(failing(), to_fit(words), two_coolers())


def test_a_part_may_be_named_by_its_name_or_its_id():
    by_name = found_for(failing(), to_fit(["x", "--in-place-of", "left fan", "--no-assess"]), ())
    by_id = found_for(failing(), to_fit(["x", "--in-place-of", "fan-4", "--no-assess"]), ())
    assert by_name == by_id
    assert by_name.look.slot.taken_out == "fan-4"


def test_the_page_puts_what_makes_the_pack_pass_first_and_says_where_it_stands():
    found = found_for(failing(), to_fit(["x"]), [*two_coolers(), a_cooler("wide", 900.0, 640.0)])
    page = fit_text(found)
    assert "Of 3 charge-air coolers tried in place of “Charge-air cooler”, 2 fit." in page
    first = page.splitlines()[page.splitlines().index("What fits, best first") + 2]
    assert "gs-cb-0660-0220-76-d" in first
    assert first.endswith("pass")
    assert "788 × 236 × 84 mm over all, as\n  listed: " in page
    assert "wide: It is 50 mm too wide for the support window" in page
    assert "crash structure" in page
    assert page.endswith("Estimate for choosing and building, not a proof: verify by test.")
    assert max(len(line) for line in page.splitlines()) <= 110


def test_json_says_what_the_page_says_and_null_where_nothing_is_known():
    found = found_for(failing(), to_fit(["x"]), two_coolers())
    said = json.loads(json.dumps(fit_dict(found), allow_nan=False))
    assert [fit["part"] for fit in said["fits"]] == [fit.part.id for fit in found.fits]
    assert said["fits"][0]["cost"]["hottest_degc"] == found.fits[0].cost.hottest_degc
    assert said["fits"][0]["ports"] is None
    assert said["slot"] == {
        "kind": "cac",
        "number": 1,
        "words": "in place of “Charge-air cooler”",
        "taken_out": "charge-air-cooler-1",
    }


def test_the_exit_code_says_whether_anything_fits(tmp_path, monkeypatch, capsys):
    small, huge = a_cooler("small", 400.0, 150.0), a_cooler("huge", 1200.0, 1000.0)
    for catalogue, code in (([small], 0), ([huge], 1), ([], 2)):
        monkeypatch.setattr(main, "load_catalogue", lambda catalogue=catalogue: tuple(catalogue))
        assert run(["fit", FAILING, "--no-assess"]) == code
    assert "There is no charge-air cooler to try" in capsys.readouterr().out
    write_project(replace(Project(), title="Empty"), tmp_path / "empty.grillestack")
    assert run(["fit", str(tmp_path / "empty.grillestack"), "--kind", "fan"]) == 2
    assert "A fan needs a radiator to stand behind" in capsys.readouterr().err
    assert run(["fit", "nowhere.grillestack"]) == 2
    assert run(["fit", "--help"]) == 0
    assert "grillestack fit FILE" in capsys.readouterr().out
