"""The verb `explain`: what may be typed, which case it speaks of, its exit codes, and figures that are the assessment's own."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.cli import explain
from grillestack.cli.explain import ToExplain, explained, to_explain
from grillestack.cli.explain_text import explanation
from grillestack.cli.main import run
from grillestack.cli.refused import RefusedWordsError
from grillestack.model.engine import EngineSheet
from grillestack.storage.places import data_folder
from grillestack.storage.project_file import write_project
from tests.assess import packs

COOL = packs.warm_day(id="case-2", name="Cool day", ambient_degc=10.0, heat_frac=0.5)
PACK = packs.full_height_pack(packs.warm_day(), COOL)


def _asked(case_name: str | None = None, *, search: bool = False) -> ToExplain:
    return to_explain(["x", *(["--case", case_name] if case_name else []), *([] if search else ["--no-search"])])


@pytest.fixture
def few_samples(monkeypatch):
    """Let the band rest on few samples, so that a whole run stays short."""
    whole = explain.confidence
    monkeypatch.setattr(explain, "confidence", lambda *args, **kwargs: whole(*args, **kwargs, samples=40))


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "pack.grillestack"
    write_project(PACK, path)
    return str(path)


@pytest.mark.parametrize(
    ("words", "case_name", "search"),
    [
        (["x"], None, True),
        (["x", "--no-search"], None, False),
        (["--case", "Idle with A/C", "x"], "Idle with A/C", True),
        (["x", "--case=Crawl", "--no-search"], "Crawl", False),
    ],
)
def test_file_case_and_search_may_stand_in_any_order(words, case_name, search):
    asked = to_explain(words)
    assert (str(asked.path), asked.case_name, asked.search) == ("x", case_name, search)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Name one project"),
        (["a", "b"], "Name one project"),
        (["a", "--case"], "needs the name of a duty case"),
        (["a", "--case="], "needs the name of a duty case"),
        (["a", "--json"], "has no option “--json”"),
        (["nowhere.grillestack"], "“nowhere.grillestack” cannot be opened"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_code_2(words, sentence, capsys):
    assert run(["explain", *words]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert sentence in said.err
    assert said.err.count("\n") == 1


def test_without_a_name_it_speaks_of_the_case_that_decides_and_with_one_of_that(few_samples):
    assert explained(PACK, _asked(), ()).case.name == "Warm day"
    for name in ("Cool day", "cool DAY", "case-2"):
        assert explained(PACK, _asked(name), ()).case.case_id == "case-2"


def test_an_unknown_case_lists_those_there_are(file, capsys):
    assert run(["explain", file, "--case", "Summit"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == "There is no duty case “Summit” in this project: it has “Warm day”, “Cool day”.\n"


def test_a_project_without_duty_cases_has_nothing_to_explain():
    with pytest.raises(RefusedWordsError, match="add one"):
        explained(replace(PACK, cases=()), _asked(), ())


def test_the_search_is_done_unless_left_out_and_for_the_case_it_speaks_of(few_samples):
    assert explained(PACK, _asked(), ()).ladder is None
    found = explained(PACK, _asked("Cool day", search=True), ()).ladder
    assert found.case_name == "Cool day"
    assert found.rungs


def test_a_pack_that_cannot_be_judged_is_explained_as_far_as_it_goes(tmp_path, capsys):
    path = tmp_path / "pack.grillestack"
    write_project(packs.half_height_pack(sheet=EngineSheet()), path)
    assert run(["explain", str(path)]) == 2
    said = capsys.readouterr()
    assert "Not known: The heat to coolant is not known" in said.out
    assert said.err.startswith("This pack could not be judged.")


@pytest.mark.parametrize(("project", "code"), [(packs.half_height_pack(), 0), (packs.full_height_pack(), 1)])
def test_exit_codes_are_those_of_assess(project, code, tmp_path, capsys, few_samples):
    path = tmp_path / "pack.grillestack"
    write_project(project, path)
    assert run(["assess", str(path)]) == code
    capsys.readouterr()
    assert run(["explain", str(path), "--no-search"]) == code
    assert capsys.readouterr().err == ""


def test_a_calculation_that_breaks_off_is_never_mistaken_for_a_pack_that_fails(file, monkeypatch, capsys):
    def breaks_off(*_args, **_more):
        raise ZeroDivisionError("no air at all")

    monkeypatch.setattr(explain, "confidence", breaks_off)
    assert run(["explain", file]) == 2
    said = capsys.readouterr()
    assert (said.out, said.err) == (
        "",
        "This pack could not be judged, because the calculation broke off: no air at all\n",
    )


def test_a_broken_catalogue_costs_only_the_parts_in_it(file, capsys, few_samples):
    folder = data_folder()
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "own_parts.json").write_text("milk, bread", encoding="utf-8")
    assert run(["explain", file]) == 1
    said = capsys.readouterr()
    assert "What to change first:" in said.out
    assert said.err.startswith("No other parts are tried")
    assert said.err.count("\n") == 1


def test_the_figures_are_those_of_the_assessment(few_samples):
    case = assess(PACK).deciding_case
    text = " ".join(explanation(explained(PACK, _asked(), ())).split())
    radiator = next(core for core in case.cores if core.part_id.startswith("radiator"))
    for figure in (
        f"{case.heat_target_w / 1e3:.1f} kW to the coolant",
        f"{case.opening_kg_s:.3f} kg/s of air enter",
        f"{case.air_kg_s:.3f} kg/s cross the radiator ({case.face_velocity_m_s:.1f} m/s)",
        f"meets the radiator at {radiator.air_in_degc:.0f} °C",
        f"sheds {case.heat_capacity_w / 1e3:.1f} kW",
        f"at {case.limiting_ambient_degc:.0f} °C, the hottest day, {-case.margin_k:.1f} K below",
        f"leaves its cooler at {case.charge_out_degc:.0f} °C",
        f"What is left: {round(case.limiting_ambient_degc, 1):g} °C",
    ):
        assert figure in text, figure


def test_the_air_that_enters_goes_through_the_radiator_or_past_it():
    # What comes in through the opening and what is drawn round again is what crosses the radiator and what passes it by.
    for case in assess(PACK).cases:
        entering = case.opening_kg_s / (1.0 - case.recirculated_frac)
        assert case.air_kg_s == pytest.approx(entering * (1.0 - case.bypassed_frac), rel=1e-6)


def test_help_of_the_verb(capsys):
    assert run(["explain", "--help"]) == 0
    assert "--no-search" in capsys.readouterr().out
