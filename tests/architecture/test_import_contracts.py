"""The import contracts of pyproject.toml are kept, and each of them would catch the fault it is there for."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

LAYERS = "a lower layer never imports a higher one, siblings never import each other"
CYCLES = "no cycles between siblings inside a package"

# contract, file that goes wrong, line that is put into it
FAULTS = [
    (LAYERS, "geometry/fault.py", "import grillestack.physics"),
    (LAYERS, "assess/fault.py", "import grillestack.advice"),
    (LAYERS, "sheets/fault.py", "import grillestack.storage"),
    (LAYERS, "model/fault.py", "def late():\n    import grillestack.assess"),
    (CYCLES, "model/values.py", "import grillestack.model.project"),
    ("Qt is imported in app only", "units/fault.py", "from PySide6 import QtCore"),
    ("Qt is imported in app only", "cli/fault.py", "import PySide6.QtWidgets"),
    ("shapely is imported in geometry only", "assess/fault.py", "import shapely"),
    ("shapely is imported in geometry only", "app/fault.py", "from shapely.geometry import Polygon"),
    ("pint is imported in units only", "model/fault.py", "import pint"),
    ("the model knows neither numbers libraries nor files", "model/fault.py", "import numpy"),
    ("physics knows no document", "physics/fault.py", "import msgspec"),
    ("storage computes nothing", "storage/fault.py", "import numpy"),
]


def test_all_contracts_are_kept(root: Path) -> None:
    result = _lint(root)
    assert result.returncode == 0, result.stdout + result.stderr
    assert _judged(result.stdout).keys() == set(_contract_names(root))
    assert set(_judged(result.stdout).values()) == {"KEPT"}


def test_every_contract_has_a_deliberate_fault_here(root: Path) -> None:
    assert {contract for contract, _, _ in FAULTS} == set(_contract_names(root))


@pytest.mark.parametrize(
    ("contract", "place", "line"), FAULTS, ids=[f"{place}-{line[:30]}" for _, place, line in FAULTS]
)
def test_deliberate_fault_breaks_its_contract_and_no_other(
    root: Path, tmp_path: Path, contract: str, place: str, line: str
) -> None:
    result = _lint(_copy(root, tmp_path, place, line))
    broken = {name for name, verdict in _judged(result.stdout).items() if verdict == "BROKEN"}
    # An import upwards closes a circle with the one downwards, so the contract on circles may speak as well.
    assert contract in broken, result.stdout + result.stderr
    assert broken <= {contract, CYCLES}, result.stdout + result.stderr
    assert result.returncode != 0


def test_package_that_no_layer_names_is_refused(root: Path, tmp_path: Path) -> None:
    result = _lint(_copy(root, tmp_path, "helpers/__init__.py", ""))
    assert result.returncode != 0
    assert "helpers" in result.stdout + result.stderr


def test_layers_name_every_package(root: Path) -> None:
    layers = next(c for c in _contracts(root) if c["name"] == LAYERS)
    named = {name.strip() for layer in layers["layers"] for name in layer.split("|")}
    found = {p.parent.name for p in (root / "grillestack").glob("*/__init__.py")} | {"__main__"}
    assert layers["exhaustive"] is True
    assert named == found


@pytest.mark.parametrize(
    ("contract", "home"),
    [
        ("Qt is imported in app only", "app"),
        ("shapely is imported in geometry only", "geometry"),
        ("pint is imported in units only", "units"),
    ],
)
def test_library_with_one_home_is_forbidden_in_every_other_package(root: Path, contract: str, home: str) -> None:
    forbidden = next(c for c in _contracts(root) if c["name"] == contract)
    packages = {f"grillestack.{p.parent.name}" for p in (root / "grillestack").glob("*/__init__.py")}
    assert set(forbidden["source_modules"]) == packages - {f"grillestack.{home}"}


def test_no_import_is_hidden_from_the_contracts(root: Path) -> None:
    """A module named as text is invisible to the linter, and to those who read."""
    hidden = re.compile(r"\b(import_module|__import__)\s*\(")
    guilty = [p for p in (root / "grillestack").rglob("*.py") if hidden.search(p.read_text(encoding="utf-8"))]
    assert guilty == []


def _copy(root: Path, folder: Path, place: str, line: str) -> Path:
    shutil.copy(root / "pyproject.toml", folder)
    shutil.copytree(root / "grillestack", folder / "grillestack", ignore=shutil.ignore_patterns("__pycache__"))
    faulty = folder / "grillestack" / place
    faulty.parent.mkdir(exist_ok=True)
    with faulty.open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    return folder


def _contracts(root: Path) -> list[dict[str, Any]]:
    with (root / "pyproject.toml").open("rb") as file:
        return tomllib.load(file)["tool"]["importlinter"]["contracts"]


def _contract_names(root: Path) -> list[str]:
    return [str(contract["name"]) for contract in _contracts(root)]


def _lint(folder: Path) -> subprocess.CompletedProcess[str]:
    program = "import sys; from importlinter.cli import lint_imports_command; sys.argv[1:] = ['--no-cache']; lint_imports_command()"
    # The folder's own copy of the package comes before the installed one.
    environment = {**os.environ, "PYTHONPATH": str(folder), "NO_COLOR": "1", "COLUMNS": "200"}
    return subprocess.run(
        [sys.executable, "-c", program], cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


def _judged(text: str) -> dict[str, str]:
    plain = re.sub(r"\x1b\[[0-9;]*m", "", text)
    return {m[1].strip(): m[2] for m in re.finditer(r"^(.+?) (KEPT|BROKEN)\b", plain, re.MULTILINE)}
