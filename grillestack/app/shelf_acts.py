"""What hands do with the shelf: add a part to the pack, put copies on it, rename and take off the user's own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from grillestack.app.own_parts import own_size_starters, shelf_parts
from grillestack.app.pack_acts import PackActs
from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.panels.shelf import Shelf
from grillestack.app.session import Session
from grillestack.model.parts import Part
from grillestack.model.values import ModelError
from grillestack.storage.catalogue import CatalogueFileError, own_parts, remove_own_part, rename_own_part, save_own_part

Answer = tuple[str, Callable[[], None]]
Say = Callable[[str, Sequence[Answer]], None]


class ShelfActs:
    """Each act keeps shelf and catalogue alike; trouble with the catalogue's file is told in a sentence."""

    def __init__(self, session: Session, shelf: Shelf, acts: PackActs, say: Say) -> None:
        self._session = session
        self._shelf = shelf
        self._acts = acts
        self._say = say

    def add(self, part_id: str) -> None:
        """Put the part of that id into the pack."""
        part = self._shelf.find_part(part_id)
        if part is not None:
            self._acts.add(part)

    def put_copies(self) -> None:
        """Put a copy of each selected part on the shelf."""
        if self._acts.put_on_shelf():
            self.refresh()

    def refresh(self) -> None:
        """Show what the catalogues now hold."""
        parts, complaints = shelf_parts()
        self._shelf.show_parts((*parts, *own_size_starters()))
        for sentence in complaints:
            self._say(sentence, ())

    def is_own(self, part_id: str) -> bool:
        """Return whether the part is one of the user's own; a catalogue that cannot be read holds none."""
        try:
            return any(part.id == part_id for part in own_parts())
        except CatalogueFileError:
            return False

    def lines_for(self, part_id: str, show_draft: Callable[[DraftForm], None]) -> list[Answer]:
        """Return what can be done with a part of the shelf: words and act."""
        lines: list[Answer] = [("Put it into the pack", lambda: self.add(part_id))]
        if self.is_own(part_id):
            lines.append(("Rename it…", lambda: self.ask_name(part_id, show_draft)))
            lines.append(("Take it off the shelf", lambda: self.remove(part_id)))
        return lines

    def ask_name(self, part_id: str, show_draft: Callable[[DraftForm], None]) -> None:
        """Ask for another name of an own part."""
        part = self._shelf.find_part(part_id)
        if part is None:
            return

        def take(values: Mapping[str, Any]) -> None:
            try:
                rename_own_part(part_id, values["name"])
            except CatalogueFileError as error:
                raise ModelError("name", str(error)) from error
            self.refresh()

        note = "On the shelf only: parts that are in a pack already keep their names."
        wanted = (Wanted(key="name", label="Name", initial=part.name),)
        show_draft(
            DraftForm("Rename an own part", wanted, self._session.units, take, words_to_take="Rename", note=note)
        )

    def remove(self, part_id: str) -> None:
        """Take an own part off the shelf; packs that have it keep it, and it can be put back."""
        try:
            part = remove_own_part(part_id)
        except CatalogueFileError as error:
            self._say(str(error), ())
            return
        self.refresh()
        self._say(
            f"“{part.name}” is off the shelf. Packs that have it keep it.",
            [("Put it back", lambda: self._put_back(part))],
        )

    def _put_back(self, part: Part) -> None:
        try:
            save_own_part(part)
        except CatalogueFileError as error:
            self._say(str(error), ())
            return
        self.refresh()
