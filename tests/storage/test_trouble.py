"""What the system refuses is told in one sentence with the file, the reason and a remedy."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from grillestack.storage.trouble import quoted, shown_name, why_not_read, why_not_written

FILE = Path("/some/where/nose.grillestack")


@pytest.mark.parametrize(
    ("code", "reason"),
    [
        (errno.ENOENT, "there is no such file"),
        (errno.EISDIR, "it is a folder"),
        (errno.EACCES, "no permission to read"),
        (errno.ENAMETOOLONG, "its name is too long"),
        (errno.ELOOP, "leads back to itself"),
        (errno.EIO, "the system says"),
    ],
)
def test_reading(code, reason):
    sentence = why_not_read(FILE, OSError(code, os.strerror(code)))
    assert sentence.startswith("“nose.grillestack” cannot be opened: ")
    assert reason in sentence
    assert sentence.endswith(".")
    assert ", so " in sentence


@pytest.mark.parametrize(
    ("code", "reason"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EDQUOT, "the disk is full"),
        (errno.EFBIG, "larger than the system allows"),
        (errno.ENOENT, "there is no such folder"),
        (errno.EISDIR, "there is a folder of that name"),
        (errno.EROFS, "read-only"),
        (errno.EACCES, "read-only"),
        (errno.EINVAL, "no ordinary file"),
        (errno.EIO, "the system says"),
    ],
)
def test_writing(code, reason):
    sentence = why_not_written(FILE, OSError(code, os.strerror(code)))
    assert sentence.startswith("“nose.grillestack” was not saved: ")
    assert reason in sentence
    assert sentence.endswith(".")
    assert ", so " in sentence


def test_an_error_without_a_number_is_told_in_its_own_words():
    assert "the system says “strange”" in why_not_read(FILE, OSError("strange"))


def test_a_name_no_system_takes_is_told_as_such():
    assert "no file name may hold" in why_not_read(Path("a\0b"), ValueError("embedded null byte"))


def test_long_and_many_lined_texts_are_quoted_on_one_short_line():
    assert quoted("a\n b\t c") == "“a b c”"
    assert quoted("x" * 500) == f"“{'x' * 59}…”"
    assert quoted("a\x1b[31m") == "“a�[31m”"


def test_a_file_name_that_is_no_text_can_still_be_shown():
    name = shown_name(Path(os.fsdecode(b"\xff.grillestack")))
    assert name == "“�.grillestack”"
    name.encode("utf-8")


def test_the_root_has_a_name_too():
    assert shown_name(Path("/")) == "“/”"
