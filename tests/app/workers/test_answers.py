"""Each question has the answer that assess or advice gives, and it survives the way through JSON to the last digit."""

import pytest

from grillestack.advice.ladder import ladder
from grillestack.app.own_parts import shelf_parts
from grillestack.app.workers.answers import answer, packed, unpacked
from grillestack.app.workers.messages import Ask, Question
from grillestack.assess.confidence import confidence
from grillestack.assess.over_time import over_time
from grillestack.assess.waterfall import waterfall
from grillestack.units.display import UnitSystem
from tests.app.workers.made import demo

DIRECT = {
    Question.DEGREES: lambda project: waterfall(project, "case-1"),
    Question.SURENESS: lambda project: confidence(project, "case-1"),
    Question.OVER_TIME: lambda project: over_time(project, "case-3", "case-1"),
    Question.CHANGES: lambda project: ladder(project, shelf_parts()[0], case_id="case-1", units=UnitSystem.INCH),
}


def ask(question, case_id="case-1"):
    return Ask(
        number=1,
        question=question,
        project=demo(3),
        case_id=case_id,
        from_case_id="case-3",
        units=UnitSystem.INCH,
    )


@pytest.mark.parametrize("question", list(Question))
def test_the_answer_is_that_of_the_direct_call_and_comes_back_equal_from_json(question):
    found = answer(ask(question))
    assert found is not None
    assert found == DIRECT[question](demo(3))
    assert unpacked(question, packed(found)) == found


@pytest.mark.parametrize("question", [Question.SURENESS, Question.OVER_TIME, Question.CHANGES])
def test_long_work_is_broken_off_when_told_so(question):
    shares = []

    def no(share_frac):
        shares.append(share_frac)
        return False

    assert answer(ask(question), no) is None
    assert len(shares) == 1


@pytest.mark.parametrize("question", [Question.DEGREES, Question.SURENESS, Question.OVER_TIME])
def test_a_case_that_is_not_there_has_no_answer(question):
    assert answer(ask(question, case_id="case-99")) is None
    assert unpacked(question, packed(None)) is None
