"""When has the window been painted for the first time, so that slow things may begin."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget

_AT_THE_LATEST_MS = 1500  # a window that opens minimised is not painted at all


class FirstPaint(QObject):
    """Calls once after the widget's first paint, or after a while if there is none."""

    def __init__(self, widget: QWidget, then: Callable[[], None]) -> None:
        super().__init__(widget)
        self._then: Callable[[], None] | None = then
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._call)
        self._timer.start(_AT_THE_LATEST_MS)
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let the paint pass, and call when the queue is empty after it."""
        if event.type() == QEvent.Type.Paint and self._then is not None:
            watched.removeEventFilter(self)
            self._timer.start(0)
        return False

    def _call(self) -> None:
        then, self._then = self._then, None
        if then is not None:
            then()
