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
    """The settings; `unit_system` is the name of a unit system, `window_geometry_text` the window's own description of its place.

    Without a `decimal_mark` it is that of the user's language and country.
    """

    unit_system: Annotated[str, Meta(max_length=80)] = ""
    look: Look = Look.LIGHT
    scale_factor: Annotated[float, Meta(ge=1, le=2)] = 1.0
    bench_mode: bool = False
    decimal_mark: Annotated[str, Meta(max_length=4)] = ""
    grid: bool = False
    plan_open: bool = False
    face_show: Annotated[str, Meta(max_length=80)] = ""
    window_geometry_text: Annotated[str, Meta(max_length=20_000)] = ""


_UNREADABLE = "The settings could not be read, so everything is as at the first start."


class SettingsError(StoredFileError):
    """The settings could not be written; the message is a sentence for the person at the bench."""


def load_settings() -> Settings:
    """Return the settings; what is missing, damaged or unknown takes its default, the rest is kept."""
    return settings_and_trouble()[0]


def settings_and_trouble() -> tuple[Settings, str]:
    """Return the settings, and what of them could not be taken in a sentence, empty if all could."""
    path = _path()
    try:
        data = plain_data(path.read_bytes())
    except FileNotFoundError:
        return Settings(), ""
    except (OSError, NotJsonError):
        return Settings(), f"{_UNREADABLE} They are written anew when the window closes."
    if not isinstance(data, dict):
        return Settings(), f"{_UNREADABLE} They are written anew when the window closes."
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


def _as_far_as_known(data: dict[str, Any]) -> tuple[Settings, str]:
    settings, lost = Settings(), []
    for name in Settings.__struct_fields__:
        if name in data:
            # One at a time, so that one damaged value does not take the others with it.
            try:
                settings = msgspec.structs.replace(settings, **{name: _fitting(name, data[name])})
            except ValueError:
                lost.append(name.replace("_", " "))
    if not lost:
        return settings, ""
    return (
        settings,
        f"These settings could not be read and are as at the first start: {', '.join(lost)}. Choose them again.",
    )


def _fitting(name: str, value: Any) -> Any:
    return getattr(msgspec.convert({name: value}, Settings), name)


def _path() -> Path:
    return settings_folder() / "settings.json"
