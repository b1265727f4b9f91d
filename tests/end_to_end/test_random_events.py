"""Thousands of random mouse and key events over the whole window: no fault, a valid document, and undo leads back to the start."""

from __future__ import annotations

import itertools
import logging
import random
from dataclasses import dataclass

import msgspec
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from grillestack.app.scientific_core import ScientificCore
from grillestack.model.project import Project
from tests.end_to_end.bench import LEFT, MOVE, NONE, PRESS, RELEASE, Bench

# What the platform without a screen says of every menu that opens.
pytestmark = pytest.mark.qt_log_ignore(r"does not support raise\(\)", "does not support grabbing the keyboard")

CTRL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)
KEY = Qt.Key
_ASSESSED_EACH = 150
_TEXT = "0123456789/-. mcin"
_PLAIN = (
    KEY.Key_Escape,
    KEY.Key_Return,
    KEY.Key_Tab,
    KEY.Key_Backtab,
    KEY.Key_Backspace,
    KEY.Key_Delete,
    KEY.Key_Insert,
    KEY.Key_Space,
    KEY.Key_Left,
    KEY.Key_Right,
    KEY.Key_Up,
    KEY.Key_Down,
    KEY.Key_M,
)
# Not N, O, S, Q: they open dialogs or end the window.
_COMMANDS = (
    KEY.Key_Z,
    KEY.Key_X,
    KEY.Key_C,
    KEY.Key_V,
    KEY.Key_D,
    KEY.Key_A,
    KEY.Key_R,
    KEY.Key_L,
    KEY.Key_H,
    KEY.Key_G,
    KEY.Key_U,
    KEY.Key_F,
    KEY.Key_P,
    KEY.Key_M,
    KEY.Key_0,
    KEY.Key_Plus,
    KEY.Key_Minus,
    KEY.Key_Up,
    KEY.Key_Down,
    KEY.Key_Left,
    KEY.Key_Right,
)
_ACTIONS = ("Draw opening", "Draw obstruction", "Draw support window", "Draw both halves", "Come to rest on a grid")


@dataclass
class RandomHand:
    """Acts at random, as a hand might: mostly on the sheets, with drags that keep the button down for several events."""

    bench: Bench
    dice: random.Random
    sent: int = 0

    def act(self) -> None:
        """Do one thing."""
        open_menu = QApplication.activePopupWidget()
        if open_menu is not None and self.dice.random() < 0.7:
            self._type(open_menu, KEY.Key_Escape)
            return
        kind = self.dice.choices(
            ("drag", "click", "text", "key", "command", "wheel", "menu", "list", "action", "paint"),
            (34, 14, 10, 16, 12, 4, 4, 6, 2, 2),
        )[0]
        getattr(self, f"_{kind}")()

    def _type(self, target: QWidget, key, held=NONE) -> None:
        """Press a key and let it go."""
        self.sent += 2
        QTest.keyClick(target, key, held)

    # --- the pointer ------------------------------------------------------------------------------------------------

    def _view(self):
        window = self.bench.window
        views = [view for view in (window.front, window.front, window.side, window.plan) if view.isVisible()]
        return self.dice.choice(views)

    def _place(self, view) -> QPointF:
        """A place anywhere on a view, more often over a part of the pack."""
        parts = self.bench.session.shown.parts
        if parts and self.dice.random() < 0.6:
            at = self.dice.choice(parts).placement
            aside = self.dice.uniform(-200, 200) * self.dice.random(), self.dice.uniform(-160, 160) * self.dice.random()
            across, up = {
                self.bench.window.front: (at.y_mm, at.z_mm),
                self.bench.window.side: (at.x_mm + 10, at.z_mm),
                self.bench.window.plan: (at.y_mm, at.x_mm + 10),
            }[view]
            px = view.px_of(across + aside[0] * (0.1 if view is self.bench.window.side else 1), up + aside[1])
            if view.viewport().rect().contains(px.toPoint()):
                return px
        size = view.viewport().size()
        return QPointF(self.dice.uniform(0, size.width()), self.dice.uniform(0, size.height()))

    def _send(self, view, kind, px, button=LEFT, held=NONE) -> None:
        port = view.viewport()
        cause = Qt.MouseButton.NoButton if kind is MOVE else button
        buttons = Qt.MouseButton.NoButton if kind is RELEASE else button
        self.sent += 1
        QApplication.sendEvent(port, QMouseEvent(kind, px, port.mapToGlobal(px), cause, buttons, held))

    def _held(self) -> Qt.KeyboardModifier:
        return self.dice.choices((NONE, ALT, SHIFT, CTRL), (70, 15, 10, 5))[0]

    def _drag(self) -> None:
        view, held = self._view(), self._held()
        at = self._place(view)
        button = Qt.MouseButton.MiddleButton if self.dice.random() < 0.06 else LEFT
        self._send(view, PRESS, at, button, held)
        for _ in range(self.dice.randint(1, 5)):
            at = at + QPointF(self.dice.uniform(-60, 60), self.dice.uniform(-60, 60))
            self._send(view, MOVE, at, button, held)
            if self.dice.random() < 0.12:
                self._keys_in(view)
        if self.dice.random() < 0.9:
            self._send(view, RELEASE, at, button, held)

    def _keys_in(self, view) -> None:
        for _ in range(self.dice.randint(1, 4)):
            if self.dice.random() < 0.6:
                self._type(view, self.dice.choice(_TEXT))
            else:
                self._type(view, self.dice.choice(_PLAIN))

    def _click(self) -> None:
        view, held = self._view(), self._held()
        at = self._place(view)
        self._send(view, PRESS, at, held=held)
        self._send(view, RELEASE, at, held=held)
        if self.dice.random() < 0.2:
            self._send(view, QEvent.Type.MouseButtonDblClick, at, held=held)
            self._send(view, RELEASE, at, held=held)

    def _wheel(self) -> None:
        view = self._view()
        at = self._place(view)
        turn = QPoint(0, self.dice.choice((-240, -120, 120, 240)))
        event = QWheelEvent(
            at,
            view.viewport().mapToGlobal(at),
            QPoint(),
            turn,
            Qt.MouseButton.NoButton,
            self._held(),
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        self.sent += 1
        QApplication.sendEvent(view.viewport(), event)

    def _menu(self) -> None:
        view = self._view()
        by_key = self.dice.random() < 0.3
        reason = QContextMenuEvent.Reason.Keyboard if by_key else QContextMenuEvent.Reason.Mouse
        target = view if by_key else view.viewport()
        at = self._place(view).toPoint()
        self.sent += 1
        QApplication.sendEvent(target, QContextMenuEvent(reason, at, target.mapToGlobal(at)))
        menu = self.bench.window.context.opened
        if menu is None or not menu.isVisible():
            return
        harmless = [
            a
            for a in menu.actions()
            if a.text() and a.menu() is None and "…" not in a.text() and "shelf" not in a.text()
        ]
        if harmless and self.dice.random() < 0.5:
            action = self.dice.choice(harmless)
            menu.close()
            action.trigger()

    def _list(self) -> None:
        """A press in the pack list or the shelf, or a turn of the drawer's handle."""
        window = self.bench.window
        target: QWidget = self.dice.choice((window.pack.viewport(), window.shelf.tree.viewport(), window.drawer.handle))
        at = QPoint(self.dice.randrange(max(1, target.width())), self.dice.randrange(max(1, target.height())))
        self.sent += 2
        QTest.mouseClick(target, LEFT, self.dice.choice((NONE, NONE, CTRL, SHIFT)), at)
        if (
            target is window.shelf.tree.viewport()
            and self.dice.random() < 0.3
            and len(self.bench.session.project.parts) < 14
        ):
            self._type(window.shelf.tree, KEY.Key_Return)

    # --- the keyboard -----------------------------------------------------------------------------------------------

    def _target(self) -> QWidget:
        window = self.bench.window
        focused = QApplication.focusWidget()
        if focused is not None and focused.window() is window and self.dice.random() < 0.4:
            return focused
        view = self._view()
        if self.dice.random() < 0.7:
            view.setFocus()
        return view

    def _text(self) -> None:
        target = self._target()
        for _ in range(self.dice.randint(1, 4)):
            self._type(target, self.dice.choice(_TEXT))

    def _key(self) -> None:
        self._type(self._target(), self.dice.choice(_PLAIN), self.dice.choices((NONE, SHIFT, ALT), (80, 12, 8))[0])

    def _command(self) -> None:
        held = CTRL | SHIFT if self.dice.random() < 0.4 else CTRL
        if len(self.bench.session.project.parts) > 16:
            self._type(self.bench.window.front, KEY.Key_Delete)
            return
        self._type(self._target(), self.dice.choice(_COMMANDS), held)

    def _action(self) -> None:
        self.bench.window.menus.actions[self.dice.choice(_ACTIONS)].trigger()

    def _paint(self) -> None:
        """Have everything painted; what goes wrong in painting fails the test."""
        self.bench.look()
        released = QKeyEvent(QEvent.Type.KeyRelease, KEY.Key_Space, NONE)
        for view in (self.bench.window.front, self.bench.window.side, self.bench.window.plan):
            self.sent += 1
            QApplication.sendEvent(view, released)


@pytest.fixture(autouse=True)
def nothing_logged_as_a_fault(caplog):
    """What the window catches to go on is a fault here too."""
    yield
    assert [record.getMessage() for record in caplog.records if record.levelno >= logging.ERROR] == []


def is_valid(project: Project) -> bool:
    """Return whether the document reads back as the same, which checks every limit of every field."""
    return msgspec.json.decode(msgspec.json.encode(project), type=Project) == project


def spare_the_core(bench: Bench) -> None:
    """Have one change in many assessed and the others not known: a hand is quicker than thousands of assessments."""
    real, count = ScientificCore().assess, itertools.count()
    bench.session.use_core(lambda project, last: real(project, last) if next(count) % _ASSESSED_EACH == 0 else None)


def run(bench: Bench, seed: int, events: int) -> None:
    """Send so many events, then come to rest and go all the way back."""
    spare_the_core(bench)
    session = bench.session
    start = session.project
    session.undo_stack.setUndoLimit(0)
    QGuiApplication.clipboard().clear()
    hand = RandomHand(bench, random.Random(seed))
    checked = 0
    while hand.sent < events:
        hand.act()
        if hand.sent - checked >= 100:
            checked = hand.sent
            QApplication.processEvents()
            assert is_valid(session.project), f"after {hand.sent} events of seed {seed}"
    settle(bench)
    assert session.shown is session.project
    assert is_valid(session.project)
    assert session.undo_stack.count() > 10, "the hand has changed nothing: it tests nothing"
    while session.undo_stack.canUndo():
        session.undo_stack.undo()
    assert session.project == start
    assert msgspec.json.encode(session.project) == msgspec.json.encode(start)
    bench.look()


def settle(bench: Bench) -> None:
    """Let go of everything."""
    window = bench.window
    while (menu := QApplication.activePopupWidget()) is not None:
        menu.close()
    for view in (window.front, window.side, window.plan):
        view.cancel_gesture()
        view.put_tool_away()
    QApplication.processEvents()


def test_two_thousand_random_events_leave_a_sound_document_and_undo_leads_back(open_bench):
    bench = open_bench()
    bench.window.desk.open_file(bench.window.demos[0], as_demo=True)
    run(bench, 1, 2_000)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", range(100, 110))
def test_twenty_thousand_random_events_in_ten_windows(open_bench, seed):
    bench = open_bench()
    bench.window.desk.open_file(bench.window.demos[seed % 3], as_demo=True)
    run(bench, seed, 2_000)
