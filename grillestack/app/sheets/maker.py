"""The drawings as the window follows them: asked in a second process, shown as working until current, dropped when stale."""

from __future__ import annotations

import enum
import logging
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

import msgspec
from msgspec.structs import replace
from PySide6.QtCore import QObject, QTimer, Signal

from grillestack.app.session import Session
from grillestack.app.workers.further import Worker
from grillestack.app.workers.messages import Answer, AskSheets, FromWorker, Progress, Stop
from grillestack.model.edits import set_photo
from grillestack.model.project import Project
from grillestack.model.sheet_edits import put_all_back

if TYPE_CHECKING:  # the draw list is loaded with the first answer, or the window would come later for it
    from grillestack.app.workers.sheet_travel import SheetAnswer
    from grillestack.sheets.draw_list import Sheet

_log = logging.getLogger(__name__)

_IDLE_MS = 250
BROKE_OFF = (
    "The drawings could not be made; your work is kept. Change something or open the page again to try once more."
)

Files = Mapping[str, bytes]


class Stage(enum.Enum):
    """How the sheets stand to the document."""

    WORKING = "working"
    CURRENT = "current"
    NONE = "none"


class SheetMaker(QObject):
    """Keeps the sheets of the document, made without the shifts of dimensions: those are done where they are shown."""

    changed = Signal()
    progressed = Signal(float)  # of an export, 0 to 1

    def __init__(self, session: Session, make: Callable[[], Worker], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._make = make
        self._worker: Worker | None = None
        self._number = 0
        self._open: int | None = None
        self._asked: Project | None = None
        self._export: tuple[int, Callable[[Files | None, str], None]] | None = None
        self._follows = False
        self.sheets: tuple[Sheet, ...] = ()
        self.stage = Stage.NONE
        self.trouble = ""
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(_IDLE_MS)
        self._idle.timeout.connect(self._ask)
        session.project_changed.connect(lambda _old, _new: self._follow())

    def begin(self) -> None:
        """Make the sheets now, and anew after each change of the document."""
        self._follows = True
        self._follow()
        if self._idle.isActive():
            self._ask()

    def rest(self) -> None:
        """Follow the document no longer; an export goes on."""
        self._follows = False
        self._idle.stop()
        self._drop()

    def close(self) -> None:
        """Make nothing more and end the second process."""
        self._follows = False
        self._idle.stop()
        self._open, self._export, self._asked = None, None, None
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()
            worker.deleteLater()

    def export(self, ending: str, done: Callable[[Files | None, str], None]) -> None:
        """Have files of that ending made of the document as it is; `done` gets them, or the sentence why there are none."""
        self.stop_export()
        self._number += 1
        self._export = (self._number, done)
        self._say(AskSheets(number=self._number, project=_without_photo(self._session.project), ending=ending))

    def stop_export(self) -> None:
        """Want no files any more."""
        if self._export is not None:
            number, self._export = self._export[0], None
            self._say(Stop(number=number))

    def _follow(self) -> None:
        if not self._follows or self._session.in_trial:
            return
        wanted = _to_draw(self._session.project)
        if wanted == self._asked:
            return
        self._drop()
        self._asked = wanted
        self.stage = Stage.WORKING
        self._idle.start()
        self.changed.emit()

    def _ask(self) -> None:
        self._idle.stop()
        if self._asked is None:
            return
        self._number += 1
        self._open = self._number
        self._say(AskSheets(number=self._number, project=self._asked))

    def _drop(self) -> None:
        """Let what is being worked out go."""
        number, self._open = self._open, None
        if self.stage is Stage.WORKING:
            self._asked = None
        if number is not None:
            self._say(Stop(number=number))

    def _say(self, message: AskSheets | Stop) -> None:
        if self._worker is None:
            if isinstance(message, Stop):
                return
            worker = self._worker = self._make()
            worker.said.connect(self._hear)
            worker.ended.connect(self._break_off)
            worker.start()
        self._worker.say(message)

    def _hear(self, message: FromWorker) -> None:
        if self._export is not None and message.number == self._export[0]:
            self._hear_of_export(message)
        elif message.number == self._open and not isinstance(message, Progress):
            self._open = None
            from grillestack.app.workers.sheet_travel import unpacked_sheets

            answer = _unpacked(message)
            self.trouble = BROKE_OFF if answer is None else answer.trouble
            try:
                self.sheets = () if answer is None else unpacked_sheets(answer.sheets)
            except msgspec.DecodeError:
                _log.exception("sheets that are none")
                self.sheets, self.trouble = (), BROKE_OFF
            self.stage = Stage.NONE if self.trouble else Stage.CURRENT
            self.changed.emit()

    def _hear_of_export(self, message: FromWorker) -> None:
        if self._export is None:
            return
        if isinstance(message, Progress):
            self.progressed.emit(message.share_frac)
            return
        done, self._export = self._export[1], None
        answer = _unpacked(message)
        if answer is None:
            done(None, BROKE_OFF)
        else:
            done(None if answer.trouble else answer.files, answer.trouble)

    def _break_off(self) -> None:
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()
            worker.deleteLater()
        if self._export is not None:
            done, self._export = self._export[1], None
            done(None, BROKE_OFF)
        if self.stage is Stage.WORKING:
            self._open, self._asked = None, None
            self.sheets, self.trouble, self.stage = (), BROKE_OFF, Stage.NONE
            self.changed.emit()


def _unpacked(message: FromWorker) -> SheetAnswer | None:
    from grillestack.app.workers.sheet_travel import SheetAnswer

    if not isinstance(message, Answer):
        return None
    try:
        return msgspec.json.decode(message.result, type=SheetAnswer | None)
    except msgspec.DecodeError:
        _log.exception("no answer about sheets")
        return None


def _without_photo(project: Project) -> Project:
    return project if project.nose.photo is None else set_photo(project, None)


def _to_draw(project: Project) -> Project:
    """Return what the drawings follow from: a photo is not drawn, nor do other layouts matter."""
    return replace(put_all_back(_without_photo(project)), variants=())
