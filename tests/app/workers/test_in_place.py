"""The stand-in answers before it returns, and tells what fails."""

from grillestack.app.workers.answers import unpacked
from grillestack.app.workers.in_place import InPlace
from grillestack.app.workers.messages import Answer, Ask, Failure, Question, Stop
from tests.app.workers.made import band, demo

ASK = Ask(number=5, question=Question.SURENESS, project=demo(1), case_id="case-1")


def said_by(work):
    said = []
    worker = InPlace(work)
    worker.said.connect(said.append)
    worker.start()
    worker.say(Stop(number=1))
    worker.say(ASK)
    worker.close()
    return said


def test_it_answers_at_once(qapp):
    (answer,) = said_by(lambda _ask: band())
    assert isinstance(answer, Answer)
    assert answer.number == 5
    assert unpacked(Question.SURENESS, answer.result) == band()


def test_it_tells_what_fails(qapp, caplog):
    def work(_ask):
        raise ZeroDivisionError("invented")

    assert said_by(work) == [Failure(number=5)]
    assert "invented" in caplog.text
