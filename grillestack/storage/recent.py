"""Which files were opened last: at most ten, the latest first, only those that are still there."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated, Literal

from msgspec import Meta

from grillestack.model.values import Value
from grillestack.storage.envelope import FileKind, read_file, write_file
from grillestack.storage.ownership import one_at_a_time
from grillestack.storage.places import path_as_text, path_from_text, state_folder
from grillestack.storage.trouble import StoredFileError

MOST = 10

_KIND = FileKind(kind="grillestack recent files", newest_format=1)


class RecentFiles(Value, frozen=True, kw_only=True):
    """What the list holds on disk."""

    kind: Literal["grillestack recent files"] = "grillestack recent files"
    format: Literal[1] = 1
    files: tuple[Annotated[str, Meta(max_length=20_000)], ...] = ()


def recent_files() -> tuple[Path, ...]:
    """Return the files opened last that are still there, the latest first; a damaged list counts as empty."""
    try:
        listed = read_file(_list_path(), _KIND, RecentFiles).files
    except StoredFileError:
        return ()
    paths = dict.fromkeys(path_from_text(text) for text in listed)
    return tuple(path for path in paths if _is_file(path))[:MOST]


def remember_file(path: Path) -> None:
    """Put the file at the head of the list; the list is a convenience, so trouble in writing it passes in silence."""
    latest = Path(os.path.abspath(path))  # noqa: PTH100 - keeps the link the user chose
    try:
        with one_at_a_time("recent"):
            others = [known for known in recent_files() if known != latest]
            kept = tuple(path_as_text(each) for each in [latest, *others][:MOST])
            write_file(_list_path(), _KIND, RecentFiles(files=kept))
    except (OSError, StoredFileError):
        return


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _list_path() -> Path:
    return state_folder() / "recent.json"
