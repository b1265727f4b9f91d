"""What the window works on: document, trial, assessment, selection, units and undo, told to all views by signals."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from grillestack.app.undo import ReplaceProject
from grillestack.model.project import Project

if TYPE_CHECKING:  # the scientific core is handed in, so that the window can paint before it is loaded
    from grillestack.assess.result import Assessment
    from grillestack.units.display import DecimalMark, UnitSystem

_log = logging.getLogger(__name__)

AssessFunction: TypeAlias = "Callable[[Project, Assessment | None], Assessment]"

SUPPORT_WINDOW_ID = "support-window"  # the nose has at most one, so the document gives it no id


class Session(QObject):
    """Owns the document and what follows from it; views listen and never know each other.

    When a signal goes out, project, shown, assessment and selection already agree with each other. `stayed`
    carries the ids of locked parts that a hand tried to move.
    """

    project_changed = Signal(object, object)
    assessment_changed = Signal(object)
    selection_changed = Signal(object)
    units_changed = Signal(object)
    file_changed = Signal(object)
    clean_changed = Signal(bool)
    message = Signal(str)
    stayed = Signal(object)

    def __init__(
        self,
        assess: AssessFunction | None,
        units: UnitSystem,
        project: Project | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._assess = assess
        self._units = units
        self._project = project or Project()
        self._trial: Project | None = None
        self._path: Path | None = None
        self._selection: tuple[str, ...] = ()
        self._base_assessment = self._assessed(self._project, None)
        self._assessment = self._base_assessment
        self.undo_stack = QUndoStack(self)
        self.undo_stack.cleanChanged.connect(self.clean_changed)

    @property
    def project(self) -> Project:
        """Return the committed document."""
        return self._project

    @property
    def shown(self) -> Project:
        """Return the trial if a gesture is under way, else the document."""
        return self._project if self._trial is None else self._trial

    @property
    def in_trial(self) -> bool:
        """Return whether a gesture shows a trial at the moment."""
        return self._trial is not None

    @property
    def assessment(self) -> Assessment | None:
        """Return the assessment of what is shown; nothing means that it could not be computed."""
        return self._assessment

    @property
    def base_assessment(self) -> Assessment | None:
        """Return the assessment of the document, with which a drag compares."""
        return self._base_assessment

    @property
    def selection(self) -> tuple[str, ...]:
        """Return the ids of the selected parts, openings and obstructions."""
        return self._selection

    @property
    def units(self) -> UnitSystem:
        """Return the system in which figures are shown."""
        return self._units

    @property
    def path(self) -> Path | None:
        """Return the file of the document, or nothing if it has none yet."""
        return self._path

    @property
    def is_clean(self) -> bool:
        """Return whether the document is as saved."""
        return self.undo_stack.isClean()

    def use_core(self, assess: AssessFunction) -> None:
        """Assess with this from now on, and what is shown at once; before, nothing is known."""
        self._assess = assess
        self._base_assessment = self._assessed(self._project, None)
        self._assessment = self._base_assessment if self._trial is None else self._assessed(self._trial, None)
        self.assessment_changed.emit(self._assessment)

    def apply(self, label: str, project: Project, merge_key: str | None = None) -> None:
        """Make this the document in one undo step; no step if nothing changed, the last step's if the key is equal."""
        if project == self._project:
            self.end_trial()
            return
        self.undo_stack.push(ReplaceProject(label, self._project, project, self._show_document, merge_key))

    def try_project(self, project: Project) -> None:
        """Show a trial and its assessment, without an undo step."""
        if project == self._project:
            self.end_trial()
            return
        old = self.shown
        self._trial = project
        self._assessment = self._assessed(project, self._assessment)
        self._announce(old)

    def end_trial(self) -> None:
        """Show the document again."""
        if self._trial is None:
            return
        old = self._trial
        self._trial = None
        self._assessment = self._base_assessment
        self._announce(old)

    def select(self, ids: Sequence[str]) -> None:
        """Select those parts, openings and obstructions; ids that are not there are dropped, twins too."""
        known = _known_ids(self.shown)
        wanted = tuple(dict.fromkeys(i for i in ids if i in known))
        if wanted != self._selection:
            self._selection = wanted
            self.selection_changed.emit(wanted)

    def set_units(self, system: UnitSystem) -> None:
        """Show figures in that system from now on, with the decimal mark as it is."""
        wanted = system.with_mark(self._units.mark)
        if wanted != self._units:
            self._units = wanted
            self.units_changed.emit(wanted)

    def set_decimal_mark(self, mark: DecimalMark) -> None:
        """Show figures with that decimal mark from now on."""
        wanted = self._units.with_mark(mark)
        if wanted != self._units:
            self._units = wanted
            self.units_changed.emit(wanted)

    def open_project(self, project: Project, path: Path | None, *, saved: bool = True) -> None:
        """Put another document here, with no steps to undo; `saved=False` for one that no file holds yet."""
        old = self.shown
        self._project = project
        self._trial = None
        self._base_assessment = self._assessed(project, None)
        self._assessment = self._base_assessment
        self._path = path
        self.undo_stack.clear()
        if not saved:
            self.undo_stack.resetClean()
        self._announce(old)
        self.file_changed.emit(path)
        self.clean_changed.emit(self.is_clean)

    def mark_saved(self, path: Path) -> None:
        """Remember that the document, as it is now, is in that file."""
        self._path = path
        self.undo_stack.setClean()
        self.file_changed.emit(path)

    def _show_document(self, project: Project) -> None:
        old = self.shown
        # A committed document is assessed cold, so that terminal and window agree to the last digit.
        self._project = project
        self._trial = None
        self._base_assessment = self._assessed(project, None)
        self._assessment = self._base_assessment
        self._announce(old)

    def _announce(self, old: Project) -> None:
        known = _known_ids(self.shown)
        kept = tuple(i for i in self._selection if i in known)
        lost_some = kept != self._selection
        self._selection = kept
        self.project_changed.emit(old, self.shown)
        self.assessment_changed.emit(self._assessment)
        if lost_some:
            self.selection_changed.emit(kept)

    def _assessed(self, project: Project, previous: Assessment | None) -> Assessment | None:
        if self._assess is None:
            return None
        try:
            return self._assess(project, previous)
        except Exception:  # noqa: BLE001  whatever fails in there, the work on screen must stay
            _log.exception("the assessment failed")
            self.message.emit("This pack could not be assessed, so its verdict is not known; your work is kept.")
            return None


def _known_ids(project: Project) -> frozenset[str]:
    nose = project.nose
    ids = [p.id for p in project.parts] + [o.id for o in nose.openings] + [o.id for o in nose.obstructions]
    return frozenset([*ids, SUPPORT_WINDOW_ID] if nose.support_window else ids)
