"""What one mouse move of a drag costs in the whole window, and where the time goes: from the event to the last pixel."""

from __future__ import annotations

import importlib
import statistics
import time
from collections import defaultdict

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.mm_view import MmView
from grillestack.app.look import colour_application, palette_of, prepare_application
from grillestack.assets.locate import demo_projects
from grillestack.storage.settings import Look
from tests.end_to_end.bench import MOVE, PRESS, RELEASE, Person, close_window, open_window

MOVES = 80
WARMING_MOVES = 8
# A frame of 16 ms with an answer of 9 to 10 ms in it is 1.7 answers; asserted is twice that.
AIM_ASSESSMENTS = 1.7
MOST_FRAMES = 200
ROWS = (
    "geometry",
    "air and heat",
    "findings",
    "panels and drawings follow",
    "canvas painted",
    "rest painted",
    "whole step",
    "on the clock",
)
_CORE = importlib.import_module("grillestack.assess.assess")


class Clocks:
    """Adds up the time spent in some functions, apart for each mouse move."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = defaultdict(float)
        self.calls: dict[str, int] = defaultdict(int)

    def timed(self, name, function):
        """Return the function, its time added under that name."""

        def run(*arguments, **named):
            begin = time.thread_time()
            try:
                return function(*arguments, **named)
            finally:
                self.seconds[name] += time.thread_time() - begin
                self.calls[name] += 1

        return run

    def take(self) -> dict[str, float]:
        """Return the times since the last taking."""
        taken, self.seconds = dict(self.seconds), defaultdict(float)
        return taken


@pytest.fixture
def coloured(qapp):
    """Give the application as a user has it: its style, its font, its colours."""
    before = qapp.styleSheet(), qapp.palette(), qapp.font(), qapp.style().name()
    prepare_application(qapp)
    colour_application(qapp, palette_of(Look.LIGHT))
    yield qapp
    qapp.setStyleSheet(before[0])
    qapp.setPalette(before[1])
    qapp.setFont(before[2])
    qapp.setStyle(before[3])


def times_of_a_drag(demo, monkeypatch):
    """Return, for each move, the seconds in every row of the table, and those of the assessment alone."""
    clocks = Clocks()
    for name in ("build_overlay", "core_faces", "depth_report"):
        monkeypatch.setattr(_CORE, name, clocks.timed("geometry", getattr(_CORE, name)))
    paint = MmView.paintEvent
    monkeypatch.setattr(MmView, "paintEvent", lambda view, event: clocks.timed("canvas painted", paint)(view, event))
    bench = open_window(Person())
    window, session = bench.window, bench.session
    try:
        session._assess = clocks.timed("assessment", session._assess)
        window.verdict._advise = clocks.timed("findings", window.verdict._advise)
        window.resize(1600, 1000)
        window.desk.open_file(demo, as_demo=True)
        QApplication.processEvents()
        window.front.zoom_to_fit()
        QApplication.processEvents()
        start = bench.middle_px(bench.charge_air_cooler().id)
        bench.mouse(PRESS, start)
        rows = []
        for number in range(WARMING_MOVES + MOVES):
            at = start + QPointF(0.4 * number, 1.0 * (number + 5))
            clocks.take()
            painted = clocks.calls["canvas painted"]
            wall, begin = time.perf_counter(), time.thread_time()
            bench.mouse(MOVE, at)
            told = time.thread_time()
            for _ in range(MOST_FRAMES):
                QApplication.processEvents()
                # Both views, each once: a frame that is not on the screen yet costs nothing and helps nobody.
                if clocks.calls["canvas painted"] >= painted + 2:
                    break
            end, wall = time.thread_time(), time.perf_counter() - wall
            assert clocks.calls["canvas painted"] <= painted + 2
            spent = clocks.take()
            assessment, findings = spent.get("assessment", 0.0), spent.get("findings", 0.0)
            geometry, canvas = spent.get("geometry", 0.0), spent.get("canvas painted", 0.0)
            row = {
                "geometry": geometry,
                "air and heat": assessment - geometry,
                "findings": findings,
                "panels and drawings follow": told - begin - assessment - findings,
                "canvas painted": canvas,
                "rest painted": end - told - canvas,
                "whole step": end - begin,
                "assessment": assessment,
                "on the clock": wall,
            }
            if number >= WARMING_MOVES and assessment > 0.0:
                rows.append(row)
        assert session.in_trial
        bench.mouse(RELEASE, at)
        return rows
    finally:
        close_window(bench)


@pytest.mark.benchmark
@pytest.mark.parametrize("demo", demo_projects(), ids=lambda path: path.stem)
def test_a_mouse_move_costs_little_more_than_its_answer(coloured, monkeypatch, record_property, demo):
    """Aim: 1.7 assessments for the whole step, with every pixel, each view painted once. Asserted: twice that.

    Times are those of the processor, so that what else the machine does counts little; the clock's are told beside them.
    """
    rows = times_of_a_drag(demo, monkeypatch)
    # Snapped to whole millimetres, a few moves show what the one before showed; most must have asked for an answer.
    assert len(rows) > MOVES / 2
    print(f"\n{demo.stem}: {len(rows)} moves\n{'':28}median    p95")
    for name in ROWS:
        ms = sorted(1e3 * row[name] for row in rows)
        median, late = statistics.median(ms), ms[int(0.95 * len(ms))]
        print(f"{name:26}{median:6.1f} {late:6.1f} ms")
        record_property(f"{name.replace(' ', '_')}_ms", round(median, 1))
    whole, alone = (statistics.median(row[name] for row in rows) for name in ("whole step", "assessment"))
    print(f"{whole / alone:.2f} assessments, aim {AIM_ASSESSMENTS}")
    record_property("assessments_a_step", round(whole / alone, 2))
    assert whole <= 2 * AIM_ASSESSMENTS * alone
