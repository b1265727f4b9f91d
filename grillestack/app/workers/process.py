"""The second process as the window sees it: started, spoken to, listened to, and ended with the window."""

from __future__ import annotations

import logging
import os
import sys
from typing import Final

import msgspec
from PySide6.QtCore import QObject, QProcess, QProcessEnvironment, Signal

from grillestack.app.workers.messages import FromWorker, ToWorker, line_of, said_in

_log = logging.getLogger(__name__)

_TO_END_MS: Final = 1000
_ONE_THREAD: Final = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS")


class WorkerProcess(QObject):
    """One second process; it ends by itself when this end of its pipe is gone, even if the window is killed."""

    said = Signal(object)  # FromWorker
    ended = Signal()  # without being asked to

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._process = QProcess(self)
        self._process.setProgram(sys.executable)
        # -P: a stray numpy.py in the folder of the project must not be taken for the library.
        self._process.setArguments(["-P", "-m", "grillestack.app.workers"])
        self._process.setProcessEnvironment(_environment())
        self._process.readyReadStandardOutput.connect(self._read)
        self._process.readyReadStandardError.connect(self._note)
        self._process.finished.connect(self._tell_end)
        self._process.errorOccurred.connect(self._tell_no_start)
        self._cut_off = b""
        self._is_closing = False

    @property
    def pid(self) -> int:
        """Return the number of the process, 0 if it does not run."""
        return self._process.processId()

    def start(self) -> None:
        """Start it; what is said before it runs is kept for it."""
        self._process.start()

    def say(self, message: ToWorker) -> None:
        """Say that to it."""
        if self._process.state() is not QProcess.ProcessState.NotRunning:
            self._process.write(line_of(message))

    def close(self) -> None:
        """End it and wait until it is gone."""
        self._is_closing = True
        if self._process.state() is QProcess.ProcessState.NotRunning:
            return
        self._process.closeWriteChannel()
        if not self._process.waitForFinished(_TO_END_MS):
            self._process.kill()
            self._process.waitForFinished(_TO_END_MS)

    def _read(self) -> None:
        lines = (self._cut_off + bytes(self._process.readAllStandardOutput().data())).split(b"\n")
        self._cut_off = lines.pop()
        for line in lines:
            if self._is_closing:
                return
            try:
                message: FromWorker = said_in(line)
            except msgspec.DecodeError:
                _log.exception("the second process said something that is no message")
                continue
            self.said.emit(message)

    def _note(self) -> None:
        words = bytes(self._process.readAllStandardError().data()).decode("utf-8", "replace").strip()
        if words and not self._is_closing:
            _log.warning("the second process: %s", words)

    def _tell_end(self, code: int, _status: QProcess.ExitStatus) -> None:
        if not self._is_closing:
            _log.warning("the second process ended with %d", code)
            self.ended.emit()

    def _tell_no_start(self, error: QProcess.ProcessError) -> None:
        # Every other error is followed by its end.
        if error is QProcess.ProcessError.FailedToStart and not self._is_closing:
            _log.warning("the second process did not start: %s", self._process.errorString())
            self.ended.emit()


def _environment() -> QProcessEnvironment:
    """Return this process's surroundings, with the same places to import from and one thread for numbers."""
    surroundings = QProcessEnvironment.systemEnvironment()
    surroundings.insert("PYTHONPATH", os.pathsep.join(place for place in sys.path if place))
    for name in _ONE_THREAD:
        surroundings.insert(name, "1")
    return surroundings
