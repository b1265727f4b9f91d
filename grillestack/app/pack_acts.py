"""What the menus do with the selection: turn, flip, duplicate, remove, select all."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.landing import land_part
from grillestack.app.locked import free_to_move
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.edits import add_part, flip_part, remove_parts, set_nose, turn_part
from grillestack.model.parts import Part
from grillestack.model.values import ModelError
from grillestack.storage.catalogue import CatalogueFileError, save_own_part

BESIDE_MM = 25.0  # far enough to see that there are two


class PackActs:
    """Each act is one step; with nothing to act on it says so."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, part: Part) -> None:
        """Add a part from the shelf where its kind belongs and select it."""
        try:
            project, part_id = land_part(self._session.project, part)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        self._session.apply(f"add {part.name}", project)
        self._session.select([part_id])

    def turn(self, quarter_turns: int = 1) -> None:
        """Turn the selected parts, each about its own centre, by quarters clockwise as seen from ahead."""
        project = self._session.project
        for part_id in free_to_move(self._session, self._parts("turn")):
            project = turn_part(project, part_id, quarter_turns)
        self._session.apply("turn a quarter", project)

    def flip(self) -> None:
        """Flip the selected parts front to back, each where it stands."""
        project = self._session.project
        for part_id in free_to_move(self._session, self._parts("flip")):
            project = flip_part(project, part_id)
        self._session.apply("flip front to back", project)

    def duplicate(self) -> None:
        """Put a copy of each selected part beside it and select the copies."""
        project, copies = self._session.project, []
        try:
            for part_id in self._parts("duplicate"):
                part = project.part(part_id)
                at = part.placement
                beside = replace(at, y_mm=at.y_mm + BESIDE_MM, z_mm=at.z_mm - BESIDE_MM)
                project, copy = add_part(project, replace(part, locked=False, hidden=False), beside)
                copies.append(copy)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        if copies:
            self._session.apply("duplicate", project)
            self._session.select(copies)

    def remove(self) -> None:
        """Remove all that is selected."""
        chosen = self._session.selection
        if not chosen:
            self._session.message.emit("Nothing is selected: click what you want to remove.")
            return
        project = self._session.project
        project = remove_parts(project, [part.id for part in project.parts if part.id in chosen])
        nose = project.nose
        kept = replace(
            nose,
            openings=tuple(o for o in nose.openings if o.id not in chosen),
            obstructions=tuple(o for o in nose.obstructions if o.id not in chosen),
            support_window=None if SUPPORT_WINDOW_ID in chosen else nose.support_window,
        )
        self._session.apply("remove", set_nose(project, kept))

    def put_on_shelf(self) -> tuple[Part, ...]:
        """Save a copy of each selected part among the user's own and return the copies; trouble is told."""
        saved = []
        for part_id in self._parts("put on the shelf"):
            try:
                saved.append(save_own_part(self._session.project.part(part_id)))
            except CatalogueFileError as error:
                self._session.message.emit(str(error))
        for part in saved:
            self._session.message.emit(f"“{part.name}” is on the shelf now, for this and all other projects.")
        return tuple(saved)

    def select_all(self) -> None:
        """Select all parts of the pack."""
        self._session.select([part.id for part in self._session.project.parts])

    def _parts(self, verb: str) -> list[str]:
        chosen = [part.id for part in self._session.project.parts if part.id in self._session.selection]
        if not chosen:
            self._session.message.emit(f"No part is selected: click the part you want to {verb}.")
        return chosen
