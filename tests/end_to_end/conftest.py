"""Windows at the bench, and a watch on what goes wrong inside Qt, where Python only prints it."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.end_to_end.bench import Person, close_window, open_window


@pytest.fixture(autouse=True)
def no_exception_inside_qt(monkeypatch):
    """An exception in a slot or in painting is printed and Qt goes on: make it fail the test."""
    caught = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, error, _trace: caught.append(error))
    monkeypatch.setattr(sys, "unraisablehook", lambda raised: caught.append(raised.exc_value))
    yield
    assert not caught, f"raised inside Qt: {caught!r}"


@pytest.fixture
def open_bench(qapp, tmp_path):
    """Return a function that opens one more window, empty or with a file in it."""
    opened = []

    def make(path: Path | None = None, *, as_demo: bool = False, **made):
        bench = open_window(Person(save_path=tmp_path / "mine.grillestack"), **made)
        opened.append(bench)
        if path is not None:
            assert bench.window.desk.open_file(path, as_demo=as_demo)
        return bench

    yield make
    for bench in opened:
        close_window(bench)


@pytest.fixture
def bench(open_bench):
    """Give one window with nothing in it."""
    return open_bench()


@pytest.fixture
def failing(open_bench):
    """Give one window with the third demo in it, which fails."""
    made = open_bench()
    made.window.desk.open_file(made.window.demos[2], as_demo=True)
    return made
