"""The verb `sheet`: what may be typed, what is written, and what is said when nothing is."""

from __future__ import annotations

import os

import pytest

from grillestack.assets.locate import demo_projects
from grillestack.cli.main import run
from grillestack.cli.refused import RefusedWordsError
from grillestack.cli.sheet import to_draw
from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.storage.project_file import write_project

DEMO = str(demo_projects()[2])


def test_words_may_stand_in_any_order():
    asked = to_draw(["--paper=ansi-d", "x", "--view", "pack,Parts-List", "--out", "y.PDF", "--date", "2026-11-25"])
    assert (asked.path.name, asked.out.name, asked.paper) == ("x", "y.PDF", Paper.ANSI_D)
    assert asked.views == (SheetView.PACK, SheetView.PARTS_LIST)
    assert asked.date_text == "2026-11-25"


def test_full_size_and_report_are_asked_for_besides_the_views():
    asked = to_draw(["x", "--out", "y.pdf", "--full-size", "--report", "--view", "shroud"])
    assert asked.views == (SheetView.SHROUD,)
    assert (asked.is_full_size, asked.has_report) == (True, True)
    plain = to_draw(["x", "--out", "y.pdf"])
    assert (plain.is_full_size, plain.has_report) == (False, False)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Name one project to draw"),
        (["a", "b", "--out", "x.pdf"], "Name one project to draw"),
        (["a"], "Say where to write the drawing"),
        (["a", "--out"], "--out needs a word after it"),
        (["a", "--out", "x.bmp"], r"“x\.bmp” is no file of a drawing"),
        (["a", "--out", "x.pdf", "--paper", "A9"], "There is no paper “A9”: choose among A4, A3"),
        (["a", "--out", "x.pdf", "--view", "pak"], "There is no drawing “pak”: choose among pack"),
        (["a", "--out", "x.pdf", "--size", "1"], "has no option “--size”"),
    ],
)
def test_words_that_make_no_sense_are_refused_with_what_to_type(words, sentence):
    with pytest.raises(RefusedWordsError, match=sentence):
        to_draw(words)


@pytest.mark.parametrize("ending", [".pdf", ".svg", ".dxf"])
def test_a_demo_is_written_and_the_files_are_named(tmp_path, capsys, ending):
    out = tmp_path / f"pack{ending}"
    assert run(["sheet", DEMO, "--out", str(out), "--view", "pack", "--paper", "A3"]) == 0
    said = capsys.readouterr().out
    assert "Cooling pack, arrangement (A3, 1:5)" in said
    files = sorted(path.name for path in tmp_path.iterdir())
    assert files == ["pack.pdf"] if ending == ".pdf" else files[0] == f"pack-1{ending}"
    assert all(name in said for name in files)


def test_the_same_project_gives_the_same_bytes(tmp_path):
    for name in ("a.pdf", "b.pdf"):
        assert run(["sheet", DEMO, "--out", str(tmp_path / name), "--view", "parts-list"]) == 0
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()


def test_a_folder_that_is_not_there_gets_a_sentence_and_no_file(tmp_path, capsys):
    out = tmp_path / "gone" / "x.pdf"
    assert run(["sheet", DEMO, "--out", str(out), "--view", "parts-list"]) == 2
    assert "“x.pdf” was not saved: there is no such folder" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="whoever may write everywhere cannot be refused")
def test_a_folder_that_cannot_be_written_gets_a_sentence_and_no_file(tmp_path, capsys):
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    assert run(["sheet", DEMO, "--out", str(locked / "x.pdf"), "--view", "parts-list"]) == 2
    assert "read-only" in capsys.readouterr().err
    assert list(locked.iterdir()) == []


def test_an_empty_pack_and_a_letter_that_cannot_be_written_get_a_sentence_and_no_file(tmp_path, capsys):
    file, out = tmp_path / "p.grillestack", tmp_path / "x.pdf"
    write_project(Project(), file)
    assert run(["sheet", str(file), "--out", str(out)]) == 2
    assert "There is nothing to draw" in capsys.readouterr().err
    assert run(["sheet", DEMO, "--out", str(out), "--view", "parts-list", "--date", "漢"]) == 2
    assert "cannot show the letter “漢”" in capsys.readouterr().err
    assert not out.exists()


def test_help_says_what_may_be_typed(capsys):
    assert run(["sheet", "--help"]) == 0
    said = capsys.readouterr().out
    for word in ("--out", "--view", "--paper", "--full-size", "--report"):
        assert word in said
