"""What menus, lists and the message strip do to lock, unlock, hide and show parts."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.app.session import Session
from grillestack.model.parts import Part
from grillestack.model.states import set_hidden, set_locked


class StateActs:
    """Each act is one step; with nothing to act on it says so."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def toggle_locked(self, ids: Sequence[str] | None = None) -> None:
        """Lock those parts, or the selected ones; unlock them if all are locked."""
        parts = self._parts("lock", ids)
        if parts:
            locked = not all(part.locked for part in parts)
            self._lock([part.id for part in parts], locked=locked)

    def unlock(self, ids: Sequence[str]) -> None:
        """Let those parts be moved again."""
        there = [part.id for part in self._session.project.parts if part.id in ids]
        self._lock(there, locked=False)

    def toggle_hidden(self, ids: Sequence[str] | None = None) -> None:
        """Hide those parts, or the selected ones; show them if all are hidden."""
        parts = self._parts("hide", ids)
        if parts:
            hidden = not all(part.hidden for part in parts)
            changed = set_hidden(self._session.project, [part.id for part in parts], hidden=hidden)
            self._session.apply(f"{'hide' if hidden else 'show'} {_what(parts)}", changed)

    def show_all(self) -> None:
        """Draw all hidden parts again."""
        hidden = [part for part in self._session.project.parts if part.hidden]
        if not hidden:
            self._session.message.emit("No part is hidden.")
            return
        changed = set_hidden(self._session.project, [part.id for part in hidden], hidden=False)
        self._session.apply(f"show {_what(hidden)}", changed)

    def _lock(self, ids: Sequence[str], *, locked: bool) -> None:
        parts = [part for part in self._session.project.parts if part.id in ids]
        changed = set_locked(self._session.project, ids, locked=locked)
        self._session.apply(f"{'lock' if locked else 'unlock'} {_what(parts)}", changed)

    def _parts(self, verb: str, ids: Sequence[str] | None) -> list[Part]:
        wanted = self._session.selection if ids is None else ids
        parts = [part for part in self._session.project.parts if part.id in wanted]
        if not parts:
            self._session.message.emit(f"No part is selected: click the part you want to {verb}.")
        return parts


def _what(parts: Sequence[Part]) -> str:
    return parts[0].name if len(parts) == 1 else f"{len(parts)} parts"
