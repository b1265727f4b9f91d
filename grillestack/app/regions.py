"""F6 leads the keyboard from one region of the window to the next, Shift+F6 back: the long way by Tab is not needed."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QWidget


class Regions(QObject):
    """The regions in the order in which the eye goes through them."""

    def __init__(self, window: QWidget, regions: Sequence[QWidget]) -> None:
        super().__init__(window)
        self._regions = tuple(regions)
        for keys, step in (("F6", 1), ("Shift+F6", -1)):
            shortcut = QShortcut(QKeySequence(keys), window)
            shortcut.activated.connect(lambda step=step: self.go(step))

    def go(self, step: int) -> None:
        """Enter the next region that is shown, or the one before for a step of -1."""
        count, here = len(self._regions), self._here()
        start = here if here is not None else (-1 if step > 0 else 0)
        for away in range(1, count + 1):
            whole = self._regions[(start + step * away) % count]
            target = first_in(whole) if whole.isVisible() else None
            if target is not None:
                target.setFocus(Qt.FocusReason.ShortcutFocusReason)
                return

    def _here(self) -> int | None:
        focus = QApplication.focusWidget()
        for place, whole in enumerate(self._regions):
            if focus is not None and (focus is whole or whole.isAncestorOf(focus)):
                return place
        return None


def first_in(whole: QWidget) -> QWidget | None:
    """Return what takes the keyboard there: the region itself, else the first inside it to which Tab comes."""
    if whole.focusPolicy() is Qt.FocusPolicy.StrongFocus:
        return whole
    after = whole.nextInFocusChain()
    while after is not None and after is not whole:
        reached = after.focusPolicy() & Qt.FocusPolicy.TabFocus and after.isVisible() and after.isEnabled()
        if reached and whole.isAncestorOf(after):
            return after
        after = after.nextInFocusChain()
    return None
