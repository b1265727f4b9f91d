"""What the user chose for the program itself, whatever project is open."""

from __future__ import annotations

import enum
from pathlib import Path
from typing import Annotated, Any

import msgspec
from msgspec import Meta

from grillestack.model.values import Value
from grillestack.storage.atomic import replace_file
from grillestack.storage.envelope import encoded
from grillestack.storage.json_text import NotJsonError, plain_data
from grillestack.storage.places import settings_folder
from grillestack.storage.trouble import StoredFileError, why_not_written


class Look(enum.Enum):
    """How the window is coloured."""

    LIGHT = "light"
    DARK = "dark"
    HIGH_CONTRAST = "high-contrast"


class Settings(Value, frozen=True, kw_only=True):
    """The settings; `unit_system` is the name of a unit system, `window_geometry_text` the window's own description of its place."""

    unit_system: Annotated[str, Meta(max_length=80)] = ""
    look: Look = Look.LIGHT
    scale_factor: Annotated[float, Meta(ge=1, le=2)] = 1.0
    bench_mode: bool = False
    window_geometry_text: Annotated[str, Meta(max_length=20_000)] = ""


class SettingsError(StoredFileError):
    """The settings could not be written; the message is a sentence for the person at the bench."""


def load_settings() -> Settings:
    """Return the settings; what is missing, damaged or unknown takes its default, the rest is kept."""
    try:
        data = plain_data(_path().read_bytes())
    except (OSError, NotJsonError):
        return Settings()
    return _as_far_as_known(data)


def save_settings(settings: Settings) -> None:
    """Write the settings, whole or not at all.

    Raises
    ------
    SettingsError
        If they cannot be written.
    """
    path = _path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_file(path, encoded(settings))
    except OSError as error:
        raise SettingsError(path, why_not_written(path, error)) from error


def _as_far_as_known(data: Any) -> Settings:
    settings = Settings()
    for name in Settings.__struct_fields__:
        if isinstance(data, dict) and name in data:
            # One at a time, so that one damaged value does not take the others with it.
            try:
                settings = msgspec.structs.replace(settings, **{name: _fitting(name, data[name])})
            except ValueError:
                continue
    return settings


def _fitting(name: str, value: Any) -> Any:
    return getattr(msgspec.convert({name: value}, Settings), name)


def _path() -> Path:
    return settings_folder() / "settings.json"
