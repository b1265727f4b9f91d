"""Copying, cutting and pasting parts, also between two windows: the clipboard holds them as text."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QMimeData
from PySide6.QtGui import QGuiApplication

from grillestack.app.pack_acts import BESIDE_MM, PackActs
from grillestack.app.session import Session
from grillestack.model.edits import add_part
from grillestack.model.parts import Part, Placement
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.storage.parts_text import PartsTextError, parts_from_text, parts_to_text

PARTS_MIME = "application/x-grillestack-parts"
_SAME_MM = 1.0
_MOST_STEPS = 200


class ClipboardActs:
    """Each act is one step, and says so where there is nothing to act on."""

    def __init__(self, session: Session, acts: PackActs) -> None:
        self._session = session
        self._acts = acts

    def copy(self) -> bool:
        """Put the selected parts on the clipboard; say whether there were any."""
        chosen = [part for part in self._session.project.parts if part.id in self._session.selection]
        if not chosen:
            self._session.message.emit("No part is selected: click the part you want to copy.")
            return False
        text = parts_to_text(chosen)
        data = QMimeData()
        data.setData(PARTS_MIME, text.encode("utf-8"))
        data.setText(text)
        QGuiApplication.clipboard().setMimeData(data)
        what = f"“{chosen[0].name}”" if len(chosen) == 1 else f"{len(chosen)} parts"
        self._session.message.emit(f"{what} copied: paste here or in another window.")
        return True

    def cut(self) -> None:
        """Put the selected parts on the clipboard and take them out of the pack."""
        if self.copy():
            parts = {part.id for part in self._session.project.parts}
            # Only parts can be pasted again: what is of the nose stays.
            self._session.select([name for name in self._session.selection if name in parts])
            self._acts.remove()

    def paste(self) -> None:
        """Add the parts of the clipboard under new ids, beside what stands in their place, and select them."""
        project, added = self._session.project, []
        try:
            parts = parts_from_text(_text_on_clipboard())
            step = _free_step(project, parts)
            for part in parts:
                project, name = add_part(project, replace(part, locked=False, hidden=False), _beside(part, step))
                added.append(name)
        except (PartsTextError, ModelError) as error:
            self._session.message.emit(str(error))
            return
        self._session.apply("paste", project)
        self._session.select(added)


def _text_on_clipboard() -> str:
    data = QGuiApplication.clipboard().mimeData()
    if data is None:
        return ""  # type: ignore[unreachable]  # Qt's words for an empty clipboard on some systems; its stubs do not know
    if data.hasFormat(PARTS_MIME):
        return bytes(data.data(PARTS_MIME).data()).decode("utf-8", "replace")
    return data.text() if data.hasText() else ""


def _free_step(project: Project, parts: tuple[Part, ...]) -> int:
    """Return by how many steps aside all must go so that none stands just where another part is."""
    taken = [part.placement for part in project.parts]
    for step in range(_MOST_STEPS):
        if not any(_same_place(_beside(part, step), at) for part in parts for at in taken):
            return step
    return _MOST_STEPS


def _beside(part: Part, step: int) -> Placement:
    at = part.placement
    return replace(at, y_mm=at.y_mm + step * BESIDE_MM, z_mm=at.z_mm - step * BESIDE_MM)


def _same_place(a: Placement, b: Placement) -> bool:
    return all(abs(p - q) < _SAME_MM for p, q in ((a.x_mm, b.x_mm), (a.y_mm, b.y_mm), (a.z_mm, b.z_mm)))
