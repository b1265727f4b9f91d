"""What holds for all tests: no window on a real screen, no file of the user touched, nightly tests on request only."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

# Before anything loads Qt: it reads its platform once.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="rewrite reference outputs and schemas; read the diff before committing it",
    )


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if re.search(r"\bnightly\b", config.getoption("markexpr")):
        return
    skip = pytest.mark.skip(reason="nightly: run with `pytest -m nightly`")
    for item in items:
        if item.get_closest_marker("nightly") is not None:
            item.add_marker(skip)


@pytest.fixture(autouse=True)
def _folders_of_this_test_only(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Lead every place where the program keeps files of its own into a folder of this test."""
    home = tmp_path_factory.mktemp("home", numbered=True)
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("USERPROFILE", str(home))
    for name in ("STATE", "DATA", "CONFIG", "CACHE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(home / name.lower()))
    for name in ("APPDATA", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(home / name.lower()))


@pytest.fixture
def update_golden(request: pytest.FixtureRequest) -> bool:
    """Return whether reference outputs are to be rewritten instead of compared."""
    return bool(request.config.getoption("--update-golden"))


@pytest.fixture
def golden(update_golden: bool):
    """Return a function that compares bytes with a kept file, or rewrites the file under `--update-golden`."""

    def compare(path: Path, made: bytes) -> None:
        if update_golden:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(made)
        assert path.is_file(), f"{path.name} is not kept yet: run `pytest --update-golden`, then read the diff"
        kept = path.read_text(encoding="utf-8").splitlines()
        assert made.decode("utf-8").splitlines() == kept, f"{path.name} is out of date: run `pytest --update-golden`"
        assert path.read_bytes() == made

    return compare
