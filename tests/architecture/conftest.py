from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def root() -> Path:
    return Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def tracked(root: Path) -> list[Path]:
    """Return every file that belongs to the repository, relative to its root, whether in a clone or in an unpacked archive."""
    git = shutil.which("git")
    if git is None or not (root / ".git").exists():
        walked = (path.relative_to(root) for path in root.rglob("*") if path.is_file())
        return sorted(p for p in walked if p.parts[0] not in (".venv", "build") and not _is_left_over(p))
    # The folder may belong to another user than the one who tests, which git refuses to read unless told.
    listing = subprocess.run(
        [git, "-c", "safe.directory=*", "ls-files", "-z", "--cached"],
        cwd=root,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    return sorted(Path(name) for name in listing.split("\0") if name and (root / name).is_file())


def _is_left_over(path: Path) -> bool:
    return any(part == "__pycache__" or part.endswith("_cache") for part in path.parts)
