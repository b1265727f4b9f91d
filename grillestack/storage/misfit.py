"""Which part of a file does not fit the model, said in the words of the pack instead of the decoder's path."""

from __future__ import annotations

import re
from typing import Any

import msgspec

from grillestack.model.values import ModelError, field_unit, field_words
from grillestack.storage.trouble import quoted

# How one entry of a list is called.
_ENTRIES = {
    "parts": "part",
    "variants": "layout",
    "cases": "duty case",
    "openings": "opening",
    "obstructions": "obstruction",
    "outline": "corner",
    "bonnet_line": "point",
    "corners": "corner",
    "ports": "port",
    "mounts": "mount",
    "connections": "connection",
    "clock_angles_deg": "angle",
    "views": "view",
    "shifts": "dimension",
    "solids": "tank, plate or frame",
    "points": "line",
    "curve": "point",
}

# How a field that holds further fields or a list is called where the field's own name would not be understood.
_SECTIONS = {
    "project": "",
    "outline": "its outline",
    "bonnet_line": "the bonnet line",
    "nose": "the nose",
    "engine": "the engine sheet",
    "environment": "the environment",
    "stations": "the depth stations",
    "support_window": "the support window",
    "photo": "the photo",
    "sheet": "the choices for the sheet",
    "making": "how it is made",
    "tied": "its marks",
    "image": "its picture",
    "placement": "its place",
    "overall": "its overall size",
    "rect": "its size",
    "description": "what is known of it",
    "rating": "its rating point",
    "table": "its measured table",
    "points": "",
    "curve": "its curve",
}

# Corners are written as pairs.
_PAIRS = {
    "outline": ("y_mm", "z_mm"),
    "bonnet_line": ("x_mm", "z_mm"),
    **dict.fromkeys(("corners", "first", "second"), ("x_px", "y_px")),
}

_KINDS = {
    "float": "a number",
    "int": "a whole number",
    "str": "text",
    "bool": "true or false",
    "array": "a list",
    "object": "a group of fields",
    "null": "empty",
}

_Step = str | int


def misfit(error: msgspec.ValidationError, data: Any) -> str:
    """Return what does not fit and the remedy as the end of a sentence, from the decoder's error and what it decoded."""
    message, _, path = str(error).rpartition(" - at `$")
    if not message:
        message, path = str(error), ""
    steps = _steps(path.removesuffix("`"))
    cause = error.__cause__
    if isinstance(cause, ModelError):
        where = _where(steps, data)
        return f"{where}: {cause}" if where else str(cause)
    named = re.fullmatch(r"Object (contains unknown|missing required) field `(.*)`", message, re.DOTALL)
    if named:
        where = _where(steps, data)
        there = f"in {where}" if where else "at its top"
        if named[1] == "missing required":
            return f"{there}, “{named[2]}” is missing, so put it in or take an earlier copy."
        return f"{there}, {quoted(named[2])} is a field this program does not know, so remove it or correct its name."
    if not steps:
        return _what_is_wrong("the content", "", data, message)
    *outer, last = steps
    field = _field_name(outer, last)
    value = _value_at(steps, data)
    list_of = "list of " if isinstance(value, list) and "of length" in message else ""
    named_thing = _SECTIONS.get(field) or f"the {list_of}{field_words(field)}"
    if isinstance(last, int) and outer[-1] in _ENTRIES:
        # The entry itself is wrong, not a field of it, so the list need not be named as well.
        named_thing = f"{_ENTRIES[str(outer.pop())]} {last + 1}"
    where = _where(outer, data)
    return (f"in {where}, " if where else "") + _what_is_wrong(named_thing, field, value, message)


def _what_is_wrong(the: str, field: str, value: Any, message: str) -> str:
    limit = re.fullmatch(r"Expected `(?:float|int)[^`]*` (>=|<=|>|<) (\S+)", message)
    if limit and isinstance(value, float | int):
        word = {">=": "at least", "<=": "at most", ">": "above", "<": "below"}[limit[1]]
        unit = field_unit(field)
        is_said = f"{value:.12g} {unit}".rstrip() if abs(value) < 1e15 else "far too large"
        must = f"{word} {float(limit[2]):.12g} {unit}".rstrip()
        return f"{the} is {is_said}, but must be {must}, so correct the figure or its unit."
    wrong_type = re.fullmatch(r"Expected `([^`]+)`, got `([^`]+)`", message)
    if wrong_type:
        expected = " or ".join(_KINDS.get(kind.strip(), kind) for kind in wrong_type[1].split("|"))
        return f"{the} must be {expected}, not {_said(value)}, so correct it."
    length = re.fullmatch(r"Expected `(str|array)[^`]*` of (at least |at most )?length (>=|<=)? ?(\d+).*", message)
    if length:
        return f"{the} {_wrong_length(length[1], length[2] or length[3] or '', length[4])}."
    if "matching regex" in message:
        return f"{the} {_said(value)} may hold small letters, digits and hyphens only, so change it."
    if message.startswith("Invalid"):
        return f"{the} cannot be {_said(value)}, so choose one this program knows."
    if "out of range" in message:
        return f"{the} is far too large, so correct the figure or its unit."
    return f"{the} does not fit here, so correct it or take an earlier copy."


def _wrong_length(kind: str, bound: str, count: str) -> str:
    too_short = bound in (">=", "at least ")
    if kind == "str":
        return (
            "is empty, so type at least one letter" if too_short else f"is too long, so shorten it to {count} letters"
        )
    return (
        f"has too few entries, so give it {count} or more"
        if too_short
        else f"has too many entries, so leave {count} at most"
    )


def _said(value: Any) -> str:
    if value is None:
        return "empty"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float | int):
        return str(value)
    return "a list" if isinstance(value, list) else "a group of fields"


def _steps(path: str) -> list[_Step]:
    return [int(index) if index else name for name, index in re.findall(r"\.([A-Za-z0-9_]+)|\[(\d+)\]", path)]


def _value_at(steps: list[_Step], data: Any) -> Any:
    for step in steps:
        try:
            data = data[step]
        except (LookupError, TypeError):
            return None
    return data


def _field_name(outer: list[_Step], last: _Step) -> str:
    if isinstance(last, str):
        return last
    if len(outer) >= 2 and isinstance(outer[-1], int) and outer[-2] in _PAIRS and last < 2:
        return _PAIRS[str(outer[-2])][last]
    return str(outer[-1]) if outer else ""


def _where(steps: list[_Step], data: Any) -> str:
    words: list[str] = []
    for at, step in enumerate(steps):
        if isinstance(step, str):
            if not (at + 1 < len(steps) and isinstance(steps[at + 1], int) and step not in _SECTIONS):
                words.append(_SECTIONS.get(step, f"its {field_words(step)}"))
            continue
        listed = str(steps[at - 1])
        found = _value_at(steps[: at + 1], data)
        name = found.get("name") or found.get("id") if isinstance(found, dict) else None
        entry = _ENTRIES.get(listed, field_words(listed))
        words.append(f"the {entry} {quoted(name)}" if isinstance(name, str) else f"{entry} {step + 1}")
    return ", ".join(word for word in words if word)
