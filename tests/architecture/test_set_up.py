"""The scripts that set up and start: what they do on a second run, after an interruption, and without a display.

A checkout of stand-ins, with a Python that only notes what it was asked, takes the place of the network.
"""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
from pathlib import Path

import pytest

FAKE_PYTHON = """#!/bin/sh
# Stands in for Python: notes each call, makes an environment that is a copy of itself, plays the program.
printf '%s\\n' "$*" >>"$NOTES"
case "$*" in
    '-m venv '*) mkdir -p "$3/bin" && cp "$0" "$3/bin/python" && : >"$3/pyvenv.cfg" ;;
    *'-m pip install'*) exit "${PIP_ENDS_WITH:-0}" ;;
    *'-m grillestack assess'*) [ "${VERDICT:-x}" = none ] || echo "program: $*"; exit "${VERDICT_ENDS_WITH:-0}" ;;
    *'-m grillestack'*) echo "program: $*"; exit "${PROGRAM_ENDS_WITH:-0}" ;;
esac
"""


class Checkout:
    """A folder with the real scripts and invented surroundings."""

    def __init__(self, folder: Path, scripts: Path) -> None:
        self.folder = folder / "a checkout with spaces"
        self.notes = folder / "notes"
        self.tools = folder / "tools"
        (self.folder / "resources").mkdir(parents=True)
        (self.folder / "demo_projects").mkdir()
        self.tools.mkdir()
        for script in scripts.glob("*.sh"):
            shutil.copy(script, self.folder / "resources")
        (self.folder / "pyproject.toml").write_text("[project]\n")
        for demo in ("20-second.grillestack", "10-first.grillestack"):
            (self.folder / "demo_projects" / demo).write_text("{}")
        self._tool("python3.11", FAKE_PYTHON)
        # Nothing is missing on this machine, so nothing is installed on it.
        self._tool("ldconfig", "#!/bin/sh\nexit 1\n")

    def _tool(self, name: str, text: str) -> None:
        path = self.tools / name
        path.write_text(text)
        path.chmod(path.stat().st_mode | stat.S_IXUSR)

    def run(self, script: str, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
        self.notes.write_text("")
        plain = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
        path = f"{self.tools}{os.pathsep}{os.environ['PATH']}"
        return subprocess.run(
            ["sh", str(self.folder / "resources" / script), *words],
            cwd=self.folder.parent,
            env={**plain, "PATH": path, "NOTES": str(self.notes), **environment},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )

    def calls(self, part: str) -> list[str]:
        return [line for line in self.notes.read_text().splitlines() if part in line]


@pytest.fixture
def checkout(tmp_path: Path, root: Path) -> Checkout:
    return Checkout(tmp_path, root / "resources")


def test_first_run_makes_an_environment_and_second_run_uses_it(checkout: Checkout) -> None:
    assert checkout.run("start.sh").returncode == 0
    assert len(checkout.calls("-m venv")) == 1
    assert checkout.calls("-m pip install") == [f"-m pip install --quiet --editable {checkout.folder}"]
    assert checkout.run("start.sh").returncode == 0
    assert checkout.calls("-m venv") + checkout.calls("-m pip") == []


def test_changed_dependencies_are_fetched_into_the_environment_that_is_there(checkout: Checkout) -> None:
    checkout.run("start.sh")
    (checkout.folder / "pyproject.toml").write_text("[project]\ndependencies = []\n")
    assert checkout.run("start.sh").returncode == 0
    assert checkout.calls("-m venv") == []
    assert len(checkout.calls("-m pip install")) == 1


def test_moved_checkout_is_set_up_again(checkout: Checkout) -> None:
    checkout.run("start.sh")
    checkout.folder = checkout.folder.rename(checkout.folder.with_name("moved"))
    assert checkout.run("start.sh").returncode == 0
    assert len(checkout.calls("-m pip install")) == 1


def test_interrupted_set_up_is_done_afresh(checkout: Checkout) -> None:
    half_made = checkout.folder / ".venv" / "bin" / "python"
    half_made.parent.mkdir(parents=True)
    (checkout.folder / ".venv" / "unfinished").write_text("")
    done = checkout.run("start.sh")
    assert done.returncode == 0
    assert "did not finish" in done.stderr
    assert len(checkout.calls("-m venv")) == 1
    assert not (checkout.folder / ".venv" / "unfinished").exists()


def test_failed_download_is_a_sentence_and_the_next_run_tries_again(checkout: Checkout) -> None:
    failed = checkout.run("start.sh", PIP_ENDS_WITH="1")
    assert failed.returncode != 0
    assert "check the internet connection" in failed.stderr
    assert checkout.calls("-m grillestack") == []
    assert checkout.run("start.sh").returncode == 0
    assert len(checkout.calls("-m pip install")) == 1


def test_tests_need_more_than_the_program_and_the_program_runs_with_what_the_tests_need(checkout: Checkout) -> None:
    checkout.run("start.sh")
    assert checkout.run("check.sh", "-m", "nightly").returncode == 0
    assert checkout.calls("-m pip install") == [f"-m pip install --quiet --editable {checkout.folder}[dev]"]
    assert checkout.calls("-m pytest") == ["-P -m pytest -m nightly"]
    checkout.run("start.sh")
    assert checkout.calls("-m pip") == []


def test_failing_tests_fail_the_check(checkout: Checkout) -> None:
    (checkout.tools / "python3.11").write_text(FAKE_PYTHON + 'case "$*" in *pytest*) exit 1 ;; esac\n')
    assert checkout.run("check.sh").returncode == 1


def test_window_opens_when_there_is_a_display_and_picks_the_demo_itself(checkout: Checkout) -> None:
    """Handed over as a file, the demo would be written over by the first saving."""
    assert checkout.run("start.sh", DISPLAY=":9").stdout == "program: -P -m grillestack\n"


def test_file_given_opens_in_the_window_when_there_is_a_display(checkout: Checkout) -> None:
    opened = checkout.run("start.sh", "my nose.grillestack", WAYLAND_DISPLAY="wayland-0")
    assert opened.stdout == "program: -P -m grillestack my nose.grillestack\n"


def test_words_are_passed_on_as_they_are(checkout: Checkout) -> None:
    passed = checkout.run("start.sh", "assess", "my nose.grillestack")
    assert passed.stdout == "program: -P -m grillestack assess my nose.grillestack\n"


def test_without_display_the_verdict_is_printed_and_the_window_drawn(checkout: Checkout) -> None:
    shown = checkout.run("start.sh")
    first = checkout.folder / "demo_projects" / "10-first.grillestack"
    picture = checkout.folder / "build" / "10-first.png"
    assert shown.returncode == 0
    assert shown.stdout.splitlines() == [
        f"program: -P -m grillestack assess {first}",
        f"program: -P -m grillestack picture {first} --out {picture}",
    ]
    assert "There is no display here" in shown.stderr
    assert str(picture) in shown.stderr


@pytest.mark.parametrize("verdict", ["1", "2"])
def test_without_display_bad_news_is_no_failure_of_the_start(checkout: Checkout, verdict: str) -> None:
    shown = checkout.run("start.sh", VERDICT_ENDS_WITH=verdict)
    assert shown.returncode == 0
    assert len(shown.stdout.splitlines()) == 2


def test_without_display_no_answer_is_a_failure(checkout: Checkout) -> None:
    assert checkout.run("start.sh", VERDICT="none", VERDICT_ENDS_WITH="2").returncode == 2
    assert checkout.run("start.sh", VERDICT_ENDS_WITH="134").returncode == 134


def test_without_display_no_picture_is_a_failure(checkout: Checkout) -> None:
    assert checkout.run("start.sh", PROGRAM_ENDS_WITH="1").returncode == 1


def test_exit_code_of_the_window_is_passed_on(checkout: Checkout) -> None:
    assert checkout.run("start.sh", DISPLAY=":9", PROGRAM_ENDS_WITH="3").returncode == 3


def test_missing_demos_are_a_sentence(checkout: Checkout) -> None:
    shutil.rmtree(checkout.folder / "demo_projects")
    done = checkout.run("start.sh")
    assert done.returncode == 1
    assert "There is no demo project" in done.stderr
