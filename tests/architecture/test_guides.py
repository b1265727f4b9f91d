"""What README.md and DEVELOPERS.md name is there: paths, links, commands, options, names of the code."""

from __future__ import annotations

import importlib.util
import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

GUIDES = ("README.md", "DEVELOPERS.md")
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
SUFFIXES = (".py", ".md", ".sh", ".toml", ".ttf", ".txt", ".json", ".png", ".grillestack")


@pytest.mark.parametrize("guide", GUIDES)
def test_every_path_named_in_the_guide_is_there(root: Path, guide: str) -> None:
    named = _paths(_prose(root / guide)) | _paths(
        " ".join(f"`{word}`" for line in _commands(root / guide) for word in line)
    )
    assert named
    assert sorted(name for name in named if not (root / name).exists()) == []


@pytest.mark.parametrize("guide", GUIDES)
def test_every_link_in_the_guide_leads_somewhere(root: Path, guide: str) -> None:
    links = re.findall(r"\]\(([^)]+)\)", _prose(root / guide))
    assert [link for link in links if not re.match(r"https?:", link) and not (root / link).exists()] == []


@pytest.mark.parametrize("guide", GUIDES)
def test_every_command_in_the_guide_can_be_run(root: Path, guide: str) -> None:
    commands = _commands(root / guide)
    assert commands
    for words in commands:
        program = words[1] if words[0] == "sh" else words[0]
        if program.startswith(".venv/bin/"):
            assert _beside_python(program), " ".join(words)
        elif program != "grillestack":
            assert (root / program).is_file(), " ".join(words)
            assert words[0] == "sh" or os.access(root / program, os.X_OK), " ".join(words)


@pytest.mark.parametrize("guide", GUIDES)
def test_every_option_for_the_tests_exists(root: Path, guide: str) -> None:
    with (root / "pyproject.toml").open("rb") as file:
        markers = {line.partition(":")[0] for line in tomllib.load(file)["tool"]["pytest"]["ini_options"]["markers"]}
    text = (root / guide).read_text(encoding="utf-8")
    assert set(re.findall(r"-m (nightly|\w+mark)\b", text)) <= markers
    if "--update-golden" in text:
        assert "--update-golden" in (root / "tests" / "conftest.py").read_text(encoding="utf-8")


@pytest.mark.parametrize("guide", GUIDES)
def test_every_verb_and_option_of_ours_in_the_guide_is_in_the_help(root: Path, guide: str) -> None:
    words = {word for line in _commands(root / guide) if line[0] == "grillestack" for word in line[1:]}
    helps = "".join(
        subprocess.run(
            [sys.executable, "-m", "grillestack", *verb, "--help"], check=True, capture_output=True, text=True
        ).stdout
        for verb in ([], ["assess"])
    )
    asked = {word.strip("[]") for word in words} - {"FILE", "X.png"}
    assert sorted(word for word in asked if word not in helps) == []


def test_every_name_of_the_code_in_the_developers_guide_is_in_the_code(root: Path) -> None:
    code = "\n".join(
        p.read_text(encoding="utf-8") for folder in ("grillestack", "tests") for p in (root / folder).rglob("*.py")
    )
    quoted = re.findall(r"`([A-Za-z_][\w.]*)(?:\(\))?`", _prose(root / "DEVELOPERS.md"))
    names = {name for name in quoted if re.search(r"[A-Z].*[a-z].*[A-Z]|^[A-Z_]{4,}$|^[a-z]+_[a-z_]+$", name)}
    assert names
    assert sorted(name for name in names if not re.search(rf"\b{re.escape(name)}\b", code)) == []


def test_every_package_is_on_the_map(root: Path) -> None:
    prose = _prose(root / "DEVELOPERS.md")
    packages = {p.parent.name for p in (root / "grillestack").glob("*/__init__.py")}
    assert sorted(name for name in packages if f"`{name}`" not in prose) == []


def test_documents_named_in_the_code_are_in_the_repository(root: Path, tracked: list[Path]) -> None:
    """A pointer to a page that only its writer had helps nobody."""
    kept = {p.name for p in tracked if p.suffix == ".md"}
    dangling = []
    for path in sorted((root / "grillestack").rglob("*.py")):
        for name in re.findall(r"\b[\w-]+\.md\b", path.read_text(encoding="utf-8")):
            if name not in kept:
                dangling.append(f"{path.relative_to(root)}: {name}")
    assert dangling == []


def test_modules_named_with_dots_can_be_found(root: Path) -> None:
    names = {
        name
        for guide in GUIDES
        for name in re.findall(r"`(grillestack(?:\.\w+)+)`", (root / guide).read_text(encoding="utf-8"))
    }
    assert sorted(name for name in names if importlib.util.find_spec(name) is None) == []


def test_the_one_run_takes_its_test_command_from_the_readme(root: Path, tmp_path: Path) -> None:
    (tmp_path / ".ci").mkdir()
    shutil.copy(root / ".ci" / "run", tmp_path / ".ci")
    (tmp_path / "README.md").write_text(
        "```sh\necho not this\n```\n<!-- test command -->\n```sh\necho this one; exit 7\n```\n"
    )
    ran = _ci_run(tmp_path)
    assert "this one" in ran.stdout
    assert "not this" not in ran.stdout
    assert ran.returncode == 7
    (tmp_path / "README.md").write_text("Nothing here.\n")
    refused = _ci_run(tmp_path)
    assert refused.returncode != 0
    assert "gives no test command" in refused.stderr


def _ci_run(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([str(folder / ".ci" / "run")], cwd=folder, check=False, capture_output=True, text=True)


def _prose(guide: Path) -> str:
    return FENCE.sub("", guide.read_text(encoding="utf-8"))


def _commands(guide: Path) -> list[list[str]]:
    blocks = (body for language, body in FENCE.findall(guide.read_text(encoding="utf-8")) if language == "sh")
    lines = (shlex.split(line, comments=True) for block in blocks for line in block.splitlines())
    return [words for words in lines if words]


def _paths(text: str) -> set[str]:
    """Return what stands in backticks and looks like a path of the repository."""
    found = set()
    for name in re.findall(r"`([^`\s]+)`", text):
        plain = name.rstrip("/")
        of_ours = re.match(r"(grillestack|tests|resources|demo_projects|\.ci)/", name)
        if "*" not in name and (
            of_ours or ("/" not in name and plain.endswith(SUFFIXES) and not name.startswith((".", "_")))
        ):
            found.add(plain)
    return found - {"X.png"}


def _beside_python(program: str) -> bool:
    name = Path(program).name
    return name == "python" or shutil.which(name, path=str(Path(sys.executable).parent)) is not None
