"""Unsaved work of a window that is no more is offered again, and no file of the user's is ever touched."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
from msgspec.structs import replace

from grillestack.model.project import Project
from grillestack.storage.autosave import (
    Recovery,
    RecoveryError,
    discard_recovery,
    pending_recoveries,
    write_recovery,
)
from grillestack.storage.ownership import begin_session
from grillestack.storage.places import state_folder
from grillestack.storage.project_file import read_project, write_project
from tests.model.examples import a_full_project

CHECKOUT = Path(__file__).resolve().parents[2]
SAVED, EDITED = a_full_project(), replace(a_full_project(), title="edited")
YEAR_NS = 365 * 24 * 3600 * 10**9


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "nose.grillestack"
    write_project(SAVED, path)
    return path


def _recovery_files() -> list[Path]:
    return sorted((state_folder() / "recovery").iterdir())


def _shift(path: Path, by_ns: int) -> None:
    now = path.stat().st_mtime_ns
    os.utime(path, ns=(now + by_ns, now + by_ns))


def test_without_a_crash_nothing_is_offered():
    assert pending_recoveries() == ()


def test_edited_work_of_a_dead_window_is_offered_with_the_file_it_belongs_to(file):
    write_recovery(EDITED, file, "0a")
    (offered,) = pending_recoveries()
    assert isinstance(offered, Recovery)
    assert (offered.project, offered.original) == (EDITED, file)
    assert offered.written_at_s == offered.path.stat().st_mtime


def test_the_users_file_and_its_folder_are_not_touched(file):
    before = (file.read_bytes(), file.stat().st_mtime_ns, [p.name for p in file.parent.iterdir()])
    write_recovery(EDITED, file, "0a")
    pending_recoveries()
    assert (file.read_bytes(), file.stat().st_mtime_ns, [p.name for p in file.parent.iterdir()]) == before


def test_work_that_was_never_saved_is_offered_without_a_file():
    write_recovery(EDITED, None, "0a")
    (offered,) = pending_recoveries()
    assert offered.original is None
    assert offered.project == EDITED


def test_an_untouched_new_project_is_not_offered():
    write_recovery(Project(), None, "0a")
    assert pending_recoveries() == ()


def test_what_equals_the_saved_file_is_not_offered_and_removed(file):
    write_recovery(SAVED, file, "0a")
    assert pending_recoveries() == ()
    assert _recovery_files() == []


def test_what_is_older_than_a_later_save_is_not_offered_but_kept_for_a_month(file):
    write_recovery(EDITED, file, "0a")
    write_project(replace(SAVED, title="saved later"), file)
    _shift(file, 10**9)
    assert pending_recoveries() == ()
    (kept,) = _recovery_files()
    _shift(kept, -YEAR_NS)
    assert pending_recoveries() == ()
    assert _recovery_files() == []


def test_an_offer_that_nobody_answered_for_a_year_still_stands(file):
    write_recovery(EDITED, file, "0a")
    _shift(_recovery_files()[0], -YEAR_NS)
    # The user's file did not change since, so the recovery is the newer one whatever the clocks say.
    assert [offered.project for offered in pending_recoveries()] == [EDITED]


def test_a_file_dated_by_a_clock_ahead_of_ours_hides_nothing(file):
    _shift(file, YEAR_NS)
    write_recovery(EDITED, file, "0a")
    assert [offered.project for offered in pending_recoveries()] == [EDITED]


def test_work_on_a_file_that_is_gone_or_damaged_since_is_offered(file):
    write_recovery(EDITED, file, "0a")
    file.write_bytes(file.read_bytes()[:500])
    _shift(file, -(10**9))
    assert [offered.project for offered in pending_recoveries()] == [EDITED]
    file.unlink()
    assert [offered.project for offered in pending_recoveries()] == [EDITED]


def test_the_work_of_a_living_window_is_left_alone_until_that_window_ends(file):
    session = begin_session()
    write_recovery(EDITED, file, session.id)
    assert pending_recoveries() == ()
    session.claim.release()
    assert [offered.project for offered in pending_recoveries()] == [EDITED]


KILLED = """
import os, signal, sys
from pathlib import Path
from msgspec.structs import replace
from grillestack.storage.autosave import write_recovery
from grillestack.storage.ownership import begin_session
from grillestack.storage.project_file import read_project
path = Path(sys.argv[1])
session = begin_session()
write_recovery(replace(read_project(path), title="edited"), path, session.id)
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
def test_the_work_of_a_killed_program_comes_back_whole(file):
    done = subprocess.run([sys.executable, "-c", KILLED, str(file)], cwd=CHECKOUT, check=False, timeout=60)
    assert done.returncode == -9
    (offered,) = pending_recoveries()
    assert (offered.project, offered.original) == (EDITED, file)
    assert read_project(file) == SAVED


def test_each_window_has_its_own_recovery_and_the_latest_is_offered_first(file):
    write_recovery(EDITED, file, "0a")
    write_recovery(replace(EDITED, title="other"), None, "0b")
    for age, path in enumerate(_recovery_files()):
        os.utime(path, (1_000 - age, 1_000 - age))
    os.utime(file, (10, 10))
    assert [offered.project.title for offered in pending_recoveries()] == ["edited", "other"]


def test_a_window_keeps_one_recovery_only_the_last(file):
    for title in ("one", "two", "three"):
        write_recovery(replace(EDITED, title=title), file, "0a")
    assert [offered.project.title for offered in pending_recoveries()] == ["three"]
    assert len(_recovery_files()) == 1


def test_a_recovery_is_discarded_by_its_session_or_as_it_was_offered(file):
    write_recovery(EDITED, file, "0a")
    write_recovery(EDITED, file, "0b")
    discard_recovery("0a")
    (offered,) = pending_recoveries()
    discard_recovery(offered)
    discard_recovery(offered)
    assert pending_recoveries() == ()
    assert _recovery_files() == []


@pytest.mark.parametrize("content", [b"", b"{", b"\x00", b'{"kind": "grillestack project", "format": 1}'])
def test_a_damaged_recovery_spoils_nothing(file, content):
    write_recovery(EDITED, file, "0a")
    (state_folder() / "recovery" / "0b.grillestack").write_bytes(content)
    assert [offered.project for offered in pending_recoveries()] == [EDITED]
    assert len(_recovery_files()) == 2


def test_a_recovery_that_cannot_be_written_is_told_and_the_one_before_stays(file, monkeypatch):
    write_recovery(EDITED, file, "0a")

    def full(*_args):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(RecoveryError, match="the disk is full"):
            write_recovery(SAVED, file, "0a")
    assert [offered.project for offered in pending_recoveries()] == [EDITED]


def test_a_state_folder_that_cannot_be_made_is_told(file):
    state_folder().parent.mkdir(parents=True)
    state_folder().write_text("a file where the folder should be", encoding="utf-8")
    with pytest.raises(RecoveryError, match="was not saved"):
        write_recovery(EDITED, file, "0a")


@pytest.mark.skipif(os.name != "posix", reason="names that are no text")
def test_a_file_whose_name_is_no_text_is_found_again(tmp_path):
    path = tmp_path / os.fsdecode(b"\xff.grillestack")
    write_project(SAVED, path)
    write_recovery(EDITED, path, "0a")
    assert [offered.original for offered in pending_recoveries()] == [path]


def test_the_file_is_found_again_from_any_working_folder(file, monkeypatch):
    monkeypatch.chdir(file.parent)
    write_recovery(EDITED, Path(file.name), "0a")
    monkeypatch.chdir(CHECKOUT)
    assert [offered.original for offered in pending_recoveries()] == [file]
