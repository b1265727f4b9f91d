"""The map of better places is asked once for a document and a core, and never shown for another."""

from __future__ import annotations

import msgspec
import pytest

from grillestack.advice.better_places import BetterPlaces, Spot, better_places
from grillestack.app.session import Session
from grillestack.app.workers.answers import answer_any, packed, unpacked_places
from grillestack.app.workers.further import Further
from grillestack.app.workers.messages import (
    Answer,
    Ask,
    AskPlaces,
    Failure,
    Progress,
    Question,
    Stop,
    asked_in,
    line_of,
)
from grillestack.app.workers.places import Places
from grillestack.app.workers.serve import Counter
from grillestack.model.edits import move_parts, set_title
from grillestack.units.display import UnitSystem
from tests.app.workers.made import TalkingWorker, demo

COOLER = "charge-air-cooler-2"


def a_map(part_id=COOLER, gain_k=3.1):
    """An invented map of one place."""
    spot = Spot(dy_mm=0.0, dz_mm=40.0, change_k=gain_k, spoils=False)
    return BetterPlaces(part_id=part_id, step_mm=30.0, spots=(spot,), finer_spots=(), best=spot)


class Desk:
    """A session without numbers, the question's desk, and a worker that says what it is told."""

    def __init__(self):
        self.session = Session(None, UnitSystem.METRIC, demo(1))
        self.further = Further(self.session)
        self.worker = TalkingWorker()
        self.places = Places(self.session, self.further)
        self.changes = []
        self.places.changed.connect(lambda: self.changes.append(self.places.found))

    def start(self):
        self.further.start(lambda: self.worker, lambda *_: None)

    @property
    def asked(self):
        return [message for message in self.worker.heard if isinstance(message, AskPlaces)]

    def answer(self, number, found):
        self.worker.said.emit(Answer(number=number, result=msgspec.Raw(msgspec.json.encode(found))))


@pytest.fixture
def desk(qapp):
    made = Desk()
    made.start()
    yield made
    made.further.close()


def test_a_core_is_asked_about_once_and_its_map_is_there_when_answered(desk):
    desk.places.want(COOLER, is_held=True)
    desk.places.want(COOLER, is_held=True)
    (ask,) = desk.asked
    assert (ask.part_id, ask.project) == (COOLER, desk.session.project)
    assert desk.places.share_frac == 0.0
    desk.worker.said.emit(Progress(number=ask.number, share_frac=0.4))
    assert desk.places.share_frac == 0.4
    desk.answer(ask.number, a_map())
    assert desk.places.found == a_map()
    assert desk.places.share_frac is None
    desk.places.want(COOLER, is_held=True)
    assert len(desk.asked) == 1


def test_a_change_of_the_document_drops_the_map_and_a_late_answer(desk):
    desk.places.want(COOLER, is_held=True)
    first = desk.asked[0].number
    desk.session.apply("Rename", set_title(desk.session.project, "Another"))
    assert desk.worker.stopped == [first]
    desk.answer(first, a_map())
    assert desk.places.found is None
    desk.places.want(COOLER, is_held=True)
    desk.answer(desk.asked[-1].number, a_map(gain_k=1.0))
    assert desk.places.found.best.change_k == 1.0
    desk.session.apply("Rename", set_title(desk.session.project, "Third"))
    assert desk.places.found is None


def test_a_drag_of_the_same_document_keeps_the_map(desk):
    desk.places.want(COOLER, is_held=True)
    desk.answer(desk.asked[0].number, a_map())
    desk.session.try_project(move_parts(desk.session.project, [COOLER], dz_mm=5.0))
    assert desk.places.found == a_map()
    desk.session.end_trial()
    assert desk.places.found == a_map()


def test_another_core_drops_the_question_about_the_first(desk):
    desk.places.want(COOLER, is_held=True)
    desk.places.want("condenser-1", is_held=True)
    assert desk.worker.stopped == [desk.asked[0].number]
    desk.answer(desk.asked[0].number, a_map())
    assert desk.places.found is None
    desk.answer(desk.asked[1].number, a_map("condenser-1"))
    assert desk.places.found.part_id == "condenser-1"


def test_what_was_asked_ahead_moves_up_when_the_hand_takes_hold_unless_it_is_worked_at(desk):
    desk.places.want(COOLER, is_held=False)
    desk.places.want(COOLER, is_held=True)
    ahead, held = desk.asked
    assert (ahead.is_held, held.is_held) == (False, True)
    assert desk.worker.stopped == [ahead.number]
    desk.places.drop()
    desk.places.want(COOLER, is_held=False)
    desk.worker.said.emit(Progress(number=desk.asked[-1].number, share_frac=0.3))
    desk.places.want(COOLER, is_held=True)
    assert len(desk.asked) == 3


def test_a_failure_is_said_and_not_asked_again_at_once(desk):
    desk.places.want(COOLER, is_held=True)
    desk.worker.said.emit(Failure(number=desk.asked[0].number))
    assert desk.places.broke_off
    assert desk.places.found is None
    desk.places.want(COOLER, is_held=True)
    assert len(desk.asked) == 1


def test_the_end_of_the_worker_is_a_failure(desk):
    desk.places.want(COOLER, is_held=True)
    desk.worker.ended.emit()
    assert desk.places.broke_off


def test_before_there_is_a_worker_nothing_is_lost(qapp):
    desk = Desk()
    desk.places.want(COOLER, is_held=True)
    assert desk.places.share_frac is None
    # Who asks at each change would ask for ever.
    assert desk.changes == []
    desk.start()
    desk.places.want(COOLER, is_held=True)
    assert len(desk.asked) == 1
    desk.further.close()


def test_the_answer_is_that_of_the_direct_call_and_survives_json():
    ask = AskPlaces(number=1, project=demo(1), part_id="radiator-3")
    assert asked_in(line_of(ask).strip()) == ask
    found = answer_any(ask)
    assert found == better_places(demo(1), "radiator-3")
    assert unpacked_places(packed(found)) == found
    assert answer_any(ask, lambda _share: False) is None


def test_what_a_hand_waits_for_is_answered_before_what_waits_longer():
    begun = []

    def work(ask, _go_on):
        begun.append(ask.number)

    counter = Counter(lambda _message: None, work)
    project = demo(1)
    for number in (1, 2):
        ask = Ask(number=number, question=Question.SURENESS, project=project, case_id="case-1")
        counter.take(line_of(ask))
    counter.take(line_of(AskPlaces(number=5, project=project, part_id=COOLER, is_held=False)))
    counter.take(line_of(AskPlaces(number=3, project=project, part_id=COOLER)))
    counter.take(line_of(AskPlaces(number=4, project=project, part_id=COOLER)))
    counter.take(line_of(Stop(number=3)))
    counter.shut()
    counter.answer_all()
    assert begun == [4, 1, 2, 5]
