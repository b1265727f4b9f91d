"""Our own files go where each platform keeps such files."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from grillestack.storage import places


@pytest.fixture
def home(monkeypatch, tmp_path):
    for name in ("XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.delenv(name)
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    return tmp_path


linux = pytest.mark.skipif(os.name != "posix", reason="XDG base directories")


# XDG Base Directory Specification 0.8: $XDG_STATE_HOME defaults to $HOME/.local/state, $XDG_DATA_HOME to
# $HOME/.local/share, $XDG_CONFIG_HOME to $HOME/.config; all paths must be absolute, relative ones are to be ignored.
@linux
@pytest.mark.parametrize(
    ("folder", "variable", "usual"),
    [
        (places.state_folder, "XDG_STATE_HOME", ".local/state"),
        (places.data_folder, "XDG_DATA_HOME", ".local/share"),
        (places.settings_folder, "XDG_CONFIG_HOME", ".config"),
    ],
)
def test_folders_follow_the_xdg_specification(home, monkeypatch, tmp_path, folder, variable, usual):
    assert folder() == home / usual / "grillestack"
    monkeypatch.setenv(variable, str(tmp_path / "chosen"))
    assert folder() == tmp_path / "chosen" / "grillestack"
    monkeypatch.setenv(variable, "relative")
    assert folder() == home / usual / "grillestack"
    monkeypatch.setenv(variable, "")
    assert folder() == home / usual / "grillestack"


def test_windows_and_mac_have_their_own_habits(home, monkeypatch, tmp_path):
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "local"))
    given = {"windows": "LOCALAPPDATA", "inside": "state"}
    assert places._folder("X", "u", platform="win32", **given) == tmp_path / "local" / "grillestack" / "state"
    mac = places._folder("X", "u", platform="darwin", **given)
    assert mac == home / "Library" / "Application Support" / "grillestack" / "state"


@pytest.mark.parametrize("name", [b"plain", b"with space", "naïve %41".encode(), b"no text \xff", b"a\nb"])
def test_any_path_survives_being_kept_as_text(name):
    path = Path("/folder") / os.fsdecode(name)
    text = places.path_as_text(path)
    assert text.isascii()
    assert text.isprintable()
    assert places.path_from_text(text) == path


def test_tests_do_not_touch_the_users_own_folders():
    for folder in (places.state_folder(), places.data_folder(), places.settings_folder()):
        assert "home" in str(folder)
        assert "pytest" in str(folder)
