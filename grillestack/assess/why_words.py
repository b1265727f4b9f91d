"""The words of a source taken apart, and a phrase made a sentence."""

from __future__ import annotations

import re
from typing import Final

_ID: Final = re.compile(r"\b[A-Z]+\d{2,}\b|\b[A-Z]{3,}\b")
_NO_ID: Final = {"SAE", "ISO", "SOURCES"}


def source_ids(source: str) -> tuple[tuple[str, ...], str]:
    """Return the short ids that the words of a source hold, or the words where they hold none."""
    ids = tuple(one for one in _ID.findall(source) if one not in _NO_ID)
    return ids, "" if ids else source


def sentence(words: str) -> str:
    """Return the phrase with a capital and a full stop; nothing stays nothing."""
    return f"{words[0].upper()}{words[1:].rstrip('.')}." if words else ""
