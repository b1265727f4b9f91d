"""How a file is replaced so that at every instant it is whole: the old one or the new one, never a part of either."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import secrets
import stat
import time
from pathlib import Path

LEFTOVER_AGE_S = 600.0


def replace_file(path: Path, content: bytes) -> None:
    """Put this content in the place of the file, keeping its mode; links are followed.

    Raises
    ------
    OSError
        If it cannot be done; the file is then as it was.
    """
    target = Path(os.path.realpath(path))
    mode = _mode_to_keep(target)
    temporary = target.with_name(f"{_prefix(target)}{secrets.token_hex(6)}.tmp")
    descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        try:
            _write_all(descriptor, content)
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
        if mode is not None:
            temporary.chmod(mode)
        temporary.replace(target)
    except BaseException:
        with contextlib.suppress(OSError):
            temporary.unlink()
        raise
    _sync_folder(target.parent)


def sweep_leftovers(path: Path, older_than_s: float = LEFTOVER_AGE_S) -> None:
    """Remove what writers of this file left beside it when they were killed; younger ones may still be at work."""
    target = Path(os.path.realpath(path))
    prefix = _prefix(target)
    with contextlib.suppress(OSError), os.scandir(target.parent) as entries:
        for entry in entries:
            if entry.name.startswith(prefix) and entry.name.endswith(".tmp"):
                with contextlib.suppress(OSError):
                    if time.time() - entry.stat(follow_symlinks=False).st_mtime > older_than_s:
                        Path(entry.path).unlink()


def _prefix(target: Path) -> str:
    # A digest, because the file's own name may already be as long as the file system allows.
    return f".grillestack-{hashlib.sha256(os.fsencode(target.name)).hexdigest()[:12]}-"


def _mode_to_keep(target: Path) -> int | None:
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
    if not stat.S_ISREG(found.st_mode):
        raise OSError(errno.EINVAL, os.strerror(errno.EINVAL), str(target))
    # Replacing needs only a writable folder, so a file marked as read-only would be lost without this look.
    if not found.st_mode & 0o222 or not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(target))
    return stat.S_IMODE(found.st_mode)


def _write_all(descriptor: int, content: bytes) -> None:
    rest = memoryview(content)
    while rest:
        rest = rest[os.write(descriptor, rest) :]


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    # Some network file systems cannot sync a folder; the file itself is safe by then.
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
