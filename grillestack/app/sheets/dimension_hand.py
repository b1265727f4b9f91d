"""A dimension moved by hand over the paper, switched off and on, put back: each gesture one step that undo takes back."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DimensionShift
from grillestack.model.sheet_edits import (
    move_dimension,
    put_all_back,
    put_dimension_back,
    shift_of,
    switch_dimension,
)
from grillestack.model.values import ModelError
from grillestack.sheets.draw_list import Point

_LEAST_MM = 0.3  # a click is no move


class DimensionHand(QObject):
    """Holds at most one dimension; while it does, `shifts` are those of the trial, and the document is as it was."""

    changed = Signal()

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._key = ""
        self._from = Point(0.0, 0.0)
        self._trial: Project | None = None
        session.project_changed.connect(lambda _old, _new: self._follow())

    @property
    def is_busy(self) -> bool:
        """Return whether a dimension is held."""
        return bool(self._key)

    @property
    def shifts(self) -> tuple[DimensionShift, ...]:
        """Return what was done to dimensions, with the move under way."""
        return (self._trial or self._session.project).sheet.shifts

    def is_shifted(self, key: str) -> bool:
        """Return whether a hand did anything to that dimension."""
        return shift_of(self._session.project.sheet, key) != DimensionShift(key=key)

    def begin(self, key: str, at: Point) -> None:
        """Take hold of that dimension at this place of the paper."""
        self._key, self._from, self._trial = key, at, None

    def update(self, at: Point) -> None:
        """Carry it there."""
        if not self._key:
            return
        dx, dy = at.x_mm - self._from.x_mm, at.y_mm - self._from.y_mm
        if self._trial is None and max(abs(dx), abs(dy)) < _LEAST_MM:
            return
        try:
            self._trial = move_dimension(self._session.project, self._key, dx, dy)
        except ModelError:
            return  # further than any paper reaches: it stays where it was last
        self.changed.emit()

    def finish(self) -> None:
        """Leave it there, as one step."""
        trial, self._trial, self._key = self._trial, None, ""
        if trial is not None:
            self._session.apply("move a dimension", trial)

    def cancel(self) -> None:
        """Put it back where the hand took it."""
        self._trial, self._key = None, ""
        self.changed.emit()

    def nudge(self, key: str, dx_mm: float, dy_mm: float) -> None:
        """Move it by so much; steps that follow each other are one for undo."""
        self._apply(
            "move a dimension", lambda project: move_dimension(project, key, dx_mm, dy_mm), merge_key=f"nudge {key}"
        )

    def switch(self, key: str) -> None:
        """Switch it off, or on again."""
        is_off = shift_of(self._session.project.sheet, key).is_off
        label = "put a dimension on the sheet" if is_off else "switch a dimension off"
        self._apply(label, lambda project: switch_dimension(project, key, is_on=is_off))

    def put_back(self, key: str) -> None:
        """Put it where and as the drawing has it."""
        self._apply("put a dimension back", lambda project: put_dimension_back(project, key))

    def put_all_back(self) -> None:
        """Put every dimension where and as the drawing has it."""
        self._apply("put all dimensions back", put_all_back)

    def _apply(self, label: str, edit: Callable[[Project], Project], merge_key: str | None = None) -> None:
        self.cancel()
        try:
            self._session.apply(label, edit(self._session.project), merge_key)
        except ModelError as error:
            self._session.message.emit(str(error))

    def _follow(self) -> None:
        """Let go if the document changed under the hand."""
        self._key, self._trial = "", None
        self.changed.emit()
