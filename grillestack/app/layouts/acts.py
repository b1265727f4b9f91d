"""What hands do with layouts: copy, take in hand, name, keep one only, remove; each one step that undo takes back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.session import Session
from grillestack.model import variants
from grillestack.model.project import Project
from grillestack.model.values import ModelError


class LayoutActs:
    """Each act is one step; `settle` has what is still being typed count before it."""

    def __init__(self, session: Session, settle: Callable[[], None], show_draft: Callable[[DraftForm], None]) -> None:
        self._session = session
        self._settle = settle
        self._show_draft = show_draft

    def copy(self) -> None:
        """Copy the layout in hand and go on with the copy."""
        before = self._session.project.variant_name
        if self._apply("copy the layout", variants.duplicate_variant):
            copy = self._session.project.variant_name
            self._session.message.emit(f"“{copy}” is in hand now; “{before}” stays as it is.")

    def take_up(self, name: str) -> None:
        """Take that layout in hand."""
        self._apply(f"take up “{name}”", lambda project: variants.switch_variant(project, name))

    def keep_only(self, name: str) -> None:
        """Go on with that layout and drop all others."""
        dropped = len(self._session.project.variants)
        if dropped and self._apply(f"keep only “{name}”", lambda project: variants.adopt_variant(project, name)):
            others = "the other one is" if dropped == 1 else f"{dropped} others are"
            self._session.message.emit(f"“{name}” is the only layout now; {others} gone until you undo.")

    def remove(self, name: str) -> None:
        """Remove that layout."""
        if self._apply(f"remove “{name}”", lambda project: variants.remove_variant(project, name)):
            now = self._session.project.variant_name
            self._session.message.emit(f"“{name}” is gone until you undo; “{now}” is in hand.")

    def rename(self) -> None:
        """Ask for a name of the layout in hand and for a note on it."""
        self._settle()
        project = self._session.project
        name, note = project.variant_name, project.variant_note_text

        def take(values: Mapping[str, Any]) -> None:
            now = variants.rename_variant(self._session.project, self._session.project.variant_name, values["name"])
            # A line cannot hold the line ends of a longer note: what nobody changed stays as it was.
            if values["note"] != _in_one_line(note):
                now = variants.note_variant(now, values["note"])
            self._session.apply("name the layout", now)

        wanted = (
            Wanted(key="name", label="Name", initial=name),
            Wanted(key="note", label="Note", initial=_in_one_line(note)),
        )
        self._show_draft(DraftForm("Layout in hand", wanted, self._session.units, take, words_to_take="Take over"))

    def _apply(self, label: str, edit: Callable[[Project], Project]) -> bool:
        self._session.end_trial()
        self._settle()
        try:
            self._session.apply(label, edit(self._session.project))
        except ModelError as error:
            self._session.message.emit(str(error))
            return False
        return True


def _in_one_line(text: str) -> str:
    return " ".join(text.split())
