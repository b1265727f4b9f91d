"""The base of all document values: frozen, keyword-only, finite, within their stated limits."""

from __future__ import annotations

import functools
import math
import re
import types
import typing
from typing import Annotated, Any

import msgspec
from msgspec import Meta

# Limits say what is absurd, not what is wise: a bad layout may be drawn, an impossible value may not exist.
CoordinateMm = Annotated[float, Meta(ge=-10_000, le=10_000)]
SizeMm = Annotated[float, Meta(ge=0.001, le=5_000)]
ThicknessMm = Annotated[float, Meta(ge=0, le=1_000)]
AngleDeg = Annotated[float, Meta(ge=-30, le=30)]
ClockDeg = Annotated[float, Meta(ge=-360, le=360)]
Fraction = Annotated[float, Meta(gt=0, le=1)]
Share = Annotated[float, Meta(ge=0, le=2)]
TemperatureDegc = Annotated[float, Meta(ge=-60, le=400)]
AmbientDegc = Annotated[float, Meta(ge=-60, le=70)]
Identifier = Annotated[str, Meta(min_length=1, max_length=80, pattern=r"^[a-z0-9][a-z0-9-]*$")]
Text = Annotated[str, Meta(max_length=20_000)]
Name = Annotated[str, Meta(min_length=1, max_length=200)]

# Longest ending first: `_w_per_k` also ends in `_k`.
_UNIT_WORDS = {
    "_w_per_k": "W/K",
    "_m3_s": "m³/s",
    "_m3": "m³",
    "_kg_s": "kg/s",
    "_m_s": "m/s",
    "_mm2": "mm²",
    "_m2": "m²",
    "_mm": "mm",
    "_px": "px",
    "_kg": "kg",
    "_pa": "Pa",
    "_degc": "°C",
    "_deg": "°",
    "_k": "K",
    "_w": "W",
    "_rpm": "rpm",
    "_v": "V",
    "_a": "A",
    "_m": "m",
    "_frac": "(share of 1)",
    "_factor": "",
    "_text": "",
}

# Names that read badly when only their unit is taken off.
_SAID = {
    "x_mm": "place along the vehicle (x)",
    "y_mm": "place across the vehicle (y)",
    "z_mm": "height (z)",
    "u_mm": "place across the part (u)",
    "v_mm": "height on the part (v)",
    "w_mm": "depth in the part (w)",
    "u_min_mm": "left edge (u)",
    "u_max_mm": "right edge (u)",
    "v_min_mm": "bottom edge (v)",
    "v_max_mm": "top edge (v)",
    "middle_y_mm": "middle across the vehicle (y)",
    "bottom_z_mm": "height of the lower edge (z)",
    "first_y_mm": "place of the first point across the vehicle (y)",
    "first_z_mm": "height of the first point (z)",
    "x_px": "place across the photo",
    "y_px": "place down the photo",
    "data_base64": "picture of the photo",
    "x_front_mm": "front (x)",
    "x_rear_mm": "rear (x)",
    "grille_x_mm": "place of the grille (x)",
    "pulley_x_mm": "place of the pulley (x)",
    "front_mm": "place of its front",
    "thermostat_degc": "opening temperature of the thermostat",
    "clock_deg": "turn of the port",
    "dx_mm": "shift to the right on the sheet",
    "dy_mm": "shift up the sheet",
    "variant_name": "name of the layout",
    "variant_note_text": "note on the layout",
    "variants": "layouts",
}


class ModelError(ValueError):
    """A value that cannot exist; the message is a sentence for the person at the bench."""

    def __init__(self, field: str, sentence: str) -> None:
        super().__init__(sentence)
        self.field = field


class UnknownIdError(ModelError):
    """An edit named something that the project does not hold."""

    def __init__(self, what: str, identifier: str) -> None:
        super().__init__(
            "id", f"There is no {what} with the id “{identifier}” in this project: choose one that is listed."
        )


class Value(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """Base of every document value; construction refuses what cannot exist."""

    def __post_init__(self) -> None:
        for name, kind, meta, optional in _checked_fields(type(self)):
            given = getattr(self, name)
            if given is None:
                if not optional:
                    raise ModelError(name, f"The {field_words(name)} is missing: type one.")
                continue
            if kind is float:
                msgspec.structs.force_setattr(self, name, _checked_float(name, given, meta))
            elif kind is int:
                _check_limits(name, _checked_int(name, given), meta)
            elif kind is str:
                _check_text(name, given, meta)
            else:
                _check_count(name, given, meta)


def field_words(field: str) -> str:
    """Return the field's name as a person would say it: `core_width_mm` gives "core width"."""
    if field in _SAID:
        return _SAID[field]
    for suffix in _UNIT_WORDS:
        if field.endswith(suffix):
            return field.removesuffix(suffix).replace("_", " ")
    return field.replace("_", " ")


def field_unit(field: str) -> str:
    """Return the unit that the field's name ends in, as shown to people, or nothing."""
    return next((unit for suffix, unit in _UNIT_WORDS.items() if field.endswith(suffix)), "")


@functools.cache
def _checked_fields(cls: type) -> tuple[tuple[str, type, Meta | None, bool], ...]:
    found: list[tuple[str, type, Meta | None, bool]] = []
    for name, hint in typing.get_type_hints(cls, include_extras=True).items():
        kind, meta = _plain_type(hint)
        optional = type(None) in typing.get_args(hint)
        if kind in (float, int, str):
            found.append((name, kind, meta, optional))
        elif typing.get_origin(kind) is tuple:
            found.append((name, tuple, meta, optional))
    return tuple(found)


def _plain_type(hint: Any) -> tuple[Any, Meta | None]:
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        members = [m for m in typing.get_args(hint) if m is not type(None)]
        return _plain_type(members[0]) if len(members) == 1 else (None, None)
    if typing.get_origin(hint) is Annotated:
        base, *extras = typing.get_args(hint)
        return base, next((m for m in extras if isinstance(m, Meta)), None)
    return hint, None


def _checked_float(name: str, given: Any, meta: Meta | None) -> float:
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        raise ModelError(name, f"The {field_words(name)} must be a number, not “{given}”: type a figure.")
    try:
        number = float(given)
    except OverflowError:  # a whole number of more than 308 digits
        number = math.inf
    if not math.isfinite(number):
        raise ModelError(name, f"The {field_words(name)} must be a finite number: type a figure you can measure.")
    _check_limits(name, number, meta)
    return number + 0.0  # turns -0.0 into 0.0, so that equal documents have equal bytes


def _checked_int(name: str, given: Any) -> int:
    if isinstance(given, bool) or not isinstance(given, int):
        raise ModelError(name, f"The {field_words(name)} must be a whole number, not “{given}”: type a whole number.")
    return given


def _check_limits(name: str, number: float, meta: Meta | None) -> None:
    if meta is None:
        return
    too_low = (meta.gt is not None and number <= meta.gt) or (meta.ge is not None and number < meta.ge)
    too_high = (meta.lt is not None and number >= meta.lt) or (meta.le is not None and number > meta.le)
    if too_low or too_high:
        unit = field_unit(name)
        # A whole number may be too long for a float, and a float just past its limit must not read like the limit.
        said = f"{number:.12g}" if abs(number) < 1e15 else "far too large"
        raise ModelError(
            name,
            f"The {field_words(name)} is {said} {unit}".rstrip() + f", but must be {limits_in_words(meta, unit)}: "
            "correct the figure or its unit.",
        )


def limits_in_words(meta: Meta, unit: str = "") -> str:
    """Return the limits as words: "above 0 mm and at most 5000 mm"."""
    words = [
        f"{word} {limit:g} {unit}".rstrip()
        for word, limit in (("above", meta.gt), ("at least", meta.ge), ("below", meta.lt), ("at most", meta.le))
        if limit is not None
    ]
    return " and ".join(words)


def _check_text(name: str, given: Any, meta: Meta | None) -> None:
    if not isinstance(given, str):
        raise ModelError(name, f"The {field_words(name)} must be text, not “{given}”: type it as words.")
    if not given.isascii() and any("\ud800" <= letter <= "\udfff" for letter in given):
        raise ModelError(name, f"The {field_words(name)} holds half a letter that no file can keep: type it anew.")
    if meta is None:
        return
    if meta.min_length is not None and len(given) < meta.min_length:
        raise ModelError(name, f"The {field_words(name)} is empty: type at least one letter.")
    if meta.max_length is not None and len(given) > meta.max_length:
        raise ModelError(name, f"The {field_words(name)} is longer than {meta.max_length} letters: shorten it.")
    if meta.pattern is not None and not re.fullmatch(meta.pattern, given):
        raise ModelError(
            name, f"The {field_words(name)} “{given}” may hold small letters, digits and hyphens only: change it."
        )


def _check_count(name: str, given: Any, meta: Meta | None) -> None:
    if not isinstance(given, tuple):
        raise ModelError(name, f"The {field_words(name)} must be a list of entries, not “{given}”: give a list.")
    if meta is None:
        return
    entries = "corners" if name == "outline" else "entries"
    has = f"The list “{field_words(name)}” has {len(given)} {entries}"
    if meta.min_length is not None and len(given) < meta.min_length:
        raise ModelError(name, f"{has}, but needs at least {meta.min_length}: add some.")
    if meta.max_length is not None and len(given) > meta.max_length:
        raise ModelError(name, f"{has}, but may have {meta.max_length} at most: remove some.")
