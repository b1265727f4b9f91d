"""A worker that is told what to say, and the demo packs it is asked about."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QObject, Signal

from grillestack.app.workers.messages import Answer, Ask, Failure, Progress, Stop
from grillestack.assess.confidence import Confidence, Driver
from grillestack.assets.locate import demo_projects
from grillestack.storage.project_file import read_project


def demo(number):
    """Return one of the three invented vehicles, counted from 1."""
    return read_project(demo_projects()[number - 1])


class TalkingWorker(QObject):
    """Notes what is asked and says what a test lets it say."""

    said = Signal(object)
    ended = Signal()

    def __init__(self):
        super().__init__()
        self.heard = []
        self.is_started = self.is_closed = False

    def start(self):
        self.is_started = True

    def close(self):
        self.is_closed = True

    def say(self, message):
        self.heard.append(message)

    @property
    def asked(self):
        return [message for message in self.heard if isinstance(message, Ask)]

    @property
    def stopped(self):
        return [message.number for message in self.heard if isinstance(message, Stop)]

    def last(self, question):
        return next(ask for ask in reversed(self.asked) if ask.question is question)

    def answer(self, ask, result):
        self.said.emit(Answer(number=ask.number, result=msgspec.Raw(msgspec.json.encode(result))))

    def tell_progress(self, ask, share_frac):
        self.said.emit(Progress(number=ask.number, share_frac=share_frac))

    def fail(self, ask):
        self.said.emit(Failure(number=ask.number))


def band(p50_degc=40.0):
    """Return an invented band, told apart by its middle."""
    return Confidence(
        case_name="Grade pull",
        p10_degc=p50_degc - 4.0,
        p50_degc=p50_degc,
        p90_degc=p50_degc + 5.0,
        meets_design_day_frac=0.64,
        drivers=(Driver("heat of “Radiator”", 0.6, "invented"), Driver("ram recovery at the opening", 0.1, "invented")),
        samples=1000,
    )
