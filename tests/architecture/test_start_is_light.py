"""Libraries that cost time at start are loaded by those who need them, after the first paint or never."""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

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


# Where an import may wait for its first use, and of what: the rest of the code shows its imports at the top.
LATE = {
    "__main__.py": ("grillestack.app", "grillestack.cli", "importlib.metadata"),
    "units/": ("pint",),
    "sheets/": ("ezdxf", "reportlab"),
    "app/": (
        "grillestack.app.workers.answers",
        "grillestack.assess",
        "grillestack.advice",
        "grillestack.geometry",
        "grillestack.physics",
        "grillestack.sheets",
        "grillestack.app.fit.panel",  # what the window shows only when it is asked for
        "grillestack.app.sheets.page",
        "grillestack.app.tape.panel",
        "grillestack.app.workers.sheet_travel",
        "importlib.metadata",
        "PySide6.QtPrintSupport",  # the system's printing, which nobody needs until something is printed
    ),
}


def test_imports_stand_at_the_top_of_a_module_but_for_the_agreed_late_ones(root: Path) -> None:
    package = root / "grillestack"
    hidden = []
    for path in sorted(package.rglob("*.py")):
        place = path.relative_to(package).as_posix()
        allowed = next((names for start, names in LATE.items() if place.startswith(start)), ())
        for name in _imported_in_functions(ast.parse(path.read_text(encoding="utf-8"))):
            if not name.startswith(allowed):
                hidden.append(f"{place}: {name}")
    assert hidden == []


def _imported_in_functions(tree: ast.Module) -> Iterator[str]:
    for function in ast.walk(tree):
        if not isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        for node in ast.walk(function):
            if isinstance(node, ast.ImportFrom):
                yield node.module or ""
            elif isinstance(node, ast.Import):
                yield from (alias.name for alias in node.names)
