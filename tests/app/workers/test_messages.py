"""What window and second process say to each other comes across whole, one line a message."""

import msgspec
import pytest

from grillestack.app.workers.messages import (
    Answer,
    Ask,
    Failure,
    Progress,
    Question,
    Stop,
    asked_in,
    line_of,
    said_in,
)
from grillestack.units.display import UnitSystem
from tests.app.workers.made import demo


@pytest.mark.parametrize("number", [1, 2, 3])
def test_a_question_comes_across_with_its_whole_document(number):
    ask = Ask(
        number=7,
        question=Question.CHANGES,
        project=demo(number),
        case_id="case-1",
        from_case_id="case-3",
        units=UnitSystem.INCH,
    )
    line = line_of(ask)
    assert line.count(b"\n") == 1
    assert line.endswith(b"\n")
    assert asked_in(line) == ask


def test_line_ends_in_a_document_do_not_end_the_line():
    project = msgspec.structs.replace(demo(1), notes_text="first\nsecond\r\nthird")
    line = line_of(Ask(number=1, question=Question.DEGREES, project=project, case_id="case-1"))
    assert line.count(b"\n") == 1
    assert asked_in(line).project.notes_text == project.notes_text


def test_the_other_messages_come_across():
    assert asked_in(line_of(Stop(number=3))) == Stop(number=3)
    assert said_in(line_of(Progress(number=3, share_frac=0.25))) == Progress(number=3, share_frac=0.25)
    assert said_in(line_of(Failure(number=3))) == Failure(number=3)
    answer = said_in(line_of(Answer(number=3, result=msgspec.Raw(b'{"x":1}'))))
    assert (answer.number, bytes(answer.result)) == (3, b'{"x":1}')


@pytest.mark.parametrize("line", [b"", b"a print of some library", b'{"type":"ask"}', b'{"type":"dance","number":1}'])
def test_what_is_no_message_is_refused(line):
    with pytest.raises(msgspec.DecodeError):
        asked_in(line)
    with pytest.raises(msgspec.DecodeError):
        said_in(line)
