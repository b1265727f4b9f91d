"""What happens to work and to files when something goes wrong: read-only, damaged, left unsaved, killed."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.dialogs import Unsaved
from grillestack.app.start import open_first
from grillestack.assets.locate import demo_projects
from grillestack.storage.autosave import pending_recoveries
from grillestack.storage.project_file import read_project
from tests.end_to_end.bench import CTRL, LEFT


@pytest.fixture
def mine(tmp_path):
    """Give a file of the user's own: a copy of the failing demo."""
    return Path(shutil.copy(demo_projects()[2], tmp_path / "my truck.grillestack"))


@pytest.fixture
def at_work(open_bench, mine):
    """Give a window with the user's file in it and one change that is not saved."""
    made = open_bench(mine)
    made.session.select([made.charge_air_cooler().id])
    made.key(Qt.Key.Key_Down)
    assert not made.session.is_clean
    return made


def test_a_read_only_file_is_told_in_the_strip_and_save_as_gets_the_work_out(at_work, mine):
    before = mine.read_bytes()
    mine.chmod(0o444)
    at_work.key(Qt.Key.Key_S, CTRL)
    (sentence,) = at_work.window.strip.sentences()
    assert mine.name in sentence
    assert at_work.window.strip.isVisible()
    assert mine.read_bytes() == before
    assert at_work.window.isWindowModified()
    at_work.look()
    at_work.key(Qt.Key.Key_S, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert read_project(at_work.person.save_path) == at_work.session.project
    assert not at_work.window.isWindowModified()
    assert at_work.window.strip.sentences() == []


@pytest.mark.parametrize("keep", [0, 1, 300, -1])
def test_a_damaged_file_is_told_in_the_strip_and_what_is_open_stays(open_bench, at_work, mine, tmp_path, keep):
    damaged = tmp_path / "damaged.grillestack"
    damaged.write_bytes(mine.read_bytes()[:keep] if keep >= 0 else b"\x00\xff" * 400)
    before = at_work.session.project
    at_work.person.open_path = damaged
    at_work.key(Qt.Key.Key_O, CTRL)
    (sentence,) = at_work.window.strip.sentences()
    assert "damaged.grillestack" in sentence
    assert sentence.endswith(".")
    assert at_work.session.project is before
    assert at_work.verdict_word() == "Fail"
    assert damaged.exists()


@pytest.mark.parametrize(("answer", "stays"), [(Unsaved.CANCEL, True), (Unsaved.SAVE, False), (Unsaved.LEAVE, False)])
def test_closing_with_unsaved_work_asks_once_and_does_as_told(at_work, mine, answer, stays):
    before, work = mine.read_bytes(), at_work.session.project
    at_work.person.unsaved = answer
    at_work.key(Qt.Key.Key_Q, CTRL)
    assert [asked.split()[0] for asked in at_work.person.asked] == ["unsaved"]
    assert at_work.window.isVisible() is stays
    assert (mine.read_bytes() != before) is (answer is Unsaved.SAVE)
    if answer is Unsaved.SAVE:
        assert read_project(mine) == work


def test_work_that_was_left_on_closing_is_offered_by_the_next_window(at_work, open_bench):
    work = at_work.session.project
    at_work.person.unsaved = Unsaved.LEAVE
    at_work.key(Qt.Key.Key_Q, CTRL)
    following = open_bench()
    following.window.desk.look_for_recoveries()
    assert "my truck.grillestack" in following.window.strip.sentences()[0]
    QTest.mouseClick(following.window.strip.buttons()[0], LEFT)
    assert following.session.project == work


_KILLED = """
import os, signal, sys
from pathlib import Path
from PySide6.QtWidgets import QApplication
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.start import furnished_window
from grillestack.model.edits import set_title
from grillestack.storage.settings import Settings
from grillestack.units.display import UnitSystem

app = QApplication([])
core = ScientificCore()
session = Session(core.assess, UnitSystem.METRIC)
window, _ = furnished_window(session, core, Settings())
window.show()
window.desk.open_file(Path(sys.argv[1]))
session.apply("rename", set_title(session.project, "Worked on until the lights went out"))
assert window.desk.timer.isActive()
window.desk.timer.timeout.emit()  # two seconds later
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no signal that kills at once")
def test_work_of_a_window_that_was_killed_is_offered_taken_up_and_saved(open_bench, mine):
    before = mine.read_bytes()
    told = subprocess.run(
        [sys.executable, "-c", _KILLED, str(mine)], capture_output=True, text=True, check=False, env=os.environ.copy()
    )
    assert told.returncode == -signal.SIGKILL, told.stderr
    assert mine.read_bytes() == before
    bench = open_bench()
    bench.window.desk.look_for_recoveries()
    (sentence,) = bench.window.strip.sentences()
    assert "my truck.grillestack" in sentence
    assert [button.text() for button in bench.window.strip.buttons()] == ["Go on with it", "Throw it away"]
    bench.look()
    QTest.mouseClick(bench.window.strip.buttons()[0], LEFT)
    assert bench.session.project.title == "Worked on until the lights went out"
    assert bench.session.path == mine
    assert bench.window.isWindowModified()
    assert bench.verdict_word() == "Fail"
    bench.key(Qt.Key.Key_S, CTRL)
    assert read_project(mine).title == "Worked on until the lights went out"
    assert pending_recoveries() == ()


def test_a_killed_window_whose_work_is_thrown_away_leaves_the_file_as_it_was(open_bench, at_work, mine):
    before = mine.read_bytes()
    at_work.window.desk.keep_now()
    at_work.window.desk.close()  # what the system does to the locks of a process that ends
    following = open_bench()
    following.window.desk.look_for_recoveries()
    QTest.mouseClick(following.window.strip.buttons()[1], LEFT)
    assert pending_recoveries() == ()
    assert mine.read_bytes() == before
    assert following.window.strip.sentences() == []


@pytest.mark.parametrize("way", ["named on the command line", "chosen in the dialog"])
def test_a_demo_is_never_written_over_however_it_was_opened(open_bench, way):
    demo = demo_projects()[2]
    before = demo.read_bytes()
    bench = open_bench()
    if way == "chosen in the dialog":
        bench.person.open_path = demo
        bench.key(Qt.Key.Key_O, CTRL)
    else:
        open_first(bench.window, demo)
    bench.session.select([bench.charge_air_cooler().id])
    bench.key(Qt.Key.Key_Down)
    bench.key(Qt.Key.Key_S, CTRL)
    assert bench.person.asked[-1].startswith("save ")
    assert demo.read_bytes() == before
    assert read_project(bench.person.save_path) == bench.session.project
