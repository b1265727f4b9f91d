"""The window starts painted, then gets its core; faults are told and the work is kept."""

import os
import subprocess
import sys

import pytest
from PySide6.QtCore import QLocale, QSize

from grillestack.app import start
from grillestack.app.kept_choices import first_size, show_choices
from grillestack.app.scientific_core import ScientificCore
from grillestack.model.edits import set_title
from grillestack.storage.autosave import pending_recoveries
from grillestack.storage.project_file import write_project
from grillestack.storage.settings import Look, Settings, load_settings
from grillestack.units.display import UnitSystem


def test_the_window_can_be_painted_before_the_scientific_core_is_loaded():
    code = (
        "import sys, grillestack.app.start\n"
        "print([m for m in ('numpy', 'shapely', 'fluids', 'scipy', 'pint') if m in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


def test_the_core_says_what_assess_says(truck):
    from grillestack.advice.findings import findings
    from grillestack.assess.assess import assess

    core = ScientificCore()
    assessment = core.assess(truck)
    assert assessment.verdict is assess(truck).verdict
    assert core.advise(truck, assessment, UnitSystem.METRIC) == findings(truck, assessment, UnitSystem.METRIC)


@pytest.mark.parametrize(
    ("name", "system"),
    [("metric", UnitSystem.METRIC), ("inch", UnitSystem.INCH), ("", UnitSystem.METRIC), ("cubits", UnitSystem.METRIC)],
)
def test_units_of_the_settings_are_taken_if_known(name, system):
    assert start.units_of(Settings(unit_system=name), QLocale.c()) is system


def test_a_fault_is_told_in_the_strip_and_the_work_is_kept(window, session):
    session.apply("rename", set_title(session.project, "Precious"))
    report = start._hook(window)
    report(ZeroDivisionError, ZeroDivisionError("inside"), None)
    assert window.strip.sentences() == [start.FAULT]
    window.desk.close()
    assert [r.project.title for r in pending_recoveries()] == ["Precious"]


def test_opening_without_a_file_shows_the_first_demo_and_with_one_that_file(window, session, tmp_path, truck):
    demo, mine = tmp_path / "demo.grillestack", tmp_path / "mine.grillestack"
    write_project(set_title(truck, "Demo"), demo)
    write_project(set_title(truck, "Mine"), mine)
    window.demos = (demo,)
    start.open_first(window, None)
    assert session.project.title == "Demo"
    assert session.path is None
    start.open_first(window, mine)
    assert session.project.title == "Mine"
    assert session.path == mine


def test_look_units_and_place_are_remembered(window, session):
    session.set_units(UnitSystem.INCH)
    window.look = Look.DARK
    start._keep_settings(window, Settings(bench_mode=True))
    kept = load_settings()
    assert (kept.look, kept.unit_system, kept.bench_mode) == (Look.DARK, "inch", False)
    assert kept.window_geometry_text


def test_only_who_never_closed_a_window_is_told_what_to_try(window):
    assert start.is_first_start(load_settings())
    start._keep_settings(window, Settings())
    assert not start.is_first_start(load_settings())


def test_the_hints_stand_on_the_demo_of_the_first_start_and_on_no_file_of_ones_own(window, tmp_path, truck):
    path = tmp_path / "mine.grillestack"
    write_project(truck, path)
    window.demos = (path,)
    start.open_first(window, path)
    start.greet(window, path, Settings())
    assert all(note.isHidden() for note in window.hints.notes)
    start.open_first(window, None)
    start.greet(window, None, Settings())
    assert all(note.isVisible() for note in window.hints.notes)
    window.hints.put_away()
    start.greet(window, None, Settings(window_geometry_text="kept"))
    assert all(note.isHidden() for note in window.hints.notes)


def test_the_window_is_made_for_the_document_that_comes_and_trouble_with_it_is_left_for_its_opening(tmp_path, truck):
    path = tmp_path / "mine.grillestack"
    write_project(truck, path)
    assert start.project_to_come(path) == truck
    assert "invented" in start.project_to_come(None).title.lower()
    path.write_bytes(b"{ cut off")
    assert start.project_to_come(path) is None
    assert start.project_to_come(tmp_path / "gone.grillestack") is None


def test_a_first_window_has_its_first_size_and_a_later_one_its_last(window):
    show_choices(window, Settings())
    assert window.size() == first_size(window.screen().availableSize())
    assert first_size(QSize(1920, 1080)) == QSize(1280, 800)
    assert first_size(QSize(640, 400)) == QSize(640, 400)  # a screen of 1280 by 800 at 200 %
    smallest = window.minimumSizeHint()
    assert smallest.width() <= 1280
    assert smallest.height() <= 800
    window.setGeometry(0, 40, smallest.width() + 5, smallest.height() + 5)
    start._keep_settings(window, Settings())
    window.resize(1280, 800)
    show_choices(window, load_settings())
    assert window.width() < 1280


def test_what_cannot_be_had_for_the_shelf_is_said_and_the_rest_is_there(qtbot, session, tmp_path, monkeypatch):
    folder = tmp_path / "grillestack"
    folder.mkdir()
    (folder / "own_parts.json").write_text("{ cut off", encoding="utf-8")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    window, complaints = start.furnished_window(session, ScientificCore(), Settings())
    qtbot.addWidget(window)
    window.desk.close()
    assert any("own_parts.json" in sentence for sentence in complaints)
    assert window.shelf.find_part("own-size-radiator") is not None


@pytest.mark.skipif(os.name != "posix", reason="looks for the process by its number")
def test_the_second_process_is_started_after_the_first_verdict_and_gone_when_the_window_is_closed():
    code = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from grillestack.app import start
from grillestack.app.kept_choices import first_size, show_choices
from grillestack.app.window import MainWindow
from grillestack.app.workers.messages import Question

def window():
    return next(one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow))

class Watched(start.WorkerProcess):
    def __init__(self):
        super().__init__()
        print("verdict first" if window().session.assessment is not None else "too early")

start.WorkerProcess = Watched
app = QApplication([])

def look():
    further = window().further
    if further.standing(Question.DEGREES).is_current:
        timer.stop()
        pid = further._worker.pid
        window().close()
        try:
            os.kill(pid, 0)
            print("still there")
        except ProcessLookupError:
            print("gone")

timer = QTimer()
timer.timeout.connect(look)
timer.start(20)
sys.exit(start.run_window(None))
"""
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=120)
    assert told.returncode == 0, told.stderr
    assert told.stdout.split("\n")[:2] == ["verdict first", "gone"]
