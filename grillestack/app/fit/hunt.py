"""The search as the window follows it: asked in a second process of its own, row by row, until done, stopped or stale."""

from __future__ import annotations

import enum
import logging
from collections.abc import Callable

import msgspec
from PySide6.QtCore import QObject, Signal

from grillestack.app.workers.fit_rows import FitList, FitRow
from grillestack.app.workers.further import Worker
from grillestack.app.workers.messages import NOTHING, Answer, AskFit, Failure, FromWorker, Stop
from grillestack.fit.slots import Slot
from grillestack.model.edits import set_photo
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

_log = logging.getLogger(__name__)


class Stage(enum.Enum):
    """How far the search is."""

    IDLE = "idle"
    LOOKING = "looking"
    ASSESSING = "assessing"
    DONE = "done"
    STOPPED = "stopped"
    BROKEN = "broken"


class FitHunt(QObject):
    """One search at a time; a new one drops the old. Rows come as they are assessed, those that were wished for first."""

    changed = Signal()
    row_changed = Signal(object)  # FitRow

    def __init__(self, make: Callable[[], Worker], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._make = make
        self._worker: Worker | None = None
        self._number = 0
        self._asked: str | None = None  # the catalogue number of the part that is being assessed
        self._waiting: list[str] = []
        self._short: set[str] = set()
        self._document: tuple[Project, Slot, UnitSystem] | None = None
        self._rows: dict[str, FitRow] = {}
        self.found: FitList | None = None
        self.stage = Stage.IDLE

    @property
    def rows(self) -> tuple[FitRow, ...]:
        """Return all rows, best first."""
        return tuple(sorted(self._rows.values(), key=lambda row: (row.order_factor, row.part.id)))

    @property
    def done_count(self) -> int:
        """Return how many of the short list are assessed."""
        return sum(self._rows[part_id].is_assessed for part_id in self._short)

    @property
    def short_count(self) -> int:
        """Return how many are to be assessed."""
        return len(self._short)

    def begin(self, project: Project, slot: Slot, units: UnitSystem) -> None:
        """Look for what fits into that slot of that document."""
        self._drop()
        plain = project if project.nose.photo is None else set_photo(project, None)
        self._document = (plain, slot, units)
        self.found, self._rows, self._waiting, self._short = None, {}, [], set()
        self.stage = Stage.LOOKING
        self._ask(None)
        self.changed.emit()

    def stop(self) -> None:
        """Assess nothing more; what is there stays."""
        if self.stage in (Stage.LOOKING, Stage.ASSESSING):
            self._drop()
            self._waiting = []
            self.stage = Stage.STOPPED
            self.changed.emit()

    def wish(self, part_id: str) -> None:
        """Have that part assessed next, if it is not yet."""
        row = self._rows.get(part_id)
        if row is None or row.is_assessed or part_id == self._asked:
            return
        self._waiting = [part_id, *(one for one in self._waiting if one != part_id)]
        if self._asked is None:
            self._next()

    def close(self) -> None:
        """Ask nothing more and end the second process."""
        self._drop()
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()
            worker.deleteLater()

    def _ask(self, row: FitRow | None) -> None:
        if self._document is None:
            return
        if self._worker is None:
            worker = self._worker = self._make()
            worker.said.connect(self._hear)
            worker.ended.connect(self._break_off)
            worker.start()
        project, slot, units = self._document
        self._number += 1
        self._asked = None if row is None else row.part.id
        fit = NOTHING if row is None else row.fit
        self._worker.say(AskFit(number=self._number, project=project, slot=slot, units=units, fit=fit))

    def _drop(self) -> None:
        """Let what is being worked out go."""
        if self._worker is not None and self.stage in (Stage.LOOKING, Stage.ASSESSING):
            self._worker.say(Stop(number=self._number))
        self._number += 1
        self._asked = None

    def _hear(self, message: FromWorker) -> None:
        if message.number != self._number or self.stage not in (Stage.LOOKING, Stage.ASSESSING):
            return
        if not isinstance(message, Answer):
            if isinstance(message, Failure):
                self._break_off()
            return
        try:
            if self.stage is Stage.LOOKING:
                self._take_list(msgspec.json.decode(message.result, type=FitList))
            else:
                self._take_row(msgspec.json.decode(message.result, type=FitRow))
        except msgspec.DecodeError:
            _log.exception("no answer of the search")
            self._break_off()
            return
        self._next()

    def _take_list(self, found: FitList) -> None:
        self.found = found
        self._rows = {row.part.id: row for row in found.rows}
        self._waiting = [row.part.id for row in found.rows[: found.short_count]]
        self._short = set(self._waiting)
        self.stage = Stage.ASSESSING

    def _take_row(self, row: FitRow) -> None:
        self._rows[row.part.id] = row
        self._asked = None
        self.row_changed.emit(row)

    def _next(self) -> None:
        """Ask for the next part, or be done."""
        if self._waiting:
            self.stage = Stage.ASSESSING
            self._ask(self._rows[self._waiting.pop(0)])
        else:
            self.stage = Stage.DONE
        self.changed.emit()

    def _break_off(self) -> None:
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()
            worker.deleteLater()
        self._asked, self._waiting = None, []
        self.stage = Stage.BROKEN
        self.changed.emit()
