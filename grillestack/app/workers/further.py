"""When are the further questions asked, and which answers belong to what is shown: the window's side of the second process."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import TYPE_CHECKING, Final, Protocol

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal, SignalInstance

from grillestack.app.session import Session
from grillestack.app.workers.course import Course, course_of
from grillestack.app.workers.messages import (
    Answer,
    Ask,
    AskPlaces,
    Failure,
    FromWorker,
    Progress,
    Question,
    Stop,
    ToWorker,
)
from grillestack.app.workers.standing import NOT_ASKED, Stage, Standing
from grillestack.model.edits import set_photo
from grillestack.model.project import Project

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.app.workers.answers import Result
    from grillestack.assess.result import Assessment, CaseResult

_log = logging.getLogger(__name__)

IDLE_MS: Final = 300
_MOST_ENDS: Final = 2

BROKE_OFF: Final = "The calculation broke off, so this is not known; the verdict above is not touched by that."
NO_PROCESS: Final = (
    "The process that works this out has ended twice; it is tried again after the next change of the pack."
)
GAVE_UP: Final = (
    "Where the degrees go, how sure the day is, what to change first and the course over time are not known: the process that "
    "works them out has ended twice. The verdict is not touched by that."
)
NO_CASE: Final = "The pack cannot be judged: see the findings."


class Worker(Protocol):
    """What answers: the second process, or something in its place."""

    @property
    def said(self) -> SignalInstance:
        """Emitted with each message it says."""

    @property
    def ended(self) -> SignalInstance:
        """Emitted if it ends without being asked to."""

    def start(self) -> None:
        """Begin to answer."""

    def say(self, message: ToWorker) -> None:
        """Ask, or ask no longer."""

    def close(self) -> None:
        """End for good."""

    def deleteLater(self) -> None:
        """Go when the event loop comes round."""


class Further(QObject):
    """Asks about the deciding case of each committed document, and knows how each question stands.

    A drag asks nothing: while a trial is shown every question is *working*, and after it the answers of the document, which went
    on in the meantime, are there again.
    """

    changed = Signal(object)  # Question
    complained = Signal(str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._make: Callable[[], Worker] | None = None
        self._unpack: Callable[[Question, msgspec.Raw], Result] | None = None
        self._worker: Worker | None = None
        self._ends = 0
        self._has_complained = False
        self._document: Project | None = None
        self._assessed: Assessment | None = None
        self._was_trial = False
        self._wished: Course | None = None
        self._number = 0
        self._open: dict[Question, int] = {}
        self._aside: dict[int, Callable[[FromWorker], None]] = {}
        self._standing: dict[Question, Standing] = {}
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(IDLE_MS)
        self._idle.timeout.connect(self.ask)
        session.assessment_changed.connect(lambda _assessment: self._follow())
        session.units_changed.connect(lambda _units: self._ask_again(Question.CHANGES))
        session.file_changed.connect(lambda _path: self._forget_the_old())

    @property
    def case(self) -> CaseResult | None:
        """Return the duty case that is asked about, if there is one to judge."""
        deciding = self._assessed.deciding_case if self._assessed else None
        return deciding if deciding and deciding.verdict.value != "unknown" else None

    @property
    def course(self) -> Course | None:
        """Return the duty cases between which the course over time goes."""
        return course_of(self._assessed, self._wished) if self._assessed else None

    def standing(self, question: Question) -> Standing:
        """Return how that question stands for what is shown."""
        found = self._standing.get(question, NOT_ASKED)
        if self._session.in_trial and found is not NOT_ASKED:
            return Standing(stage=Stage.WORKING, result=found.result)
        return found

    def start(self, make: Callable[[], Worker], unpack: Callable[[Question, msgspec.Raw], Result]) -> None:
        """Begin to ask; `make` gives a worker, and another one should it end."""
        self._make, self._unpack = make, unpack
        self._launch()
        self._begin_anew()

    def choose_course(self, course: Course) -> None:
        """Let the course over time go between these duty cases from now on."""
        if course != self.course:
            self._wished = course
            self._ask_again(Question.OVER_TIME)

    def ask(self) -> None:
        """Ask everything about the document now."""
        self._idle.stop()
        if self._make is None:
            return
        self._ends = 0
        if self._worker is None:
            self._launch()
        for question in Question:
            self._ask(question)

    def ask_places(
        self, project: Project, part_id: str, hear: Callable[[FromWorker], None], *, is_held: bool
    ) -> int | None:
        """Ask where that core would do better, and return the question's number; nothing if nobody is there to answer.

        `hear` is told of progress, then of the answer or failure; after `stop_places` of nothing more.
        """
        if self._worker is None:
            return None
        self._number += 1
        self._aside[self._number] = hear
        asked = _without_photo(project)
        self._worker.say(AskPlaces(number=self._number, project=asked, part_id=part_id, is_held=is_held))
        return self._number

    def stop_places(self, number: int) -> None:
        """Want the answer to that question no longer."""
        if self._aside.pop(number, None) is not None and self._worker is not None:
            self._worker.say(Stop(number=number))

    def close(self) -> None:
        """Ask nothing more and end the worker."""
        self._idle.stop()
        self._make = None
        self._open.clear()
        self._aside.clear()
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()
            worker.deleteLater()

    def _follow(self) -> None:
        session = self._session
        turned = session.in_trial != self._was_trial
        self._was_trial = session.in_trial
        if session.project is not self._document or session.base_assessment is not self._assessed:
            self._begin_anew()
        elif turned:
            self._tell(*Question)

    def _begin_anew(self) -> None:
        """Let every answer go that is not of this document."""
        self._document, self._assessed = self._session.project, self._session.base_assessment
        for question in tuple(self._open):
            self._stop(question)
        if self._make is None:
            return
        if self.case is None:
            self._idle.stop()
            told = Standing(stage=Stage.NOT_KNOWN, reason=_why_no_case(self._assessed))
            self._standing = dict.fromkeys(Question, told)
        else:
            self._standing = {one: _worked_at(self._standing.get(one, NOT_ASKED)) for one in Question}
            self._idle.start()
        self._tell(*Question)

    def _forget_the_old(self) -> None:
        """Show nothing of a document that is no longer open."""
        for question, found in self._standing.items():
            if found.stage is Stage.WORKING and found.result is not None:
                self._standing[question] = Standing(stage=Stage.WORKING)
                self._tell(question)

    def _ask_again(self, question: Question) -> None:
        if self._document is None or self.case is None or self._make is None:
            return
        self._stop(question)
        self._standing[question] = _worked_at(self._standing.get(question, NOT_ASKED))
        if not self._idle.isActive():
            self._ask(question)
        self._tell(question)

    def _ask(self, question: Question) -> None:
        case, course = self.case, self.course
        if self._document is None or case is None or course is None:
            return
        if self._worker is None:
            self._standing[question] = Standing(stage=Stage.NOT_KNOWN, reason=NO_PROCESS)
            self._tell(question)
            return
        self._number += 1
        self._open[question] = self._number
        self._worker.say(
            Ask(
                number=self._number,
                question=question,
                project=_without_photo(self._document),
                case_id=course.to_id if question is Question.OVER_TIME else case.case_id,
                from_case_id=course.from_id,
                units=self._session.units,
            )
        )

    def _stop(self, question: Question) -> None:
        number = self._open.pop(question, None)
        if number is not None and self._worker is not None:
            self._worker.say(Stop(number=number))

    def _hear(self, message: FromWorker) -> None:
        if message.number in self._aside:
            heard = self._aside[message.number] if isinstance(message, Progress) else self._aside.pop(message.number)
            heard(message)
            return
        question = next((one for one, number in self._open.items() if number == message.number), None)
        if question is None:
            return  # of a document that is no longer current
        if isinstance(message, Progress):
            before = self._standing[question].result
            self._standing[question] = Standing(stage=Stage.WORKING, result=before, share_frac=message.share_frac)
        else:
            del self._open[question]
            self._standing[question] = self._settled(question, message)
        self._tell(question)

    def _settled(self, question: Question, message: Answer | Failure) -> Standing:
        broken = Standing(stage=Stage.NOT_KNOWN, reason=BROKE_OFF)
        if isinstance(message, Failure) or self._unpack is None:
            return broken
        try:
            result = self._unpack(question, message.result)
        except msgspec.DecodeError:
            _log.exception("no answer to %s", question.value)
            return broken
        if result is None:
            return Standing(stage=Stage.NOT_KNOWN, reason=self._why_no_answer(question))
        return Standing(stage=Stage.CURRENT, result=result)

    def _why_no_answer(self, question: Question) -> str:
        course = self.course if question is Question.OVER_TIME else None
        for case in self._assessed.cases if self._assessed and course else ():
            if course and case.case_id in (course.from_id, course.to_id) and case.reasons:
                return case.reasons[0]
        return "One of these duty cases has no answer." if course else NO_CASE

    def _launch(self) -> None:
        if self._make is None:
            return
        worker = self._worker = self._make()
        worker.said.connect(self._hear)
        worker.ended.connect(self._go_on_after_the_end)
        worker.start()

    def _go_on_after_the_end(self) -> None:
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.deleteLater()
        self._ends += 1
        for number, heard in tuple(self._aside.items()):
            del self._aside[number]
            heard(Failure(number=number))
        if self._ends < _MOST_ENDS:
            self._launch()
            for question in tuple(self._open):
                self._ask(question)
            return
        for question in tuple(self._open):
            self._standing[question] = Standing(stage=Stage.NOT_KNOWN, reason=NO_PROCESS)
            self._tell(question)
        self._open.clear()
        if not self._has_complained:
            self._has_complained = True
            self.complained.emit(GAVE_UP)

    def _tell(self, *questions: Question) -> None:
        for question in questions:
            self.changed.emit(question)


def _without_photo(project: Project) -> Project:
    """Return the document as it travels: the photo under the nose is megabytes, and no answer looks at it."""
    return project if project.nose.photo is None else set_photo(project, None)


def _worked_at(before: Standing) -> Standing:
    return Standing(stage=Stage.WORKING, result=before.result)


def _why_no_case(assessment: Assessment | None) -> str:
    reasons = [reason for case in assessment.cases for reason in case.reasons] if assessment else []
    return reasons[0] if reasons else NO_CASE
