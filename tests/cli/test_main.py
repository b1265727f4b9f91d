"""The terminal: exit codes, one sentence for what cannot be done, and streams of any kind."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from dataclasses import replace

import pytest

from grillestack.cli import main
from grillestack.cli.main import run
from grillestack.storage.project_file import write_project
from tests.advice import example_assessments as example


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "truck.grillestack"
    write_project(example.project(), path)
    return path


@pytest.fixture
def judged(monkeypatch):
    """Return a function that lets every project be judged as given."""

    def as_given(assessment):
        monkeypatch.setattr(main, "assess", lambda project: replace(assessment, project=project))

    return as_given


@pytest.mark.parametrize(("pack", "code"), [(example.passing, 0), (example.close, 0), (example.failing, 1)])
def test_exit_code_tells_pass_from_fail(pack, code, file, judged, capsys):
    judged(pack())
    assert run(["assess", str(file)]) == code
    said = capsys.readouterr()
    assert said.out.startswith("Invented farm truck\n")
    assert said.err == ""


def test_a_pack_that_cannot_be_judged_is_shown_and_says_why(file, judged, capsys):
    judged(example.unknown())
    assert run(["assess", str(file)]) == 2
    said = capsys.readouterr()
    assert "NOT KNOWN" in said.out
    assert said.err == (
        "This pack could not be judged. The engine sheet gives neither heat to the coolant nor rated power: type one of them.\n"
    )


def test_a_calculation_that_breaks_off_is_never_mistaken_for_a_pack_that_fails(file, monkeypatch, capsys):
    def breaks_off(project):
        raise ZeroDivisionError("no air at all")

    monkeypatch.setattr(main, "assess", breaks_off)
    assert run(["assess", str(file)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == "This pack could not be judged, because the calculation broke off: no air at all\n"


def test_a_real_file_is_judged_by_the_real_assessment(file, capsys):
    code = run(["assess", "--json", "--detail", str(file)])
    said = capsys.readouterr()
    answer = json.loads(said.out)
    assert code == {"pass": 0, "close": 0, "fail": 1, "unknown": 2}[answer["verdict"]]
    assert len(answer["cases"]) == 4
    radiator = answer["radiator"]
    parts = ("exposed_mm2", "behind_mm2", "blocked_mm2", "off_opening_mm2")
    assert sum(radiator[part] for part in parts) == pytest.approx(radiator["core_mm2"], rel=1e-9)


def test_json_is_for_programs(file, judged, capsys):
    judged(example.failing())
    assert run(["assess", "--json", str(file)]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["verdict"] == "fail"
    assert "zones" not in answer


def test_detail_may_stand_anywhere(file, judged, capsys):
    judged(example.in_detail())
    assert run(["assess", str(file), "--detail", "--json"]) == 0
    assert "zones" in json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Say what to do"),
        (["weigh"], "There is no verb “weigh”"),
        (["assess"], "Name one project"),
        (["assess", "a", "b"], "Name one project"),
        (["assess", "a", "--fast"], "has no option “--fast”"),
        (["assess", "nowhere.grillestack"], "“nowhere.grillestack” cannot be opened"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_code_2(words, sentence, capsys):
    assert run(words) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert sentence in said.err
    assert said.err.count("\n") == 1


def test_a_file_that_is_no_project_is_refused_with_a_sentence(tmp_path, capsys):
    path = tmp_path / "shopping.grillestack"
    path.write_text("milk, bread", encoding="utf-8")
    assert run(["assess", str(path)]) == 2
    assert "shopping.grillestack" in capsys.readouterr().err


def test_help_of_the_verb(capsys):
    assert run(["assess", "--help"]) == 0
    assert "--json" in capsys.readouterr().out


@pytest.mark.parametrize("encoding", ["ascii", "cp437", "latin-1", "utf-8"])
def test_a_terminal_with_few_letters_still_gets_the_page(encoding, file, judged, monkeypatch):
    judged(example.failing())
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding=encoding, newline=""))
    assert run(["assess", str(file)]) == 1
    text = raw.getvalue().decode(encoding)
    assert ("33 °C" if encoding == "utf-8" else "33 deg C") in text
    assert "?" not in text


def test_a_reader_that_leaves_is_no_fault(file):
    # As `grillestack assess FILE | head -1` does, with the reader gone before the first letter.
    code = (
        "import sys; from grillestack.cli import main; from tests.advice import example_assessments as e;"
        "main.assess = lambda project: e.failing(); sys.exit(main.run(sys.argv[1:]))"
    )
    reader, writer = os.pipe()
    os.close(reader)
    try:
        done = subprocess.run(
            [sys.executable, "-c", code, "assess", str(file)],
            stdout=writer,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    finally:
        os.close(writer)
    assert (done.returncode, done.stderr) == (1, "")
