"""When the further questions are asked, and that no answer is ever shown for a document it does not belong to."""

import functools

import pytest

from grillestack.app.session import Session
from grillestack.app.workers import further as module
from grillestack.app.workers.answers import unpacked
from grillestack.app.workers.course import Course
from grillestack.app.workers.further import BROKE_OFF, GAVE_UP, IDLE_MS, NO_PROCESS, Further
from grillestack.app.workers.messages import Question
from grillestack.app.workers.standing import Stage
from grillestack.assess.assess import assess
from grillestack.model.edits import move_parts, set_engine, set_title
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from tests.app.workers.made import TalkingWorker, band, demo

SURENESS = Question.SURENESS
cached_assess = functools.lru_cache(maxsize=None)(lambda project: assess(project))


class Desk:
    """A session with its further questions, and all workers that were made."""

    def __init__(self, project):
        self.session = Session(lambda each, _previous: cached_assess(each), UnitSystem.METRIC, project)
        self.further = Further(self.session)
        self.workers = []
        self.complaints = []
        self.further.complained.connect(self.complaints.append)

    def start(self):
        self.further.start(self._make, unpacked)

    def _make(self):
        self.workers.append(TalkingWorker())
        return self.workers[-1]

    @property
    def worker(self):
        return self.workers[-1]

    def move(self, dy_mm, project=None):
        return move_parts(project or self.session.project, ["radiator-3"], dy_mm=dy_mm)

    def standing(self, question=SURENESS):
        return self.further.standing(question)

    def idle(self):
        """Let the short idle time be over; nobody waits for it."""
        assert self.further._idle.isActive()
        self.further._idle.timeout.emit()


@pytest.fixture
def desk(qapp):
    made = Desk(demo(1))
    made.start()
    yield made
    made.further.close()


def test_nothing_is_asked_before_it_is_started(qapp):
    desk = Desk(demo(1))
    desk.session.apply("move", desk.move(10))
    assert desk.workers == []
    assert desk.standing().stage is Stage.NOT_KNOWN
    assert not desk.further._idle.isActive()


def test_all_is_asked_once_about_the_deciding_case_after_a_short_idle_time(desk):
    assert desk.worker.is_started
    assert desk.worker.asked == []
    assert (desk.further._idle.interval(), desk.further._idle.isSingleShot()) == (IDLE_MS, True)
    assert desk.standing().stage is Stage.WORKING
    desk.idle()
    assert [ask.question for ask in desk.worker.asked] == list(Question)
    assert {ask.case_id for ask in desk.worker.asked} == {desk.session.base_assessment.deciding_case.case_id}
    assert all(ask.project is desk.session.project for ask in desk.worker.asked)
    assert not desk.further._idle.isActive()


def test_progress_and_answer_are_shown(desk):
    desk.idle()
    ask = desk.worker.last(SURENESS)
    desk.worker.tell_progress(ask, 0.4)
    assert (desk.standing().stage, desk.standing().share_frac, desk.standing().result) == (Stage.WORKING, 0.4, None)
    desk.worker.answer(ask, band())
    assert desk.standing().is_current
    assert desk.standing().result == band()


def test_a_drag_asks_nothing_and_the_answer_is_there_again_after_it(desk):
    desk.idle()
    ask = desk.worker.last(SURENESS)
    desk.worker.answer(ask, band())
    heard = list(desk.worker.heard)
    for step in range(1, 6):
        desk.session.try_project(desk.move(step))
        assert desk.standing().stage is Stage.WORKING
        assert desk.standing().result == band()
    desk.session.end_trial()
    assert desk.standing().is_current
    assert desk.worker.heard == heard
    assert not desk.further._idle.isActive()


def test_an_answer_that_comes_during_a_drag_belongs_to_the_document_and_is_shown_after_it(desk):
    desk.idle()
    desk.session.try_project(desk.move(5))
    desk.worker.answer(desk.worker.last(SURENESS), band())
    assert desk.standing().stage is Stage.WORKING
    desk.session.end_trial()
    assert desk.standing().is_current


def test_a_committed_change_stops_what_is_open_and_asks_anew_after_the_idle_time(desk):
    desk.idle()
    first = list(desk.worker.asked)
    desk.worker.answer(desk.worker.last(SURENESS), band())
    desk.session.apply("move", desk.move(10))
    answered = next(ask.number for ask in first if ask.question is SURENESS)
    assert sorted(desk.worker.stopped) == sorted(ask.number for ask in first if ask.number != answered)
    assert len(desk.worker.asked) == len(first)
    assert desk.standing().stage is Stage.WORKING
    assert desk.standing().result == band()
    desk.session.apply("move", desk.move(10))
    desk.idle()
    assert len(desk.worker.asked) == 2 * len(first)
    assert desk.worker.asked[-1].project is desk.session.project


def test_answers_of_an_older_document_are_dropped_whenever_they_come(desk):
    desk.idle()
    old = desk.worker.last(SURENESS)
    desk.session.apply("move", desk.move(10))
    desk.worker.answer(old, band(11.0))
    desk.worker.tell_progress(old, 0.9)
    assert (desk.standing().stage, desk.standing().result) == (Stage.WORKING, None)
    desk.idle()
    desk.worker.answer(old, band(11.0))
    assert desk.standing().result is None
    desk.worker.answer(desk.worker.last(SURENESS), band(22.0))
    desk.worker.answer(old, band(11.0))
    assert desk.standing().result == band(22.0)


def test_undo_asks_about_the_document_that_is_back(desk):
    desk.idle()
    before = desk.session.project
    desk.session.apply("move", desk.move(10))
    desk.session.undo_stack.undo()
    desk.idle()
    assert desk.worker.asked[-1].project is before


def test_another_document_shows_nothing_of_the_last_one(desk):
    desk.idle()
    desk.worker.answer(desk.worker.last(SURENESS), band())
    desk.session.open_project(demo(3), None)
    assert (desk.standing().stage, desk.standing().result) == (Stage.WORKING, None)


def test_saving_changes_nothing(desk, tmp_path):
    desk.idle()
    desk.worker.answer(desk.worker.last(SURENESS), band())
    heard = len(desk.worker.heard)
    desk.session.mark_saved(tmp_path / "x.grillestack")
    assert desk.standing().is_current
    assert len(desk.worker.heard) == heard


def test_a_calculation_that_broke_off_is_told_and_the_others_go_on(desk):
    desk.idle()
    desk.worker.fail(desk.worker.last(SURENESS))
    assert (desk.standing().stage, desk.standing().reason) == (Stage.NOT_KNOWN, BROKE_OFF)
    assert desk.standing(Question.DEGREES).stage is Stage.WORKING


def test_an_answer_that_is_none_of_its_kind_is_told_as_broken_off(desk, caplog):
    desk.idle()
    desk.worker.answer(desk.worker.last(SURENESS), {"case_name": 7})
    assert desk.standing().reason == BROKE_OFF
    assert "no answer" in caplog.text


def test_a_pack_that_cannot_be_judged_asks_nothing_and_says_why(desk):
    engine = desk.session.project.engine
    desk.idle()
    count = len(desk.worker.asked)
    blank = type(engine)()
    desk.session.apply("clear", set_engine(desk.session.project, blank))
    assert not desk.further._idle.isActive()
    reasons = [reason for case in desk.session.base_assessment.cases for reason in case.reasons]
    for question in Question:
        assert desk.standing(question).stage is Stage.NOT_KNOWN
        assert desk.standing(question).result is None
        assert desk.standing(question).reason == reasons[0]
    assert len(desk.worker.asked) == count


def test_an_empty_project_is_not_known(qapp):
    desk = Desk(Project())
    desk.start()
    assert desk.standing().stage is Stage.NOT_KNOWN
    assert desk.standing().reason
    desk.further.close()


def test_other_units_ask_for_the_changes_alone_because_they_are_told_in_words(desk):
    desk.idle()
    for question in (SURENESS, Question.CHANGES):
        desk.worker.answer(desk.worker.last(question), band() if question is SURENESS else None)
    count = len(desk.worker.asked)
    desk.session.set_units(UnitSystem.INCH)
    (again,) = desk.worker.asked[count:]
    assert (again.question, again.units) == (Question.CHANGES, UnitSystem.INCH)
    assert desk.standing().is_current
    assert desk.standing(Question.CHANGES).stage is Stage.WORKING


def test_another_course_is_asked_at_once_and_alone_and_kept_for_the_next_document(desk):
    desk.idle()
    old = desk.worker.last(Question.OVER_TIME)
    count = len(desk.worker.asked)
    desk.further.choose_course(Course("case-4", "case-2"))
    (again,) = desk.worker.asked[count:]
    assert (again.question, again.from_case_id, again.case_id) == (Question.OVER_TIME, "case-4", "case-2")
    assert old.number in desk.worker.stopped
    desk.further.choose_course(Course("case-4", "case-2"))
    assert len(desk.worker.asked) == count + 1
    desk.session.apply("move", desk.move(10))
    desk.idle()
    assert desk.worker.last(Question.OVER_TIME).from_case_id == "case-4"
    assert desk.worker.last(SURENESS).case_id == "case-1"


def test_a_worker_that_ends_is_started_once_more_and_asked_what_is_open(desk):
    desk.idle()
    desk.worker.answer(desk.worker.last(SURENESS), band())
    desk.worker.ended.emit()
    assert len(desk.workers) == 2
    assert desk.worker.is_started
    assert [ask.question for ask in desk.worker.asked] == [q for q in Question if q is not SURENESS]
    assert desk.complaints == []
    degrees = desk.worker.last(Question.DEGREES)
    desk.worker.fail(degrees)
    assert desk.standing(Question.DEGREES).reason == BROKE_OFF


def test_a_worker_that_ends_twice_is_told_in_one_sentence_once_and_tried_again_after_the_next_change(desk):
    desk.idle()
    desk.worker.answer(desk.worker.last(SURENESS), band())
    desk.worker.ended.emit()
    desk.worker.ended.emit()
    assert len(desk.workers) == 2
    assert desk.complaints == [GAVE_UP]
    assert desk.standing().is_current
    assert desk.standing(Question.DEGREES).reason == NO_PROCESS
    for _ in range(2):
        desk.session.apply("move", desk.move(10))
        desk.idle()
        desk.worker.ended.emit()
        desk.worker.ended.emit()
    assert len(desk.workers) == 6
    assert desk.complaints == [GAVE_UP]


def test_a_worker_that_never_starts_ends_in_the_same_sentence(qapp):
    desk = Desk(demo(1))

    class Lame(TalkingWorker):
        def start(self):
            self.ended.emit()

    def make():
        desk.workers.append(Lame())
        return desk.workers[-1]

    desk.further.start(make, unpacked)
    desk.idle()
    assert desk.complaints == [GAVE_UP]
    assert desk.further._worker is None
    assert {desk.standing(question).stage for question in Question} == {Stage.NOT_KNOWN}
    desk.further.close()


def test_closed_it_asks_nothing_more_and_ends_the_worker(desk):
    desk.idle()
    worker = desk.worker
    desk.session.apply("move", desk.move(10))
    desk.further.close()
    assert worker.is_closed
    assert not desk.further._idle.isActive()
    count = len(worker.heard)
    desk.session.apply("rename", set_title(desk.session.project, "after the end"))
    assert not desk.further._idle.isActive()
    desk.further.ask()
    assert len(worker.heard) == count
    assert len(desk.workers) == 1
    desk.further.close()


def test_each_sentence_is_one(qapp):
    for sentence in (BROKE_OFF, NO_PROCESS, GAVE_UP, module.NO_CASE):
        assert sentence.endswith(".")
        assert "\n" not in sentence
