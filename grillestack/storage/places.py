"""Where the program keeps files of its own, after the habit of each platform (XDG base directories on Linux)."""

from __future__ import annotations

import os
import sys
import urllib.parse
from pathlib import Path

_NAME = "grillestack"


def state_folder() -> Path:
    """Return the folder for recoveries, locks and the list of recent files; it may not exist yet."""
    return _folder("XDG_STATE_HOME", ".local/state", windows="LOCALAPPDATA", inside="state")


def data_folder() -> Path:
    """Return the folder for the user's own parts; it may not exist yet."""
    return _folder("XDG_DATA_HOME", ".local/share", windows="APPDATA", inside="data")


def settings_folder() -> Path:
    """Return the folder for the settings; it may not exist yet."""
    return _folder("XDG_CONFIG_HOME", ".config", windows="APPDATA", inside="settings")


def path_as_text(path: Path) -> str:
    """Return the path as text that any file of ours can keep, even where the path is no valid text (RFC 3986, 2.1)."""
    return urllib.parse.quote_from_bytes(os.fsencode(path), safe="/\\: ")


def path_from_text(text: str) -> Path:
    """Return the path that `path_as_text` wrote."""
    return Path(os.fsdecode(urllib.parse.unquote_to_bytes(text)))


def _folder(xdg: str, usual: str, *, windows: str, inside: str, platform: str = sys.platform) -> Path:
    home = Path.home()
    if platform == "win32":
        return _absolute(windows, home / "AppData" / "Local") / _NAME / inside
    if platform == "darwin":
        return home / "Library" / "Application Support" / _NAME / inside
    return _absolute(xdg, home / usual) / _NAME


def _absolute(variable: str, otherwise: Path) -> Path:
    # The XDG specification has relative paths ignored.
    given = Path(os.environ.get(variable, ""))
    return given if given.is_absolute() else otherwise
