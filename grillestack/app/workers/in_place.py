"""A stand-in for the second process that answers at once and here: for a picture, which has nothing else to do."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, Signal

from grillestack.app.workers.messages import Answer, Ask, Failure, ToWorker

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.app.workers.answers import Result

_log = logging.getLogger(__name__)


class InPlace(QObject):
    """Answers each question before `say` returns."""

    said = Signal(object)
    ended = Signal()

    def __init__(self, work: Callable[[Ask], Result], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work

    def start(self) -> None:
        """Begin: nothing to do here."""

    def close(self) -> None:
        """End: nothing to do here."""

    def say(self, message: ToWorker) -> None:
        """Answer the question."""
        if not isinstance(message, Ask):
            return
        try:
            result = msgspec.Raw(msgspec.json.encode(self._work(message)))
        except Exception:  # noqa: BLE001  the other questions must be answered
            _log.exception("no answer to %s", message.question.value)
            self.said.emit(Failure(number=message.number))
            return
        self.said.emit(Answer(number=message.number, result=result))
