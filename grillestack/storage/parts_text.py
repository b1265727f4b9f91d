"""Parts as text, for the clipboard: what one window copies another can paste, also into another project."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import msgspec

from grillestack.model.parts import Part
from grillestack.model.values import Value
from grillestack.storage.json_text import NotJsonError, plain_data
from grillestack.storage.misfit import misfit
from grillestack.storage.trouble import quoted

LARGEST_LETTERS = 5_000_000
_KIND = "grillestack copied parts"
_OPENING = "What was copied elsewhere cannot be pasted: "


class PartsTextError(ValueError):
    """A text that holds no parts; the message is a sentence for the person at the bench."""


class CopiedParts(Value, frozen=True, kw_only=True):
    """Parts with their places as they were copied; their ids tell them apart here only."""

    kind: Literal["grillestack copied parts"] = "grillestack copied parts"
    format: Literal[1] = 1
    parts: tuple[Part, ...] = ()


def parts_to_text(parts: Sequence[Part]) -> str:
    """Return the parts as text, the same for equal parts."""
    return msgspec.json.format(msgspec.json.encode(CopiedParts(parts=tuple(parts))), indent=2).decode("utf-8") + "\n"


def parts_from_text(text: str) -> tuple[Part, ...]:
    """Return the parts that a text holds.

    Raises
    ------
    PartsTextError
        If it is no text of ours, or one that cannot be read; one sentence with the remedy.
    """
    if len(text) > LARGEST_LETTERS:
        raise PartsTextError(f"{_OPENING}it is far too long to be parts, so copy the parts again.")
    try:
        data = plain_data(text.encode("utf-8", "replace"))
    except NotJsonError:
        data = None
    if not isinstance(data, dict) or data.get("kind") != _KIND:
        raise PartsTextError(
            f"There are no parts to paste: {quoted(text, limit=30)} was copied last, so copy a part first."
            if text.strip()
            else "There are no parts to paste: copy a part first."
        )
    return _read(data)


def _read(data: dict[str, Any]) -> tuple[Part, ...]:
    number = data.get("format")
    if isinstance(number, int) and not isinstance(number, bool) and number > 1:
        raise PartsTextError(f"{_OPENING}it comes from a newer grillestack, so paste it there.")
    try:
        found = msgspec.convert(data, CopiedParts).parts
    except msgspec.ValidationError as error:
        raise PartsTextError(f"{_OPENING}{misfit(error, data)}") from error
    if not found:
        raise PartsTextError(f"{_OPENING}it holds no part, so copy a part first.")
    return found
