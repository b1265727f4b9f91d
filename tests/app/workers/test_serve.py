"""The second process: answers in order, leaves out what is stopped, tells of failures, and ends with its reader."""

import json
import subprocess
import sys

from grillestack.app.workers.messages import Answer, Ask, Failure, Progress, Question, Stop, line_of, said_in
from grillestack.app.workers.serve import Counter
from tests.app.workers.made import band, demo

PROJECT = demo(1)


def asks(*numbers):
    return [line_of(Ask(number=n, question=Question.SURENESS, project=PROJECT, case_id="case-1")) for n in numbers]


def said_by(work, lines):
    said = []
    counter = Counter(said.append, work)
    for line in lines:
        counter.take(line)
    counter.shut()
    counter.answer_all()
    return said


def test_questions_are_answered_in_the_order_in_which_they_came():
    said = said_by(lambda _ask, _go_on: band(), asks(4, 2, 9))
    assert [one.number for one in said if isinstance(one, Answer)] == [4, 2, 9]


def test_a_question_that_is_stopped_while_it_waits_is_not_begun():
    begun = []

    def work(ask, _go_on):
        begun.append(ask.number)
        return band()

    said = said_by(work, [*asks(1, 2, 3), line_of(Stop(number=2))])
    assert begun == [1, 3]
    assert {one.number for one in said} == {1, 3}


def test_a_question_that_is_stopped_in_the_midst_is_broken_off_and_the_next_is_answered():
    said = []

    def work(ask, go_on):
        steps = 0
        while go_on(steps / 10) and steps < 10:
            steps += 1
            if (ask.number, steps) == (1, 3):
                counter.take(line_of(Stop(number=1)))
        return None if steps == 3 else band()

    counter = Counter(said.append, work)
    for line in asks(1, 2):
        counter.take(line)
    counter.shut()
    counter.answer_all()
    assert [one.number for one in said if isinstance(one, Answer)] == [2]
    assert max(one.share_frac for one in said if isinstance(one, Progress) and one.number == 1) < 0.3


def test_an_answer_that_came_too_late_is_not_told():
    said = []

    def work(_ask, _go_on):
        counter.take(line_of(Stop(number=1)))
        return band()

    counter = Counter(said.append, work)
    counter.take(asks(1)[0])
    counter.shut()
    counter.answer_all()
    assert said == []


def test_a_calculation_that_breaks_off_is_told_and_the_next_question_answered(caplog):
    def work(ask, _go_on):
        if ask.number == 1:
            raise ZeroDivisionError("invented")
        return band()

    said = said_by(work, asks(1, 2))
    assert [type(one) for one in said if not isinstance(one, Progress)] == [Failure, Answer]
    assert "invented" in caplog.text


def test_progress_is_told_in_steps_that_can_be_seen():
    def work(_ask, go_on):
        for step in range(1001):
            assert go_on(step / 1000)
        return band()

    told = [one.share_frac for one in said_by(work, asks(1)) if isinstance(one, Progress)]
    assert 10 < len(told) <= 51
    assert told == sorted(told)


def test_a_line_that_is_no_message_is_left_and_the_next_question_answered(caplog):
    said = said_by(lambda _ask, _go_on: band(), [b"nonsense\n", *asks(1)])
    assert [one.number for one in said if isinstance(one, Answer)] == [1]
    assert "no message" in caplog.text


def test_the_real_process_answers_and_ends_when_nobody_speaks_to_it_any_more():
    lines = [
        line_of(Ask(number=n, question=question, project=PROJECT, case_id="case-1", from_case_id="case-3"))
        for n, question in enumerate((Question.DEGREES, Question.SURENESS))
    ]
    with subprocess.Popen(
        [sys.executable, "-m", "grillestack.app.workers"], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as process:
        process.stdin.write(b"".join(lines))
        process.stdin.flush()
        said = []
        while not (said and isinstance(said[-1], Answer) and said[-1].number == 1):
            said.append(said_in(process.stdout.readline()))
        process.stdin.close()
        assert process.wait(timeout=60) == 0
        assert process.stdout.read() == b""
    steps = json.loads(bytes(next(one for one in said if isinstance(one, Answer)).result))["steps"]
    assert [step["name"] for step in steps][:2] == ["Opening and grille", "Condenser"]


def test_the_second_process_loads_no_qt():
    code = "import sys, grillestack.app.workers.serve; print([m for m in sys.modules if m.startswith('PySide')])"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
