"""The files opened last: at most ten, only existing ones, and a damaged list harms nobody."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from grillestack.storage import recent
from grillestack.storage.places import state_folder
from grillestack.storage.recent import recent_files, remember_file


@pytest.fixture
def files(tmp_path):
    paths = [tmp_path / f"{number}.grillestack" for number in range(12)]
    for path in paths:
        path.write_text("x", encoding="utf-8")
    return paths


def test_at_first_there_are_none():
    assert recent_files() == ()


def test_the_latest_comes_first_and_each_stands_once(files):
    for path in (files[0], files[1], files[2], files[0]):
        remember_file(path)
    assert recent_files() == (files[0], files[2], files[1])


def test_at_most_ten_are_kept(files):
    for path in files:
        remember_file(path)
    assert recent_files() == tuple(reversed(files[2:]))


def test_opening_a_known_file_again_pushes_no_other_off_the_list(files):
    for path in (*files[:10], files[9], files[9]):
        remember_file(path)
    assert set(recent_files()) == set(files[:10])


def test_files_that_are_gone_and_folders_are_left_out(files, tmp_path):
    for path in (files[0], files[1], tmp_path):
        remember_file(path)
    files[1].unlink()
    assert recent_files() == (files[0],)


def test_a_file_named_from_a_working_folder_is_found_from_another(files, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    remember_file(Path(files[0].name))
    monkeypatch.chdir("/")
    assert recent_files() == (files[0],)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"\xff",
        b"[]",
        b'{"kind": "grillestack recent files", "format": 1, "files": [3]}',
        b'{"files": ["a\\u0000b"]}',
    ],
)
def test_a_damaged_list_counts_as_empty_and_is_replaced(files, content):
    remember_file(files[0])
    (state_folder() / "recent.json").write_bytes(content)
    assert recent_files() == ()
    remember_file(files[1])
    assert recent_files() == (files[1],)


def test_a_path_that_no_system_takes_is_left_out(files):
    remember_file(files[0])
    path = state_folder() / "recent.json"
    path.write_text(path.read_text(encoding="utf-8").replace(".grillestack", "%00"), encoding="utf-8")
    assert recent_files() == ()


def test_a_list_that_cannot_be_written_passes_in_silence(files, monkeypatch):
    remember_file(files[0])

    def full(*_args):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        remember_file(files[1])
    assert recent_files() == (files[0],)


def test_where_there_are_no_locks_the_list_still_reads(files, monkeypatch):
    remember_file(files[0])

    def none(_name):
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    monkeypatch.setattr(recent, "one_at_a_time", none)
    remember_file(files[1])
    assert recent_files() == (files[0],)
