"""What is answered: each question in one call of assess or advice. Loads the scientific core, never Qt."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final, TypeAlias

import msgspec

from grillestack.advice.better_places import BetterPlaces, better_places
from grillestack.advice.ladder import Ladder, ladder
from grillestack.app.own_parts import shelf_parts
from grillestack.app.workers.fit_rows import FitList, FitRow
from grillestack.app.workers.made_fit_rows import fit_list, priced_row
from grillestack.app.workers.made_sheets import sheet_answer
from grillestack.app.workers.messages import NOTHING, Ask, AskFit, AskPlaces, AskSheets, Question
from grillestack.app.workers.sheet_travel import SheetAnswer
from grillestack.assess.confidence import Confidence, confidence
from grillestack.assess.over_time import OverTime, over_time
from grillestack.assess.waterfall import Waterfall, waterfall

GoOn: TypeAlias = Callable[[float], bool]
Result: TypeAlias = Waterfall | Confidence | OverTime | Ladder | None
AnyResult: TypeAlias = Result | BetterPlaces | FitList | FitRow | SheetAnswer

_KINDS: Final[Mapping[Question, Any]] = {
    Question.DEGREES: Waterfall | None,
    Question.SURENESS: Confidence | None,
    Question.OVER_TIME: OverTime | None,
    Question.CHANGES: Ladder | None,
}


def answer(ask: Ask, go_on: GoOn = lambda _share: True) -> Result:
    """Return the answer, or nothing if the case cannot be judged or `go_on` said no.

    Parameters
    ----------
    go_on
        Told the share done; answers whether to go on.
    """
    match ask.question:
        case Question.DEGREES:
            return waterfall(ask.project, ask.case_id)
        case Question.SURENESS:
            return confidence(ask.project, ask.case_id, progress=go_on)
        case Question.OVER_TIME:
            return over_time(ask.project, ask.from_case_id, ask.case_id, go_on)
        case Question.CHANGES:
            parts, _ = shelf_parts()
            return ladder(ask.project, parts, go_on, case_id=ask.case_id, units=ask.units)


def answer_any(ask: Ask | AskPlaces | AskFit | AskSheets, go_on: GoOn = lambda _share: True) -> AnyResult:
    """Return the answer to a question of any kind, or nothing as in `answer`."""
    if isinstance(ask, AskFit):
        if bytes(ask.fit) == bytes(NOTHING):
            return fit_list(ask.project, ask.slot, ask.units)
        return priced_row(ask.project, ask.slot, ask.units, ask.fit)
    if isinstance(ask, AskSheets):
        return sheet_answer(ask, go_on)
    if isinstance(ask, AskPlaces):
        return better_places(ask.project, ask.part_id, go_on)
    return answer(ask, go_on)


def packed(result: AnyResult) -> msgspec.Raw:
    """Return the answer as JSON."""
    return msgspec.Raw(msgspec.json.encode(result))


def unpacked(question: Question, raw: msgspec.Raw) -> Result:
    """Return the answer that this JSON holds, to the last digit as it was worked out.

    Raises
    ------
    msgspec.DecodeError
        If it is no answer to that question.
    """
    result: Result = msgspec.json.decode(raw, type=_KINDS[question])
    return result


def unpacked_places(raw: msgspec.Raw) -> BetterPlaces | None:
    """Return the map of better places that this JSON holds.

    Raises
    ------
    msgspec.DecodeError
        If it is none.
    """
    found: BetterPlaces | None = msgspec.json.decode(raw, type=BetterPlaces | None)
    return found
