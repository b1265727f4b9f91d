"""The second process as the window holds it: it answers, it ends with the window however that ends, nothing is left."""

import contextlib
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from grillestack.app.workers.answers import unpacked
from grillestack.app.workers.messages import Answer, Ask, Progress, Question
from grillestack.app.workers.process import WorkerProcess
from grillestack.assess.waterfall import waterfall
from tests.app.workers.made import demo

LONG_MS = 60_000  # for a loaded machine; nothing waits that long when all is well

ONLY_POSIX = pytest.mark.skipif(os.name != "posix", reason="looks for processes by number")


def runs(pid):
    """Return whether that process is there, a dead one that nobody has buried counted in."""
    with contextlib.suppress(ProcessLookupError):
        os.kill(pid, 0)
        return True
    return False


def works(pid):
    """Return whether that process still does something: an orphan may stay dead and unburied where nobody buries."""
    place = Path(f"/proc/{pid}/stat")
    try:
        return place.read_text().rpartition(")")[2].split()[0] != "Z" if place.parent.parent.is_dir() else runs(pid)
    except FileNotFoundError:
        return False


def ask(number, question=Question.DEGREES):
    return Ask(number=number, question=question, project=demo(1), case_id="case-1", from_case_id="case-3")


@pytest.fixture
def worker(qapp):
    made = WorkerProcess()
    yield made
    made.close()
    made.deleteLater()


@ONLY_POSIX
def test_it_answers_to_the_last_digit_and_is_gone_when_closed(worker, qtbot):
    said, ends = [], []
    worker.said.connect(said.append)
    worker.ended.connect(lambda: ends.append(1))
    worker.start()
    worker.say(ask(1))
    qtbot.waitUntil(lambda: any(isinstance(one, Answer) for one in said), timeout=LONG_MS)
    answer = next(one for one in said if isinstance(one, Answer))
    assert unpacked(Question.DEGREES, answer.result) == waterfall(demo(1), "case-1")
    pid = worker.pid
    assert runs(pid)
    worker.close()
    assert worker.pid == 0
    assert not runs(pid)
    assert ends == []


@ONLY_POSIX
def test_closed_in_the_midst_of_its_work_it_is_gone_and_says_nothing_more(worker, qtbot):
    said = []
    worker.said.connect(said.append)
    worker.start()
    for number in range(40):
        worker.say(ask(number, Question.CHANGES))
    qtbot.waitUntil(lambda: any(isinstance(one, Progress) for one in said), timeout=LONG_MS)
    pid, told = worker.pid, len(said)
    worker.close()
    assert not runs(pid)
    assert len(said) == told


@ONLY_POSIX
def test_killed_it_tells_its_end_once(worker, qtbot, caplog):
    worker.start()
    with qtbot.waitSignal(worker.ended, timeout=LONG_MS):
        os.kill(worker.pid, signal.SIGKILL)
    assert worker.pid == 0
    worker.say(ask(1))
    assert "ended" in caplog.text


def test_a_process_that_cannot_be_started_tells_its_end(worker, qtbot, caplog):
    worker._process.setProgram("no-such-program-of-ours")
    with qtbot.waitSignal(worker.ended, timeout=LONG_MS):
        worker.start()
    assert "did not start" in caplog.text


def test_one_that_never_ran_can_be_closed(worker):
    worker.close()
    assert worker.pid == 0


@ONLY_POSIX
def test_it_ends_when_the_window_is_killed(qtbot):
    window = """
import sys
from PySide6.QtCore import QCoreApplication
from grillestack.app.workers.messages import Ask, Question
from grillestack.app.workers.process import WorkerProcess
from tests.app.workers.made import demo
app = QCoreApplication([])
worker = WorkerProcess()
worker.said.connect(lambda _said: print(worker.pid, flush=True))
worker.start()
for number in range(200):
    worker.say(Ask(number=number, question=Question.CHANGES, project=demo(1), case_id="case-1"))
app.exec()
"""
    places = os.pathsep.join(place for place in sys.path if place)
    with subprocess.Popen(
        [sys.executable, "-c", window], stdout=subprocess.PIPE, env={**os.environ, "PYTHONPATH": places}
    ) as process:
        pid = int(process.stdout.readline())
        assert runs(pid)
        process.kill()
        process.wait(timeout=60)
    qtbot.waitUntil(lambda: not works(pid), timeout=LONG_MS)
