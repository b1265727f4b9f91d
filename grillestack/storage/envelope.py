"""What all our files have in common: a kind, a format, one reader and one writer that never leave a half file."""

from __future__ import annotations

import stat
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from grillestack.storage.atomic import replace_file, sweep_leftovers
from grillestack.storage.json_text import NotJsonError, plain_data
from grillestack.storage.migrations import MigrationError, Step, migrated
from grillestack.storage.misfit import misfit
from grillestack.storage.trouble import StoredFileError, quoted, shown_name, why_not_read, why_not_written

LARGEST_BYTES = 50_000_000

_File = TypeVar("_File", bound=msgspec.Struct)


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """A kind of file: what it calls itself, its newest format, and how earlier formats are brought up to it."""

    kind: str
    newest_format: int
    steps: Mapping[int, Step] = field(default_factory=dict)
    error: type[StoredFileError] = StoredFileError


def read_file(path: Path, kind: FileKind, as_type: type[_File]) -> _File:
    """Return what the file holds.

    Raises
    ------
    StoredFileError
        As the kind's own error: one sentence that names the file, the place in it and the remedy.
    """
    content = _content(path, kind)
    sweep_leftovers(path)
    return decoded(path, content, kind, as_type)


def write_file(path: Path, kind: FileKind, file: msgspec.Struct) -> None:
    """Write the file whole or not at all; what would not read back as the same is refused.

    Raises
    ------
    StoredFileError
        As the kind's own error; the file on disk is then as it was.
    """
    content = encoded(file)
    if len(content) > LARGEST_BYTES:
        raise kind.error(path, f"{shown_name(path)} was not saved: {_too_large(len(content))}.")
    try:
        same = decoded(path, content, kind, type(file)) == file
    except StoredFileError as error:
        raise kind.error(path, f"{shown_name(path)} was not saved, as it could not be read again: {error}") from error
    if not same:
        raise kind.error(
            path, f"{shown_name(path)} was not saved: it would not read back the same, so undo the last edit."
        )
    try:
        replace_file(path, content)
    except (OSError, ValueError) as error:
        raise kind.error(path, why_not_written(path, error)) from error


def encoded(file: msgspec.Struct) -> bytes:
    """Return the bytes of a file: the same for equal contents, indented, with a newline at the end."""
    return msgspec.json.format(msgspec.json.encode(file), indent=2) + b"\n"


def decoded(path: Path, content: bytes, kind: FileKind, as_type: type[_File]) -> _File:
    """Return what these bytes of the file hold; raises as `read_file`."""
    try:
        data = plain_data(content)
    except NotJsonError as error:
        raise kind.error(path, f"{shown_name(path)} cannot be opened: {error}.") from error
    contents = _of_newest_format(path, data, kind)
    try:
        return msgspec.convert(contents, as_type)
    except msgspec.ValidationError as error:
        raise kind.error(path, f"{shown_name(path)} cannot be opened: {misfit(error, contents)}") from error


def _content(path: Path, kind: FileKind) -> bytes:
    try:
        # Looked at before it is opened: opening a pipe would wait for ever.
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise kind.error(path, f"{shown_name(path)} cannot be opened: it is a folder, so choose a file inside it.")
        if not stat.S_ISREG(found.st_mode):
            raise kind.error(
                path, f"{shown_name(path)} cannot be opened: it is no ordinary file, so choose another one."
            )
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except StoredFileError:
        raise
    except (OSError, ValueError) as error:
        raise kind.error(path, why_not_read(path, error)) from error
    if len(content) > LARGEST_BYTES:
        raise kind.error(path, f"{shown_name(path)} cannot be opened: {_too_large(max(found.st_size, len(content)))}.")
    return content


def _too_large(size: int) -> str:
    return f"it would be {size / 1e6:.0f} MB and the most is {LARGEST_BYTES / 1e6:.0f} MB, so take out what it does not need"


def _of_newest_format(path: Path, data: Any, kind: FileKind) -> dict[str, Any]:
    opening = f"{shown_name(path)} cannot be opened: "
    if not isinstance(data, dict) or not isinstance(data.get("kind"), str):
        raise kind.error(path, f"{opening}it does not say that it is a “{kind.kind}”, so choose another file.")
    if data["kind"] != kind.kind:
        raise kind.error(path, f"{opening}it is a {quoted(data['kind'])}, not a “{kind.kind}”, so choose another file.")
    number = data.get("format")
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise kind.error(
            path, f"{opening}its “format” must be a whole number from 1 to {kind.newest_format}, so correct it."
        )
    if number > kind.newest_format:
        raise kind.error(
            path,
            f"{opening}it has format {number}, but this program reads formats up to {kind.newest_format}, "
            "so open it with a newer grillestack.",
        )
    contents = {key: value for key, value in data.items() if key not in ("kind", "format")}
    try:
        contents = migrated(contents, number, kind.newest_format, kind.steps)
    except MigrationError as error:
        raise kind.error(path, f"{opening}{error}, so take an earlier copy.") from error
    return {"kind": kind.kind, "format": kind.newest_format, **contents}
