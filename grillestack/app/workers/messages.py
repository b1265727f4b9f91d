"""What window and second process say to each other: one frozen message a line, as JSON. Nothing here loads Qt or numbers."""

from __future__ import annotations

import enum
from typing import Final, TypeAlias

import msgspec

from grillestack.fit.slots import Slot
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

# The JSON of nothing
NOTHING: Final = msgspec.Raw(b"null")


class Question(enum.Enum):
    """What can be asked of a duty case, in the order in which the answers are worked out."""

    DEGREES = "where the degrees go"
    SURENESS = "how sure the hottest day is"
    OVER_TIME = "how the coolant moves over time"
    CHANGES = "what to change first"


class Ask(msgspec.Struct, frozen=True, kw_only=True, tag="ask"):
    """One question about one duty case of a document; `from_case_id` is where the course over time begins."""

    number: int
    question: Question
    project: Project
    case_id: str
    from_case_id: str = ""
    units: UnitSystem = UnitSystem.METRIC


class AskPlaces(msgspec.Struct, frozen=True, kw_only=True, tag="ask-places"):
    """Where one core of a document would do better; before all other questions while a hand holds it, else after them."""

    number: int
    project: Project
    part_id: str
    is_held: bool = True


class AskFit(msgspec.Struct, frozen=True, kw_only=True, tag="ask-fit"):
    """What fits into a slot of a document, or, of one part that fits, where it does best and what it costs."""

    number: int
    project: Project
    slot: Slot
    units: UnitSystem
    fit: msgspec.Raw = NOTHING


class AskSheets(msgspec.Struct, frozen=True, kw_only=True, tag="ask-sheets"):
    """The drawings that a document's choices name: to look at, or as files of that ending (.pdf, .svg, .dxf)."""

    number: int
    project: Project
    ending: str = ""


class Stop(msgspec.Struct, frozen=True, kw_only=True, tag="stop"):
    """Nobody wants the answer to that question any more."""

    number: int


class Progress(msgspec.Struct, frozen=True, kw_only=True, tag="progress"):
    """How much of that question is worked out."""

    number: int
    share_frac: float


class Answer(msgspec.Struct, frozen=True, kw_only=True, tag="answer"):
    """The answer to that question, still as JSON; `null` if the case cannot be judged."""

    number: int
    result: msgspec.Raw


class Failure(msgspec.Struct, frozen=True, kw_only=True, tag="failure"):
    """That question has no answer, because the calculation broke off."""

    number: int


ToWorker: TypeAlias = Ask | AskPlaces | AskFit | AskSheets | Stop
FromWorker: TypeAlias = Progress | Answer | Failure

_TO_WORKER: Final = msgspec.json.Decoder(ToWorker)
_FROM_WORKER: Final = msgspec.json.Decoder(FromWorker)


def line_of(message: ToWorker | FromWorker) -> bytes:
    """Return the message as one line with its end."""
    return msgspec.json.encode(message) + b"\n"


def asked_in(line: bytes) -> ToWorker:
    """Return what the window said.

    Raises
    ------
    msgspec.DecodeError
        If the line is no message.
    """
    message: ToWorker = _TO_WORKER.decode(line)
    return message


def said_in(line: bytes) -> FromWorker:
    """Return what the second process said.

    Raises
    ------
    msgspec.DecodeError
        If the line is no message.
    """
    message: FromWorker = _FROM_WORKER.decode(line)
    return message
