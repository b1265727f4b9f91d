"""The one undo command: it swaps whole documents, which share what did not change."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QUndoCommand

from grillestack.model.project import Project

_COMMAND_ID = 1  # Qt offers two commands for merging only if their ids are equal and not -1


class ReplaceProject(QUndoCommand):
    """Puts one document in the place of another; steps with the same merge key become one, a step to nowhere none."""

    def __init__(
        self, label: str, old: Project, new: Project, show: Callable[[Project], None], merge_key: str | None = None
    ) -> None:
        super().__init__(label)
        self.old = old
        self.new = new
        self._show = show
        self.merge_key = merge_key

    def redo(self) -> None:
        """Show the new document."""
        self._show(self.new)

    def undo(self) -> None:
        """Show the old document."""
        self._show(self.old)

    def id(self) -> int:
        """Return the id by which Qt finds commands that may merge."""
        return _COMMAND_ID

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take the later step into this one if both carry the same key; say whether it was taken."""
        if not isinstance(other, ReplaceProject) or self.merge_key is None or other.merge_key != self.merge_key:
            return False
        self.new = other.new
        self.setObsolete(self.new == self.old)
        return True
