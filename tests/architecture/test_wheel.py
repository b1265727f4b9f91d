"""What pip installs carries the resources and the demo projects, byte for byte as tracked."""

from __future__ import annotations

import hashlib
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest


@pytest.fixture(scope="module")
def wheel(root: Path, tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    folder = tmp_path_factory.mktemp("wheel")
    program = "import sys; from hatchling.build import build_wheel; build_wheel(sys.argv[1])"
    subprocess.run([sys.executable, "-c", program, str(folder)], cwd=root, check=True, capture_output=True)
    (built,) = folder.glob("grillestack-*.whl")
    return zipfile.ZipFile(built)


@pytest.mark.parametrize("folder", ["resources", "demo_projects"])
def test_wheel_carries_every_tracked_file_of(
    folder: str, root: Path, tracked: list[Path], wheel: zipfile.ZipFile
) -> None:
    expected = {
        f"grillestack/_bundled/{p.as_posix()}": _digest((root / p).read_bytes())
        for p in tracked
        if p.parts[0] == folder
    }
    assert expected
    inside = set(wheel.namelist())
    assert sorted(expected.keys() - inside) == []
    assert [name for name, digest in expected.items() if _digest(wheel.read(name)) != digest] == []


def test_wheel_carries_every_module(tracked: list[Path], wheel: zipfile.ZipFile) -> None:
    modules = {p.as_posix() for p in tracked if p.parts[0] == "grillestack"}
    assert sorted(modules - set(wheel.namelist())) == []


def test_wheel_carries_no_tests_and_no_left_overs(wheel: zipfile.ZipFile) -> None:
    strays = [n for n in wheel.namelist() if n.startswith("tests/") or "__pycache__" in n or n.endswith(".pyc")]
    assert strays == []


def test_wheel_has_the_command_and_the_licences(wheel: zipfile.ZipFile) -> None:
    (entry_points,) = [n for n in wheel.namelist() if n.endswith(".dist-info/entry_points.txt")]
    assert "grillestack = grillestack.__main__:main" in wheel.read(entry_points).decode()
    licences = {Path(n).name for n in wheel.namelist() if ".dist-info/licenses/" in n}
    assert licences == {"LICENCE", "LICENCE-DejaVu.txt", "what-we-build-on.md"}


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
