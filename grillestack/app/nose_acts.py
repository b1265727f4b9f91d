"""What the menus do with a selected outline of the nose: mirror it about the centre."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.nose_things import add_thing, find_thing, put_thing, thing_name
from grillestack.app.session import Session
from grillestack.model.mirrored import mirrored_whole, reaches_centre, twin_of
from grillestack.model.nose import NoseThing, SupportWindow
from grillestack.model.values import ModelError


class NoseActs:
    """Each act is one step; with nothing to act on it says so."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def mirror(self) -> None:
        """Make the selected outline symmetrical about the centre, or add its twin on the other side."""
        session = self._session
        thing = find_thing(session.project, session.selection[0]) if len(session.selection) == 1 else None
        if thing is None:
            session.message.emit(
                "Select one opening, obstruction or the support window first: then it can be mirrored."
            )
            return
        try:
            self._join(thing) if reaches_centre(thing.outline) else self._add_twin(thing)
        except ModelError as error:
            session.message.emit(str(error))

    def _join(self, thing: NoseThing) -> None:
        whole = mirrored_whole(thing.outline, thing.corner_radii_mm)
        if whole is None:
            if isinstance(thing, SupportWindow):
                raise ModelError(
                    "outline", "The support window has no side along the centre: pull its corners there first."
                )
            self._add_twin(thing)
            return
        changed = replace(thing, outline=whole.corners, corner_radii_mm=whole.radii_mm)
        self._session.apply(f"mirror {thing_name(thing)}", put_thing(self._session.project, changed))

    def _add_twin(self, thing: NoseThing) -> None:
        if isinstance(thing, SupportWindow):
            raise ModelError(
                "outline",
                "The core support has one window, and this one stands wholly on one side: pull it to the centre line first.",
            )
        twin = twin_of(thing.outline, thing.corner_radii_mm)
        name = f"{thing.name}, other side"
        added = replace(thing, name=name, outline=twin.corners, corner_radii_mm=twin.radii_mm)
        project, identifier = add_thing(self._session.project, added)
        self._session.apply(f"mirror {thing.name}", project)
        self._session.select([identifier])
