"""Settings come back as they were chosen; damage costs the damaged setting only."""

from __future__ import annotations

import errno
import json
import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.model.values import ModelError
from grillestack.storage.places import settings_folder
from grillestack.storage.settings import Look, Settings, SettingsError, load_settings, save_settings

CHOSEN = Settings(
    unit_system="INCH",
    look=Look.HIGH_CONTRAST,
    scale_factor=1.5,
    bench_mode=True,
    window_geometry_text="AdnQywAD",
    decimal_mark=",",
    grid=True,
    plan_open=True,
    face_show="speed",
)


def _put(content: bytes) -> None:
    settings_folder().mkdir(parents=True, exist_ok=True)
    (settings_folder() / "settings.json").write_bytes(content)


def test_at_first_the_defaults_hold():
    assert load_settings() == Settings()


def test_settings_come_back_as_they_were_chosen():
    save_settings(CHOSEN)
    assert load_settings() == CHOSEN


@pytest.mark.parametrize("content", [b"", b"{", b"\xff\xfe", b"[1]", b"null", b'{"look": NaN}'])
def test_a_damaged_file_gives_the_defaults(content):
    _put(content)
    assert load_settings() == Settings()


@pytest.mark.parametrize(
    ("name", "damaged"),
    [("look", "pink"), ("scale_factor", 40), ("scale_factor", "big"), ("bench_mode", 1), ("unit_system", None)],
)
def test_one_damaged_setting_takes_its_default_and_leaves_the_others(name, damaged):
    save_settings(CHOSEN)
    path = settings_folder() / "settings.json"
    data = json.loads(path.read_bytes())
    data[name] = damaged
    _put(json.dumps(data).encode())
    loaded = load_settings()
    for field in Settings.__struct_fields__:
        assert getattr(loaded, field) == getattr(Settings() if field == name else CHOSEN, field)


def test_settings_of_a_newer_program_do_not_disturb():
    _put(b'{"bench_mode": true, "hologram": 3}')
    assert load_settings() == Settings(bench_mode=True)


@given(st.binary(max_size=60) | st.sampled_from([b'{"look": {}}', b'{"scale_factor": 1e999}', b'{"unit_system": []}']))
def test_no_bytes_in_the_file_keep_the_program_from_starting(content):
    _put(content)
    assert isinstance(load_settings(), Settings)


def test_a_scale_outside_one_to_two_is_refused():
    with pytest.raises(ModelError, match=r"scale is 2\.5"):
        Settings(scale_factor=2.5)


def test_settings_that_cannot_be_written_are_told_and_the_old_ones_stay(monkeypatch):
    save_settings(CHOSEN)

    def full(*_args):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(SettingsError, match="the disk is full"):
            save_settings(Settings())
    assert load_settings() == CHOSEN
