"""Whether a key is meant for what the hand holds, before the window's own shortcuts get it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent

from grillestack.app.canvas.gestures.gesture import KeyTaker

_COMMAND_KEYS = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.MetaModifier


def is_meant_for(taker: KeyTaker | None, event: QEvent) -> bool:
    """Return whether the taker wants this key; with Ctrl it is a command of the window."""
    if taker is None or not isinstance(event, QKeyEvent) or event.modifiers() & _COMMAND_KEYS:
        return False
    return taker.wants_key(event.key(), event.text())


def is_tab_for(taker: KeyTaker | None, event: QKeyEvent) -> bool:
    """Return whether this is a press of Tab that the taker wants."""
    pressed = event.type() == QEvent.Type.KeyPress and event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)
    return pressed and is_meant_for(taker, event)
