"""The page of the drawings in the real window, with a worker that answers as told."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from shiboken6 import isValid

from grillestack.app.window import Equipment, MainWindow
from tests.app.sheets.made import Draughtsman, a_sheet


class Questions:
    """Answers for the person, as told."""

    def __init__(self):
        self.file = None
        self.may_replace = True
        self.prints = False
        self.asked = []

    def ask_file(self, _parent, suggested):
        self.asked.append(suggested)
        return self.file

    def ask_replace(self, _parent, names):
        self.asked.append(tuple(names))
        return self.may_replace

    def ask_printer(self, _parent, printer):
        self.asked.append(printer)
        return self.prints


@pytest.fixture
def questions():
    return Questions()


@pytest.fixture
def worker(qapp):
    return Draughtsman()


@pytest.fixture
def desk(qtbot, session, answers, worker, questions):
    """Give the window."""
    equipment = Equipment(advise=lambda *_: (), dialogs=answers, draw=lambda: worker, ask_of_sheets=questions)
    made = MainWindow(session, equipment)
    made.resize(1280, 800)
    made.show()
    yield made
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not isValid(made)


@pytest.fixture
def page(desk, worker):
    """Give the page with one sheet on it."""
    opened = desk.drawings.begin()
    worker.answer(a_sheet())
    return opened
