"""Who works on what just now: locks that the system itself takes back when their owner ends, however it ends.

A lock is a small file in the state folder, held by the system's own file lock. A killed owner, a reboot or a process
number given out anew therefore leave nothing that looks like an owner. It holds among the windows of one user on one
machine; it does not see another machine on a shared disk.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import secrets
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from grillestack.storage.places import state_folder

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

# Windows locks bytes and then lets nobody read them, so the lock lies far behind the owner's number.
_LOCKED_BYTE = 1_000_000

# What the systems answer when somebody else holds the lock; anything else means that there are no locks here.
_HELD = (errno.EAGAIN, errno.EACCES, errno.EDEADLK)


class Claim:
    """A lock that is held until `release`, or until its process ends."""

    __slots__ = ("_descriptor", "_lock_file")

    def __init__(self, lock_file: Path, descriptor: int) -> None:
        self._lock_file = lock_file
        self._descriptor: int | None = descriptor

    def release(self) -> None:
        """Give the lock back; doing so again has no effect."""
        descriptor, self._descriptor = self._descriptor, None
        if descriptor is not None:
            # Removed while still held: nobody else can hold it yet, and whoever opened it meanwhile looks again.
            with contextlib.suppress(OSError):
                self._lock_file.unlink()
            os.close(descriptor)


@dataclass(frozen=True, slots=True)
class HeldBy:
    """Somebody else holds the lock; the process number is `None` where it could not be read."""

    process: int | None


@dataclass(frozen=True, slots=True)
class Session:
    """One running window; its recoveries are left alone while it holds its claim."""

    id: str
    claim: Claim


def claim_file(path: Path) -> Claim | HeldBy:
    """Return the claim on that file of the user's, or who works on it already.

    Raises
    ------
    OSError
        If there are no locks here or the state folder cannot be written; work may go on without the warning then.
    """
    named = os.path.normcase(os.path.realpath(path))
    return _claim(f"file-{hashlib.sha256(os.fsencode(named)).hexdigest()[:32]}")


def begin_session() -> Session:
    """Return a new session whose claim lasts until it is released or its process ends; raises as `claim_file`."""
    while True:
        session_id = secrets.token_hex(8)
        claim = _claim(f"session-{session_id}")
        if isinstance(claim, Claim):
            return Session(session_id, claim)


def session_is_alive(session_id: str) -> bool:
    """Return whether the process of that session still runs; where there are no locks, nobody is known to."""
    if not _lock_file(f"session-{session_id}").exists():
        return False
    try:
        claim = _claim(f"session-{session_id}")
    except OSError:
        return False
    if isinstance(claim, HeldBy):
        return True
    claim.release()
    return False


@contextlib.contextmanager
def one_at_a_time(name: str) -> Iterator[None]:
    """Let one window at a time read, change and write back a file that all windows share; the others wait."""
    lock_file = _lock_file(f"turn-{name}")
    lock_file.parent.mkdir(parents=True, exist_ok=True)
    descriptor = _opened(lock_file)
    try:
        _lock(descriptor, wait=True)
        yield
    finally:
        os.close(descriptor)


def _claim(name: str) -> Claim | HeldBy:
    lock_file = _lock_file(name)
    lock_file.parent.mkdir(parents=True, exist_ok=True)
    while True:
        descriptor = _opened(lock_file)
        try:
            _lock(descriptor, wait=False)
        except OSError as error:
            holder = _process_in(descriptor)
            os.close(descriptor)
            if error.errno in _HELD:
                return HeldBy(holder)
            raise
        # The last owner may have removed the file between our opening and our locking it.
        if _still_there(descriptor, lock_file):
            os.ftruncate(descriptor, 0)
            os.write(descriptor, str(os.getpid()).encode("ascii"))
            return Claim(lock_file, descriptor)
        os.close(descriptor)


def _lock_file(name: str) -> Path:
    return state_folder() / "locks" / f"{name}.lock"


def _opened(lock_file: Path) -> int:
    return os.open(lock_file, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o600)


def _still_there(descriptor: int, lock_file: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(descriptor), lock_file.stat())
    except FileNotFoundError:
        return False


def _process_in(descriptor: int) -> int | None:
    os.lseek(descriptor, 0, os.SEEK_SET)
    digits = os.read(descriptor, 20)
    return int(digits) if digits.isdigit() else None


def _lock(descriptor: int, *, wait: bool) -> None:
    if sys.platform == "win32":
        os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_LOCK if wait else msvcrt.LK_NBLCK, 1)
        os.lseek(descriptor, 0, os.SEEK_SET)
    else:
        fcntl.flock(descriptor, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
