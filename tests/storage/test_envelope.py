"""All files say what they are; what is something else, too new, too large or no file at all is told in a sentence."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path

import msgspec
import pytest

from grillestack.storage import envelope
from grillestack.storage.atomic import sweep_leftovers
from grillestack.storage.envelope import FileKind, decoded, encoded, read_file, write_file
from grillestack.storage.trouble import StoredFileError

posix = pytest.mark.skipif(os.name != "posix", reason="pipes and modes of POSIX")


class NoteError(StoredFileError):
    pass


class Note(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    kind: str = "test note"
    format: int = 3
    text: str = ""


KIND = FileKind(kind="test note", newest_format=3, error=NoteError, steps={1: dict, 2: dict})


def _refusal(content: bytes) -> str:
    with pytest.raises(NoteError) as refused:
        decoded(Path("/a/b.note"), content, KIND, Note)
    assert refused.value.path == Path("/a/b.note")
    return str(refused.value)


def test_what_was_written_is_read_back(tmp_path):
    write_file(tmp_path / "a", KIND, Note(text="½\n"))
    assert read_file(tmp_path / "a", KIND, Note) == Note(text="½\n")


def test_files_are_indented_and_end_with_a_newline():
    assert encoded(Note(text="a")) == b'{\n  "kind": "test note",\n  "format": 3,\n  "text": "a"\n}\n'


def test_earlier_formats_are_read_as_well():
    assert decoded(Path("a"), b'{"kind": "test note", "format": 1, "text": "a"}', KIND, Note) == Note(text="a")


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        ({"kind": "other", "format": 3}, "it is a “other”, not a “test note”, so choose another file"),
        ({"format": 3}, "it does not say that it is a “test note”"),
        ({"kind": 3, "format": 3}, "it does not say that it is a “test note”"),
        ({"kind": "test note"}, "its “format” must be a whole number from 1 to 3"),
        ({"kind": "test note", "format": True}, "its “format” must be a whole number from 1 to 3"),
        ({"kind": "test note", "format": "3"}, "its “format” must be a whole number from 1 to 3"),
        ({"kind": "test note", "format": 0}, "its “format” must be a whole number from 1 to 3"),
        ({"kind": "test note", "format": 2.0}, "its “format” must be a whole number from 1 to 3"),
        (
            {"kind": "test note", "format": 4, "unheard": []},
            "it has format 4, but this program reads formats up to 3, so open it with a newer grillestack",
        ),
        ({"kind": "test note", "format": 3, "more": 1}, "“more” is a field this program does not know"),
    ],
)
def test_a_file_that_is_something_else_is_told_so(data, reason):
    sentence = _refusal(json.dumps(data).encode())
    assert sentence.startswith("“b.note” cannot be opened: ")
    assert reason in sentence


def test_a_list_is_no_file_of_ours():
    assert "it does not say that it is a “test note”" in _refusal(b"[1]")


def test_damage_is_told_with_the_name_of_the_file():
    assert (
        _refusal(b'{"kind": "test no') == "“b.note” cannot be opened: it is cut off in line 1, so take an earlier copy."
    )


def _unread(path: Path) -> str:
    with pytest.raises(NoteError) as refused:
        read_file(path, KIND, Note)
    return str(refused.value)


def test_a_missing_file_a_folder_and_a_name_with_a_nought_are_told(tmp_path):
    assert "there is no such file" in _unread(tmp_path / "none")
    assert "it is a folder" in _unread(tmp_path)
    assert "no file name may hold" in _unread(tmp_path / "a\0b")
    assert "its name is too long" in _unread(tmp_path / ("n" * 300))


@posix
def test_a_link_to_itself_and_a_pipe_are_told_without_waiting(tmp_path):
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    os.mkfifo(tmp_path / "pipe")
    assert "leads back to itself" in _unread(tmp_path / "loop")
    assert "no ordinary file" in _unread(tmp_path / "pipe")
    assert "no ordinary file" in _unread(Path(os.devnull))


def test_a_file_one_may_not_read_is_told(tmp_path, monkeypatch):
    (tmp_path / "a").write_bytes(encoded(Note()))

    def refuse(*_args, **_kwargs):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    # By a patch, as tests may run as a user who may read everything.
    monkeypatch.setattr(Path, "open", refuse)
    assert "you have no permission to read it" in _unread(tmp_path / "a")


def test_a_file_of_more_than_fifty_megabytes_is_refused_before_it_is_decoded(tmp_path):
    with (tmp_path / "big").open("wb") as stream:
        stream.truncate(50_000_001)
    assert "it would be 50 MB and the most is 50 MB" in _unread(tmp_path / "big")
    with (tmp_path / "big").open("wb") as stream:
        stream.truncate(3_000_000_000)
    assert "it would be 3000 MB" in _unread(tmp_path / "big")


def test_a_file_that_would_be_too_large_is_not_written(tmp_path, monkeypatch):
    monkeypatch.setattr(envelope, "LARGEST_BYTES", 100)
    with pytest.raises(NoteError, match="was not saved"):
        write_file(tmp_path / "a", KIND, Note(text="x" * 100))
    assert list(tmp_path.iterdir()) == []


def test_what_could_not_be_read_again_is_not_written_and_the_old_file_stays(tmp_path):
    write_file(tmp_path / "a", KIND, Note(text="old"))
    with pytest.raises(NoteError, match="was not saved, as it could not be read again"):
        write_file(tmp_path / "a", KIND, Note(text=5))
    with pytest.raises(NoteError, match="would not read back the same"):
        write_file(tmp_path / "a", KIND, Note(format=1, text="new"))
    assert read_file(tmp_path / "a", KIND, Note).text == "old"


@pytest.mark.parametrize(
    ("code", "reason"), [(errno.ENOSPC, "the disk is full"), (errno.EROFS, "read-only"), (errno.EIO, "the system says")]
)
def test_a_write_that_fails_is_told_and_the_old_file_stays(tmp_path, monkeypatch, code, reason):
    write_file(tmp_path / "a", KIND, Note(text="old"))

    def fail(*_args, **_kwargs):
        raise OSError(code, os.strerror(code))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fail)
        with pytest.raises(NoteError, match=reason):
            write_file(tmp_path / "a", KIND, Note(text="new"))
    assert read_file(tmp_path / "a", KIND, Note).text == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


def test_opening_sweeps_what_a_killed_writer_left_long_ago(tmp_path, monkeypatch):
    path = tmp_path / "a"
    write_file(path, KIND, Note())
    with monkeypatch.context() as patched:
        patched.setattr(os, "replace", lambda *_args, **_kwargs: None)
        write_file(path, KIND, Note())
    (left,) = [entry for entry in tmp_path.iterdir() if entry != path]
    sweep_leftovers(path)
    assert left.exists()
    os.utime(left, (0, 0))
    read_file(path, KIND, Note)
    assert list(tmp_path.iterdir()) == [path]
