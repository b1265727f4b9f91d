"""The second process: reads questions line by line, answers one after the other, and ends when nobody is left to hear it."""

from __future__ import annotations

import itertools
import logging
import os
import queue
import signal
import threading
from collections.abc import Callable
from typing import BinaryIO, Final

import msgspec

from grillestack.app.workers.answers import AnyResult, answer_any, packed
from grillestack.app.workers.messages import (
    Answer,
    Ask,
    AskFit,
    AskPlaces,
    AskSheets,
    Failure,
    FromWorker,
    Progress,
    Stop,
    asked_in,
    line_of,
)

_log = logging.getLogger(__name__)

_LEAST_STEP_FRAC: Final = 0.02
_LESS_URGENT: Final = 5

AnyAsk = Ask | AskPlaces | AskFit | AskSheets
AnswerFunction = Callable[[AnyAsk, Callable[[float], bool]], AnyResult]


def _rank(ask: AnyAsk | None) -> int:
    """Return what comes first: what a hand waits for, then what the panels show, then what may be wanted soon, then the end."""
    if ask is None:
        return 3
    if isinstance(ask, AskPlaces):
        return 0 if ask.is_held else 2
    return 1


class Counter:
    """Takes questions in from one thread and answers them in another; what is no longer wanted is left out or broken off."""

    def __init__(self, say: Callable[[FromWorker], None], work: AnswerFunction = answer_any) -> None:
        self._say = say
        self._work = work
        self._waiting: queue.PriorityQueue[tuple[int, int, AnyAsk | None]] = queue.PriorityQueue()
        self._taken = itertools.count()
        self._stopped: set[int] = set()  # added to by the one thread, asked by the other: both at one stroke

    def take(self, line: bytes) -> None:
        """Take in one line; one that is no message is noted and left."""
        try:
            message = asked_in(line)
        except msgspec.DecodeError:
            _log.exception("a line that is no message")
            return
        if isinstance(message, Stop):
            self._stopped.add(message.number)
        else:
            self._waiting.put((_rank(message), next(self._taken), message))

    def shut(self) -> None:
        """Take in nothing more: `answer_all` ends when what is waiting is answered."""
        self._waiting.put((_rank(None), next(self._taken), None))

    def answer_all(self) -> None:
        """Answer until shut."""
        while (ask := self._waiting.get()[2]) is not None:
            self._answer(ask)
            self._stopped.discard(ask.number)

    def _answer(self, ask: AnyAsk) -> None:
        told_frac = 0.0

        def go_on(share_frac: float) -> bool:
            nonlocal told_frac
            if ask.number in self._stopped:
                return False
            if share_frac >= told_frac + _LEAST_STEP_FRAC:
                told_frac = share_frac
                self._say(Progress(number=ask.number, share_frac=share_frac))
            return True

        if not go_on(0.0):
            return
        try:
            result = self._work(ask, go_on)
        except Exception:  # noqa: BLE001  whatever fails in there, the other questions must be answered
            _log.exception("no answer to question %d", ask.number)
            self._say(Failure(number=ask.number))
            return
        if go_on(1.0):
            self._say(Answer(number=ask.number, result=packed(result)))


def serve(source: BinaryIO, sink: BinaryIO) -> None:
    """Answer what comes from the source until it ends; the process then ends at once, whatever it is at."""

    def say(message: FromWorker) -> None:
        sink.write(line_of(message))
        sink.flush()

    counter = Counter(say)

    def read() -> None:
        for line in source:
            counter.take(line)
        # The window is gone, killed perhaps: nobody wants what is being worked out.
        os._exit(0)

    threading.Thread(target=read, daemon=True).start()
    counter.answer_all()


def main() -> None:
    """Serve the process that started this one, through what it reads and writes."""
    # A stray print of some library must not end up among the messages.
    sink = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    # Ctrl+C in a terminal reaches both processes; the window decides.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(_LESS_URGENT)
    serve(os.fdopen(os.dup(0), "rb"), sink)
