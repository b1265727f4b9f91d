"""At the parts counter with the failing demo: which cooler fits, and one click that makes the pack pass."""

from __future__ import annotations

import msgspec
import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtTest import QTest

from grillestack.app.fit.table import Column
from grillestack.app.workers import made_fit_rows
from grillestack.app.workers.answers import answer_any
from grillestack.app.workers.messages import Answer, AskFit
from grillestack.assess.result import Verdict
from tests.fit.packs import coolers

WANTED = ("gs-cb-0660-0220-76-d", "gs-ct-0640-0420-50-o", "gs-cb-0420-0130-50-o")


class HereAndNow(QObject):
    """Works each question of the search out where the window runs, one when the event loop comes round."""

    said = Signal(object)
    ended = Signal()
    _due = Signal(object)

    def __init__(self):
        super().__init__()
        self._due.connect(self._answer, Qt.ConnectionType.QueuedConnection)

    def start(self):
        """Begin: nothing to do."""

    def close(self):
        """End: nothing to do."""

    def say(self, message):
        if isinstance(message, AskFit):
            self._due.emit(message)

    def _answer(self, ask):
        self.said.emit(Answer(number=ask.number, result=msgspec.Raw(msgspec.json.encode(answer_any(ask)))))


@pytest.fixture
def counter(failing, monkeypatch):
    """Give the failing demo with three coolers on the shelf that is searched."""
    shelf = tuple(part for part in coolers() if part.id in WANTED)
    monkeypatch.setattr(made_fit_rows, "shelf_parts", lambda: (shelf, []))
    monkeypatch.setattr(failing.window.fit.hunt, "_make", HereAndNow)
    return failing


def test_a_new_user_finds_a_cooler_that_fits_and_one_click_makes_the_pack_pass(counter, qtbot):
    window, session = counter.window, counter.window.session
    assert session.base_assessment.verdict is Verdict.FAIL
    window.menus.actions["What fits here?"].trigger()
    panel = window.fit.panel
    qtbot.waitUntil(lambda: panel.progress_words.text() == "3 of 3 assessed", timeout=30_000)
    first = panel.table.topLevelItem(0)
    assert first.text(Column.VERDICT) == "pass"
    said = first.text(Column.HOTTEST)
    panel.table.setCurrentItem(first)
    window.fit._rest.timeout.emit()
    assert session.assessment.verdict is Verdict.PASS
    assert window.fit.room.isVisible()
    place = panel.table.visualItemRect(first).center()
    QTest.mouseClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert session.base_assessment.verdict is Verdict.PASS
    assert session.undo_stack.count() == 1
    hottest = session.base_assessment.deciding_case.limiting_ambient_degc
    assert said == f"{hottest:.0f} °C"
    QTest.mouseClick(window.fit.panel.close_button, Qt.MouseButton.LeftButton)
    assert window.verdict.isVisible()
    session.undo_stack.undo()
    assert session.base_assessment.verdict is Verdict.FAIL
