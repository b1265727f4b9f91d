"""What was typed reaches the part that answers it; what cannot be done is one sentence and exit code 2."""

from __future__ import annotations

import importlib.metadata
import sys
from pathlib import Path
from types import ModuleType

import pytest

from grillestack.__main__ import main


class Takers:
    """Stands in for window, picture and terminal, and notes who was asked for what."""

    def __init__(self) -> None:
        self.asked: list[tuple[object, ...]] = []

    def run_window(self, path: Path | None) -> int:
        self.asked.append(("window", path))
        return 0

    def write_picture(self, path: Path, out: Path, width: int, height: int) -> int:
        self.asked.append(("picture", path, out, width, height))
        return 0

    def run(self, argv: list[str]) -> int:
        self.asked.append(("terminal", argv))
        return 5


@pytest.fixture
def takers(monkeypatch: pytest.MonkeyPatch) -> Takers:
    takers = Takers()
    homes = {"app.start": takers.run_window, "app.picture": takers.write_picture, "cli.main": takers.run}
    for home, taker in homes.items():
        module = ModuleType(f"grillestack.{home}")
        setattr(module, taker.__name__, taker)
        monkeypatch.setitem(sys.modules, module.__name__, module)
    return takers


@pytest.fixture
def project(tmp_path: Path) -> Path:
    path = tmp_path / "a nose.grillestack"
    path.write_text("{}")
    return path


def test_no_word_opens_the_window_without_a_file(takers: Takers) -> None:
    assert main([]) == 0
    assert takers.asked == [("window", None)]


def test_file_opens_the_window_with_it(takers: Takers, project: Path) -> None:
    assert main([str(project)]) == 0
    assert takers.asked == [("window", project)]


def test_picture_is_drawn_in_the_usual_size(takers: Takers, project: Path, tmp_path: Path) -> None:
    assert main(["picture", str(project), "--out", str(tmp_path / "x.png")]) == 0
    assert takers.asked == [("picture", project, tmp_path / "x.png", 1600, 1000)]


@pytest.mark.parametrize("size", [["--size", "1280x800"], ["--size=1280x800"], ["--size", "1280X800"]])
def test_picture_is_drawn_in_the_size_asked_for(takers: Takers, project: Path, tmp_path: Path, size: list[str]) -> None:
    assert main(["picture", *size, f"--out={tmp_path / 'x.PNG'}", str(project)]) == 0
    assert takers.asked == [("picture", project, tmp_path / "x.PNG", 1280, 800)]


def test_every_other_verb_goes_to_the_terminal_with_its_words_and_its_exit_code_comes_back(takers: Takers) -> None:
    assert main(["assess", "x.grillestack", "--json"]) == 5
    assert takers.asked == [("terminal", ["assess", "x.grillestack", "--json"])]


def test_words_come_from_the_command_line_when_none_are_handed_over(
    takers: Takers, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "argv", ["grillestack", "assess"])
    assert main() == 5
    assert takers.asked == [("terminal", ["assess"])]


@pytest.mark.parametrize("word", ["--help", "-h", "help"])
def test_help_names_every_way_in(takers: Takers, word: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([word]) == 0
    said = capsys.readouterr().out
    assert all(
        way in said for way in ("grillestack FILE", "assess", "picture", "--out", "--size", "--version", "not a proof")
    )
    assert takers.asked == []


def test_version_is_that_of_the_installed_package(takers: Takers, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"grillestack {importlib.metadata.version('grillestack')}\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["missing.grillestack"], "There is no file missing.grillestack"),
        (["{folder}"], "is a folder"),
        (["{project}", "other.grillestack"], "one project at a time"),
        (["--fullscreen"], "no option “--fullscreen”"),
        (["picture"], "Name one project"),
        (["picture", "{project}", "{project}", "--out", "x.png"], "Name one project"),
        (["picture", "{project}"], "add --out"),
        (["picture", "{project}", "--out"], "--out needs a value"),
        (["picture", "{project}", "--out="], "--out needs a value"),
        (["picture", "{project}", "--out", "x.jpg"], "end in .png"),
        (["picture", "{project}", "--out", "{folder}/no/x.png"], "There is no folder"),
        (["picture", "missing.grillestack", "--out", "x.png"], "There is no file missing.grillestack"),
        (["picture", "{project}", "--out", "x.png", "--size", "big"], "“big” is no size"),
        (["picture", "{project}", "--out", "x.png", "--size", "100x100"], "between 320 and 8000"),
        (["picture", "{project}", "--out", "x.png", "--size", "9000x1000"], "between 320 and 8000"),
        (["picture", "{project}", "--out", "x.png", "--dark"], "no option “--dark”"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_exit_code_2(
    takers: Takers, project: Path, words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = [word.format(project=project, folder=project.parent) for word in words]
    assert main(typed) == 2
    written = capsys.readouterr()
    assert written.out == ""
    assert written.err.count("\n") == 1
    assert said in written.err
    assert takers.asked == []


def test_missing_system_library_is_one_sentence(
    takers: Takers, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(_path: Path | None) -> int:
        raise ImportError("libGL.so.1: cannot open shared object file: No such file or directory")

    monkeypatch.setattr(sys.modules["grillestack.app.start"], "run_window", fail)
    assert main([]) == 1
    said = capsys.readouterr().err
    assert "libGL.so.1" in said
    assert said.count("\n") == 1


def test_broken_import_of_our_own_is_not_taken_for_a_missing_system_library(
    takers: Takers, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "grillestack.app.start", None)
    with pytest.raises(ImportError):
        main([])
