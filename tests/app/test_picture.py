"""The picture is the real window with the real answer in it, of the size asked for."""

import os
import subprocess
import sys

import pytest
from PySide6.QtGui import QColor, QImage

from grillestack.app import start
from grillestack.app.picture import write_picture
from grillestack.app.workers.messages import Question
from grillestack.assets.locate import demo_projects
from grillestack.storage.project_file import write_project


@pytest.fixture
def on_disk(tmp_path, truck):
    path = tmp_path / "truck.grillestack"
    write_project(truck, path)
    return path


def test_it_has_the_size_asked_for_and_is_no_empty_sheet(qapp, on_disk, tmp_path):
    out = tmp_path / "shot.png"
    assert write_picture(on_disk, out, 1280, 800) == 0
    image = QImage(str(out))
    assert (image.width(), image.height()) == (1280, 800)
    seen = {QColor(image.pixel(x, y)).name() for x in range(0, 1280, 8) for y in range(0, 800, 8)}
    assert len(seen) > 20


def test_no_display_is_needed(on_disk, tmp_path):
    out = tmp_path / "shot.png"
    env = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    code = (
        "import sys; from pathlib import Path; from grillestack.app.picture import write_picture;"
        "sys.exit(write_picture(Path(sys.argv[1]), Path(sys.argv[2]), 1300, 820))"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, str(on_disk), str(out)], env=env, capture_output=True, text=True, check=False
    )
    assert told.returncode == 0, told.stderr
    assert told.stderr == ""
    assert QImage(str(out)).width() == 1300


def test_a_file_that_cannot_be_read_is_a_sentence_and_no_picture(qapp, tmp_path, capsys):
    out = tmp_path / "shot.png"
    assert write_picture(tmp_path / "none.grillestack", out, 1280, 800) == 1
    assert "none.grillestack" in capsys.readouterr().err
    assert not out.exists()


def test_a_size_the_window_cannot_take_is_refused(qapp, on_disk, tmp_path, capsys):
    out = tmp_path / "shot.png"
    assert write_picture(on_disk, out, 300, 200) == 1
    assert "ask for a larger picture" in capsys.readouterr().err
    assert not out.exists()


def test_a_folder_that_is_not_there_is_refused(qapp, on_disk, tmp_path, capsys):
    assert write_picture(on_disk, tmp_path / "no" / "shot.png", 1280, 800) == 1
    assert "shot.png" in capsys.readouterr().err


def test_no_file_of_the_user_remembers_the_picture(qapp, on_disk, tmp_path):
    from grillestack.storage.recent import recent_files

    write_picture(on_disk, tmp_path / "shot.png", 1280, 800)
    assert recent_files() == ()


def test_nothing_in_it_is_still_being_worked_at(qapp, tmp_path, monkeypatch):
    standings = []

    class Watched(start.MainWindow):
        def grab(self, *area):
            standings.extend(self.further.standing(question) for question in Question)
            return super().grab(*area)

    monkeypatch.setattr(start, "MainWindow", Watched)
    assert write_picture(demo_projects()[0], tmp_path / "shot.png", 1280, 800) == 0
    assert [standing.is_current for standing in standings] == [True] * len(Question)
