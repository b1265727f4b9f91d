"""The parts that can be put on the shelf: those that come with the program and the user's own."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Literal

from msgspec.structs import replace

from grillestack.assets.locate import MissingResourceError, resource
from grillestack.model.parts import Part, Placement
from grillestack.model.values import Name, Text, Value
from grillestack.storage.envelope import FileKind, read_file, write_file
from grillestack.storage.migrations import CATALOGUE_FORMAT, CATALOGUE_STEPS
from grillestack.storage.ownership import one_at_a_time
from grillestack.storage.places import data_folder
from grillestack.storage.trouble import StoredFileError, quoted, shown_name, why_not_written

OWN_ABOUT = "Own parts, saved from projects."


class CatalogueFileError(StoredFileError):
    """A parts catalogue could not be read or written; the message is a sentence for the person at the bench."""


class CatalogueFile(Value, frozen=True, kw_only=True):
    """Parts for the shelf; a part's id is its catalogue number, and it stands at the origin without turn, flip or tilt."""

    kind: Literal["grillestack parts"] = "grillestack parts"
    format: Literal[1] = 1
    about: Text
    parts: tuple[Part, ...] = ()


CATALOGUE_KIND = FileKind(
    kind="grillestack parts", newest_format=CATALOGUE_FORMAT, steps=CATALOGUE_STEPS, error=CatalogueFileError
)


def load_catalogue() -> tuple[Part, ...]:
    """Return all parts for the shelf: the bundled ones in the order of their files, then the user's own.

    Raises
    ------
    CatalogueFileError
        If a file does not fit, or two parts carry the same id.
    """
    bundled = bundled_parts()
    own = own_parts()
    _refuse_twins(own_parts_path(), bundled, own)
    return bundled + own


def bundled_parts() -> tuple[Part, ...]:
    """Return the parts that come with the program; raises as `load_catalogue`."""
    try:
        folder = resource("catalogue")
    except MissingResourceError as error:
        raise CatalogueFileError(Path("catalogue"), str(error)) from error
    found: tuple[Part, ...] = ()
    for path in sorted(folder.glob("*.json")):
        parts = read_parts(path)
        _refuse_twins(path, found, parts)
        found += parts
    return found


def own_parts() -> tuple[Part, ...]:
    """Return the user's own parts, none if none was saved yet; raises as `load_catalogue`."""
    path = own_parts_path()
    return read_parts(path) if path.exists() else ()


def own_parts_path() -> Path:
    """Return where the user's own parts are kept."""
    return data_folder() / "own_parts.json"


def read_parts(path: Path) -> tuple[Part, ...]:
    """Return the parts of one catalogue file.

    Raises
    ------
    CatalogueFileError
        If the file does not fit.
    """
    parts = read_file(path, CATALOGUE_KIND, CatalogueFile).parts
    _refuse_twins(path, (), parts)
    for part in parts:
        if part.placement != Placement():
            raise CatalogueFileError(
                path,
                f"{shown_name(path)} cannot be opened: the part {quoted(part.name)} already has a place in a vehicle, "
                "so take its “placement” out.",
            )
    return parts


def save_own_part(part: Part) -> Part:
    """Return the part as it now stands among the user's own: at the origin, under its catalogue id.

    A part that has the id of an own part takes that one's place; any other gets a new id made from its name.

    Raises
    ------
    CatalogueFileError
        If it cannot be saved; the own parts are then as they were.
    """
    path = own_parts_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with one_at_a_time("own-parts"):
            own = own_parts()
            at_origin = replace(part, placement=Placement())
            if any(known.id == part.id for known in own):
                saved = at_origin
                after = tuple(saved if known.id == saved.id else known for known in own)
            else:
                saved = replace(at_origin, id=_new_id(part.name, {known.id for known in own}))
                after = (*own, saved)
            write_file(path, CATALOGUE_KIND, CatalogueFile(about=OWN_ABOUT, parts=after))
    except OSError as error:
        raise CatalogueFileError(path, why_not_written(path, error)) from error
    return saved


def remove_own_part(part_id: str) -> Part:
    """Take one of the user's own parts out of the catalogue and return it.

    Raises
    ------
    CatalogueFileError
        If it is not there, or cannot be taken out; the own parts are then as they were.
    """
    return _exchange_own_part(part_id, lambda _part: None)


def rename_own_part(part_id: str, name: Name) -> Part:
    """Give one of the user's own parts another name, and return it as it was; its id stays.

    Raises
    ------
    CatalogueFileError
        If it is not there, or cannot be saved; the own parts are then as they were.
    ModelError
        If it cannot be called that.
    """
    return _exchange_own_part(part_id, lambda part: replace(part, name=name))


def _exchange_own_part(part_id: str, change: Callable[[Part], Part | None]) -> Part:
    """Write the own parts with one of them changed, or left out, and return that one as it was."""
    path = own_parts_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with one_at_a_time("own-parts"):
            own = own_parts()
            before = next((part for part in own if part.id == part_id), None)
            if before is None:
                raise CatalogueFileError(
                    path, "That part is not among your own any more: another window may have taken it off the shelf."
                )
            changed = (change(part) if part is before else part for part in own)
            after = tuple(part for part in changed if part is not None)
            write_file(path, CATALOGUE_KIND, CatalogueFile(about=OWN_ABOUT, parts=after))
    except OSError as error:
        raise CatalogueFileError(path, why_not_written(path, error)) from error
    return before


def _new_id(name: Name, taken: set[str]) -> str:
    # No bundled part's id begins with “own-”, so only the user's own can be in the way.
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    stem = "own-" + (re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60] or "part")
    number = 1
    while (found := stem if number == 1 else f"{stem}-{number}") in taken:
        number += 1
    return found


def _refuse_twins(path: Path, before: Iterable[Part], parts: Iterable[Part]) -> None:
    taken = {part.id for part in before}
    for part in parts:
        if part.id in taken:
            raise CatalogueFileError(
                path,
                f"{shown_name(path)} cannot be opened: the id {quoted(part.id)} of the part {quoted(part.name)} "
                "is in use already, so give the part another id.",
            )
        taken.add(part.id)
