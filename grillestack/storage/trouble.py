"""What to tell the user when a file cannot be read or written: one sentence with the file, the reason and the remedy."""

from __future__ import annotations

import errno
import os
from pathlib import Path


class StoredFileError(ValueError):
    """A file could not be read or written; the message is a sentence for the person at the bench."""

    def __init__(self, path: Path, sentence: str) -> None:
        super().__init__(sentence)
        self.path = path


def shown_name(path: Path) -> str:
    """Return the file's name in quotes, fit for a sentence."""
    return quoted(os.fsencode(path.name or str(path)).decode("utf-8", "replace"), limit=120)


def quoted(text: str, limit: int = 60) -> str:
    """Return the text in quotes on one line, shortened if it is long, without letters that cannot be shown."""
    line = " ".join("".join(c if c.isprintable() or c.isspace() else "�" for c in text[: 4 * limit]).split())
    return f"“{line if len(line) <= limit else line[: limit - 1] + '…'}”"


def why_not_read(path: Path, error: OSError | ValueError) -> str:
    """Return the sentence for a file that the system does not let us read."""
    return f"{shown_name(path)} cannot be opened: {_read_reason(error)}."


def why_not_written(path: Path, error: OSError | ValueError) -> str:
    """Return the sentence for a file that the system does not let us write."""
    return f"{shown_name(path)} was not saved: {_write_reason(error)}."


def _read_reason(error: OSError | ValueError) -> str:
    code = error.errno if isinstance(error, OSError) else None
    if code in (errno.ENOENT, errno.ENOTDIR):
        return "there is no such file, so check whether it was moved or renamed"
    if code == errno.EISDIR:
        return "it is a folder, so choose a file inside it"
    if code in (errno.EACCES, errno.EPERM):
        return "you have no permission to read it, so change the permission or copy the file to a folder of yours"
    return _other_reason(error)


def _write_reason(error: OSError | ValueError) -> str:
    code = error.errno if isinstance(error, OSError) else None
    if code in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full, so make room or save to another disk"
    if code == errno.EFBIG:
        return "the file would be larger than the system allows, so save to another disk"
    if code in (errno.ENOENT, errno.ENOTDIR):
        return "there is no such folder, so choose another one"
    if code == errno.EISDIR:
        return "there is a folder of that name, so choose another name"
    if code in (errno.EACCES, errno.EPERM, errno.EROFS):
        return "the file or its folder is read-only, so save under another name or in another folder"
    return _other_reason(error)


def _other_reason(error: OSError | ValueError) -> str:
    code = error.errno if isinstance(error, OSError) else None
    if code == errno.EINVAL:
        return "it is no ordinary file, so choose another one"
    if code == errno.ENAMETOOLONG:
        return "its name is too long, so choose a shorter one"
    if code == errno.ELOOP:
        return "it is a link that leads back to itself, so choose the file it should lead to"
    if isinstance(error, ValueError):
        return "its name holds a letter that no file name may hold, so choose another name"
    reason = str(error) if code is None else os.strerror(code)
    return f"the system says {quoted(reason)}, so try again or use another disk"
