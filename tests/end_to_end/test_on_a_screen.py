"""The program itself, started by its command on a real screen of an X server; without one, on the platform that paints into memory."""

from __future__ import annotations

import ctypes.util
import os
import re
import shutil
import subprocess
import sys

import pytest

from grillestack.assets.locate import demo_projects

# Started as a user starts it; only what a hand would do next comes from here, through events of the window system.
_AT_THE_SCREEN = """
import sys
from pathlib import Path
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from grillestack.app import start
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores

class Watched(start.FirstPaint):
    def __init__(self, widget, then):
        def go_on():
            then()
            QTimer.singleShot(0, lambda: sit(widget.window()))
        super().__init__(widget, go_on)

def sit(window):
    try:
        drag(window)
    except BaseException as error:
        print("trouble", repr(error), flush=True)
    window.session.undo_stack.setClean()
    window.close()
    QApplication.instance().quit()

def drag(window):
    print("platform", QGuiApplication.platformName(), flush=True)
    print("before", window.session.assessment.verdict.value, flush=True)
    cooler = cores(window.session.project, CoreRole.CHARGE_AIR_COOLER)[0]
    front = window.front
    at = front.px_of(cooler.placement.y_mm, cooler.placement.z_mm).toPoint()
    handle, port = window.windowHandle(), front.viewport()
    place = lambda p: port.mapTo(window, p)
    QTest.mousePress(handle, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place(at))
    down = round(116 * front.heights.px_per_mm)
    for step in range(1, 5):
        QTest.mouseMove(handle, place(at + QPoint(0, down * step // 4)))
        QApplication.processEvents()
    print("held", window.session.assessment.verdict.value, window.session.undo_stack.count(), flush=True)
    QTest.mouseRelease(handle, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place(at + QPoint(0, down)))
    QApplication.processEvents()
    print("after", window.session.assessment.verdict.value, window.session.undo_stack.count(), flush=True)
    picture = window.screen().grabWindow(window.winId()) if sys.argv[2] == "screen" else window.grab()
    picture.save(sys.argv[3])

start.FirstPaint = Watched
sys.exit(start.run_window(Path(sys.argv[1])))
"""


@pytest.fixture
def screen():
    """Give the environment of a screen: an X server of our own where there is one, else painting into memory."""
    server = shutil.which("Xvfb")
    env = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    # Qt's way to X needs this library, which is not there just because a server is.
    if server is None or ctypes.util.find_library("xcb-cursor") is None:
        yield {**env, "QT_QPA_PLATFORM": "offscreen"}, "offscreen"
        return
    reads, writes = os.pipe()
    process = subprocess.Popen(
        [server, "-displayfd", str(writes), "-screen", "0", "1400x900x24", "-nolisten", "tcp"],
        pass_fds=[writes],
        stderr=subprocess.DEVNULL,
    )
    os.close(writes)
    try:
        with os.fdopen(reads) as number:
            display = number.readline().strip()  # the server writes its number once it answers
        yield {**env, "DISPLAY": f":{display}", "QT_QPA_PLATFORM": "xcb"}, "xcb"
    finally:
        process.terminate()
        process.wait()


def test_a_drag_on_a_real_screen_turns_the_verdict(screen, tmp_path):
    env, platform = screen
    shot = tmp_path / "screen.png"
    how = "screen" if platform == "xcb" else "memory"
    told = subprocess.run(
        [sys.executable, "-c", _AT_THE_SCREEN, str(demo_projects()[2]), how, str(shot)],
        env=env,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    said = dict(line.split(maxsplit=1) for line in told.stdout.splitlines())
    assert "trouble" not in said, said
    assert told.returncode == 0, told.stderr
    assert said["platform"] == platform
    assert said["before"] == "fail"
    assert re.fullmatch("(pass|close) 0", said["held"]), said
    assert re.fullmatch("(pass|close) 1", said["after"]), said
    assert shot.stat().st_size > 10_000
