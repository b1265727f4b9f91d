"""What was not saved yet when a window ended without saying goodbye: written beside all user files, offered again.

A recovery is a file in the state folder, one per window, never a file of the user's.
"""

from __future__ import annotations

import contextlib
import os
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

from msgspec import Meta

from grillestack.assets.locate import PROJECT_ENDING
from grillestack.model.project import Project
from grillestack.model.values import Identifier, Value
from grillestack.storage.envelope import FileKind, read_file, write_file
from grillestack.storage.migrations import PROJECT_FORMAT, PROJECT_STEPS
from grillestack.storage.ownership import session_is_alive
from grillestack.storage.places import path_as_text, path_from_text, state_folder
from grillestack.storage.project_file import read_project
from grillestack.storage.trouble import StoredFileError, why_not_written

_OUTLIVED_S = 30 * 24 * 3600.0


class RecoveryError(StoredFileError):
    """A recovery could not be written; the message is a sentence for the person at the bench."""


class RecoveryFile(Value, frozen=True, kw_only=True):
    """What a recovery file holds; `original_state` tells whether the user's file changed since."""

    kind: Literal["grillestack recovery"] = "grillestack recovery"
    format: Literal[1] = 1
    session_id: Identifier
    original: Annotated[str, Meta(max_length=20_000)] | None = None
    original_state: tuple[int, int] | None = None
    project: Project


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovery:
    """Unsaved work of a window that is no more; `original` is `None` if it was never saved under a name."""

    path: Path
    project: Project
    original: Path | None
    written_at_s: float


_KIND = FileKind(kind="grillestack recovery", newest_format=PROJECT_FORMAT, steps=PROJECT_STEPS, error=RecoveryError)


def write_recovery(project: Project, original: Path | None, session_id: str) -> None:
    """Keep the project of this session as it is now; `original` is the user's file, which is not touched.

    Raises
    ------
    RecoveryError
        If it cannot be written; the recovery of before is then still there.
    """
    path = _recovery_path(session_id)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise RecoveryError(path, why_not_written(path, error)) from error
    absolute = None if original is None else Path(os.path.abspath(original))  # noqa: PTH100 - keeps the link the user chose
    held = RecoveryFile(
        session_id=session_id,
        original=None if absolute is None else path_as_text(absolute),
        original_state=None if absolute is None else _state_of(absolute),
        project=project,
    )
    write_file(path, _KIND, held)


def pending_recoveries() -> tuple[Recovery, ...]:
    """Return the unsaved work of windows that are no more, the latest first.

    Each is newer than the user's file and differs from it. One that equals it is removed; one that is older, or that
    cannot be read, is kept for a month but not offered.
    """
    found = [_examined(path) for path in sorted(_folder().glob(f"*{PROJECT_ENDING}"))]
    return tuple(sorted((r for r in found if r is not None), key=lambda r: r.written_at_s, reverse=True))


def discard_recovery(which: str | Recovery) -> None:
    """Remove a recovery, or that of the session with this id, after its work was saved or declined."""
    _remove(_recovery_path(which) if isinstance(which, str) else which.path)


def _examined(path: Path) -> Recovery | None:
    try:
        written_at_s = path.stat().st_mtime
        held = read_file(path, _KIND, RecoveryFile)
    except (OSError, StoredFileError):
        _remove_outlived(path)
        return None
    if session_is_alive(held.session_id):
        return None
    original = None if held.original is None else path_from_text(held.original)
    if held.project == _saved_project(original):
        _remove(path)
        return None
    if original is not None and not _is_newer(written_at_s, held, original):
        _remove_outlived(path)
        return None
    return Recovery(path=path, project=held.project, original=original, written_at_s=written_at_s)


def _saved_project(original: Path | None) -> Project | None:
    if original is None:
        return Project()
    try:
        return read_project(original)
    except StoredFileError:
        return None


def _is_newer(written_at_s: float, held: RecoveryFile, original: Path) -> bool:
    now = _state_of(original)
    # A clock of another machine may have dated the file; untouched since the recovery was written is newer for sure.
    if now is None or now == held.original_state:
        return True
    return written_at_s >= now[0] / 1e9


def _state_of(original: Path) -> tuple[int, int] | None:
    try:
        found = original.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size


def _remove_outlived(path: Path) -> None:
    with contextlib.suppress(OSError):
        if time.time() - path.stat().st_mtime > _OUTLIVED_S:
            path.unlink()


def _remove(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink()


def _folder() -> Path:
    return state_folder() / "recovery"


def _recovery_path(session_id: str) -> Path:
    return _folder() / f"{session_id}{PROJECT_ENDING}"
