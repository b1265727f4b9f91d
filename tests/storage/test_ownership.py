"""A second window on the same file learns of the first; a lock ends with its owner, however that one ends."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from grillestack.storage import ownership
from grillestack.storage.ownership import (
    Claim,
    HeldBy,
    begin_session,
    claim_file,
    one_at_a_time,
    session_is_alive,
)
from grillestack.storage.places import state_folder

CHECKOUT = Path(__file__).resolve().parents[2]

posix = pytest.mark.skipif(os.name != "posix", reason="links and locks of POSIX")

OWNER = """
import sys
from pathlib import Path
from grillestack.storage.ownership import begin_session, claim_file
claim, session = claim_file(Path(sys.argv[1])), begin_session()
print(session.id, type(claim).__name__, flush=True)
sys.stdin.read()
"""


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "nose.grillestack"
    path.write_text("x", encoding="utf-8")
    return path


@pytest.fixture
def other_window(file):
    """Return another process that has claimed the file and a session, and the id of that session."""
    with subprocess.Popen(
        [sys.executable, "-c", OWNER, str(file)],
        cwd=CHECKOUT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as owner:
        assert owner.stdout is not None
        session_id, claimed = owner.stdout.readline().split()
        assert claimed == "Claim"
        yield owner, session_id
        owner.kill()


def _locks() -> list[str]:
    return sorted(path.name for path in (state_folder() / "locks").iterdir())


def test_the_first_window_gets_the_file_and_the_second_learns_whose_it_is(file):
    claim = claim_file(file)
    assert isinstance(claim, Claim)
    assert claim_file(file) == HeldBy(process=os.getpid())
    claim.release()


@posix
def test_a_lock_file_removed_between_opening_and_locking_is_not_taken_for_the_lock(file, monkeypatch):
    lock, removed = ownership._lock, []

    def lock_late(descriptor, *, wait):
        if not removed:
            # The last owner gives the file back just now: what was opened has no name any more.
            removed.extend(_locks())
            (state_folder() / "locks" / removed[0]).unlink()
        lock(descriptor, wait=wait)

    monkeypatch.setattr(ownership, "_lock", lock_late)
    claim = claim_file(file)
    assert isinstance(claim, Claim)
    assert len(removed) == 1
    assert isinstance(claim_file(file), HeldBy)
    claim.release()


def test_a_released_file_can_be_claimed_again_and_no_lock_is_left_behind(file):
    claim_file(file).release()
    again = claim_file(file)
    assert isinstance(again, Claim)
    again.release()
    assert _locks() == []


def test_releasing_twice_takes_nothing_from_the_next_owner(file):
    first = claim_file(file)
    first.release()
    second = claim_file(file)
    first.release()
    assert isinstance(claim_file(file), HeldBy)
    second.release()


def test_two_files_of_one_name_in_two_folders_are_two_files(file, tmp_path):
    (tmp_path / "other").mkdir()
    first, second = claim_file(file), claim_file(tmp_path / "other" / file.name)
    assert isinstance(first, Claim)
    assert isinstance(second, Claim)
    first.release()
    second.release()


@posix
def test_a_link_leads_to_the_same_file(file, tmp_path):
    (tmp_path / "link").symlink_to(file)
    claim = claim_file(tmp_path / "link")
    assert isinstance(claim_file(file), HeldBy)
    claim.release()


def test_a_file_that_was_never_saved_can_be_claimed_too(tmp_path):
    claim = claim_file(tmp_path / "new.grillestack")
    assert isinstance(claim, Claim)
    claim.release()


def test_another_process_holds_its_file_and_session_until_it_is_killed(file, other_window):
    owner, session_id = other_window
    assert claim_file(file) == HeldBy(process=owner.pid)
    assert session_is_alive(session_id)
    owner.kill()
    owner.wait()
    claim = claim_file(file)
    assert isinstance(claim, Claim)
    assert not session_is_alive(session_id)
    claim.release()


def test_a_process_that_ends_by_itself_gives_its_claims_back(file, other_window):
    owner, session_id = other_window
    owner.stdin.close()
    owner.wait()
    assert isinstance(claim_file(file), Claim)
    assert not session_is_alive(session_id)


def test_a_lock_file_with_the_number_of_a_living_process_is_no_lock(file):
    # After a reboot numbers are given out anew: only the system's own lock counts.
    claim = claim_file(file)
    (name,) = _locks()
    claim.release()
    (state_folder() / "locks" / name).write_text(str(os.getpid()), encoding="ascii")
    again = claim_file(file)
    assert isinstance(again, Claim)
    again.release()


@posix
@pytest.mark.parametrize("content", [b"", b"none of yours", b"\xff"])
def test_a_damaged_lock_file_hides_the_owner_but_not_that_there_is_one(file, content):
    claim = claim_file(file)
    (name,) = _locks()
    (state_folder() / "locks" / name).write_bytes(content)
    assert claim_file(file) == HeldBy(process=None)
    claim.release()


def test_a_session_is_alive_until_its_claim_is_released():
    session = begin_session()
    assert session_is_alive(session.id)
    session.claim.release()
    assert not session_is_alive(session.id)
    assert not session_is_alive(session.id)


def test_sessions_have_ids_of_their_own():
    sessions = [begin_session() for _ in range(20)]
    assert len({session.id for session in sessions}) == 20
    for session in sessions:
        session.claim.release()


@posix
def test_where_the_system_has_no_locks_nobody_is_said_to_own_anything(file, monkeypatch):
    session = begin_session()

    def none(*_args):
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    monkeypatch.setattr(ownership.fcntl, "flock", none)
    with pytest.raises(OSError, match="No locks"):
        claim_file(file)
    assert not session_is_alive(session.id)
    session.claim.release()


def test_one_at_a_time_lets_no_change_get_lost(tmp_path):
    counter = tmp_path / "counter"
    counter.write_text("0", encoding="ascii")

    def count():
        for _ in range(50):
            with one_at_a_time("counter"):
                counter.write_text(str(int(counter.read_text(encoding="ascii")) + 1), encoding="ascii")

    windows = [threading.Thread(target=count) for _ in range(4)]
    for window in windows:
        window.start()
    for window in windows:
        window.join()
    assert counter.read_text(encoding="ascii") == "200"
