"""Which publication a short id of the list of sources stands for."""

from __future__ import annotations

import re
from pathlib import Path

_LIST = Path(__file__).resolve().parent.parent / "physics" / "SOURCES.md"
_ENTRY = re.compile(r"^\d+\. \*\*\[(\w+)\]\*\* (.*?)(?=^\d+\. |^#|\Z)", re.MULTILINE | re.DOTALL)


def sources() -> dict[str, str]:
    """Return each short id with what the list says of it: authors, title and how it was checked, in one line.

    Nothing is returned if the list is not there: a figure then shows its source by its id alone.
    """
    try:
        text = _LIST.read_text(encoding="utf-8")
    except OSError:
        return {}
    return {entry[1]: " ".join(entry[2].replace("*", "").replace("`", "").split()) for entry in _ENTRY.finditer(text)}
