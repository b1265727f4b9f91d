"""Libraries that cost time at start are loaded by those who need them, after the first paint or never."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

HEAVY = ("scipy", "ezdxf", "reportlab", "pint")
PRINT_LOADED = "import json, sys; print(json.dumps(sorted({name.partition('.')[0] for name in sys.modules})))"


@pytest.mark.parametrize("module", ["grillestack.app.window", "grillestack.app.start", "grillestack.cli.main"])
def test_heavy_libraries_are_absent_after_import_of(module: str) -> None:
    assert _loaded_after(f"import {module}").isdisjoint(HEAVY)


def test_nothing_but_the_standard_library_is_loaded_before_the_verb_is_known() -> None:
    loaded = _loaded_after("import grillestack.__main__")
    assert loaded.isdisjoint((*HEAVY, "PySide6", "numpy", "shapely", "fluids", "msgspec"))


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["assess", "missing.grillestack"]])
def test_qt_is_absent_when_the_terminal_answers(words: list[str]) -> None:
    loaded = _loaded_after(
        f"import grillestack.__main__ as m, io, sys; out = sys.stdout; sys.stdout = io.StringIO(); m.main({words!r}); sys.stdout = out"
    )
    assert "PySide6" not in loaded
    assert loaded.isdisjoint(("ezdxf", "reportlab"))


def _loaded_after(line: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", f"{line}\n{PRINT_LOADED}"],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return set(json.loads(done.stdout))
