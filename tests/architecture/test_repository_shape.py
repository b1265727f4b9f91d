"""The repository keeps the shape its readers rely on: few top-level names, small modules, packages that explain themselves."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "grillestack", "tests", "resources", "demo_projects"}
LONGEST_MODULE_LINES = 400
VAGUE_NAMES = {"utils", "util", "helpers", "helper", "common", "manager", "misc"}

# Folders that exist on one machine only; spelt in pieces, so that this file does not name them itself.
MACHINE_FOLDERS = "|".join(("wo" + "rk", "ro" + "ot", "ho" + "me", "tm" + "p", "Us" + "ers"))
MACHINE_PATH = re.compile(rf"(?<![\w.\-*}}$)/])/(?:{MACHINE_FOLDERS})(?:/|(?![\w-]))|\b[A-Z]:\\\\?{'Us' + 'ers'}\b")


def test_top_level_holds_exactly_the_allowed_names(tracked: list[Path]) -> None:
    assert {p.parts[0] for p in tracked if not p.parts[0].startswith(".")} == TOP_LEVEL


def test_no_module_is_longer_than_the_ceiling(root: Path, tracked: list[Path]) -> None:
    lengths = {str(p): len(_text(root / p).splitlines()) for p in tracked if p.suffix == ".py"}
    assert lengths
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST_MODULE_LINES} == {}


def test_every_package_init_is_a_docstring_and_nothing_else(root: Path) -> None:
    inits = sorted((root / "grillestack").rglob("__init__.py"))
    assert inits
    wrong = [str(p.relative_to(root)) for p in inits if not _is_one_docstring(_text(p))]
    assert wrong == []


def test_every_folder_with_modules_is_a_package(root: Path) -> None:
    folders = {p.parent for p in (root / "grillestack").rglob("*.py")}
    assert [str(f.relative_to(root)) for f in sorted(folders) if not (f / "__init__.py").is_file()] == []


def test_no_module_is_named_by_what_it_is_not(root: Path) -> None:
    names = [p for p in (root / "grillestack").rglob("*") if p.stem.lower() in VAGUE_NAMES]
    assert names == []


def test_no_tracked_file_names_a_folder_of_one_machine(root: Path, tracked: list[Path]) -> None:
    guilty = []
    for path in tracked:
        if path.suffix in (".ttf", ".png", ".ico"):
            continue
        for number, line in enumerate(_text(root / path).splitlines(), start=1):
            if MACHINE_PATH.search(line):
                guilty.append(f"{path}:{number}: {line.strip()[:120]}")
    assert guilty == []


@pytest.mark.parametrize("folder", MACHINE_FOLDERS.split("|"))
def test_search_for_machine_paths_finds_them(folder: str) -> None:
    assert MACHINE_PATH.search(f'open("/{folder}/somebody/x.json")')
    assert MACHINE_PATH.search(f"cd /{folder}")
    assert not MACHINE_PATH.search(f"grillestack/{folder}/x.py and W/m²/{folder}")
    assert not MACHINE_PATH.search(f"the /{folder}-like ending")


def test_our_own_words_are_in_mit_licence_and_the_founders_hold_it(root: Path) -> None:
    text = _text(root / "resources" / "LICENCE")
    assert text.startswith("MIT License\n")
    assert "the grillestack founders" in text


def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def _is_one_docstring(source: str) -> bool:
    body = ast.parse(source).body
    return (
        len(body) == 1
        and isinstance(body[0], ast.Expr)
        and isinstance(body[0].value, ast.Constant)
        and isinstance(body[0].value.value, str)
        and bool(body[0].value.value.strip())
    )
