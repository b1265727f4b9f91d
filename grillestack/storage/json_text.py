"""From the bytes of a file to plain data (RFC 8259), and what is wrong with bytes that are none."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any, NoReturn

from grillestack.storage.trouble import quoted

# Longer whole numbers mean nothing here, and turning thousands of digits into one takes long.
_MOST_DIGITS = 40


class NotJsonError(ValueError):
    """The bytes are no JSON text; the message is the reason and the remedy, without the file's name."""


def plain_data(content: bytes) -> Any:
    """Return the content as plain lists, dicts, texts and numbers.

    Raises
    ------
    NotJsonError
        If it is cut off, no JSON, not UTF-8, or says something twice.
    """
    text = _text(content)
    try:
        data = json.loads(text, parse_constant=_no_number, parse_int=_whole_number, object_pairs_hook=_once_each)
        if "\\u" in text:
            _refuse_half_letters(data)
    except json.JSONDecodeError as error:
        raise NotJsonError(_reason(text, error)) from error
    except RecursionError as error:
        raise NotJsonError("it is nested deeper than any file of ours, so take an earlier copy") from error
    return data


def _text(content: bytes) -> str:
    if not content.strip():
        raise NotJsonError("it is empty, so take an earlier copy")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if error.reason == "unexpected end of data":
            raise NotJsonError(_cut_off(content.decode("utf-8", "replace"))) from error
        raise NotJsonError(
            f"byte {error.start + 1} is not UTF-8 text, so save it as UTF-8 or take an earlier copy"
        ) from error


def _reason(text: str, error: json.JSONDecodeError) -> str:
    whole = text.rstrip()
    if not whole.startswith("{"):
        return "it is no file of grillestack, so choose another one"
    if not whole.endswith("}") or error.pos >= len(whole):
        return _cut_off(whole)
    return f"line {error.lineno} is damaged near column {error.colno}, so correct it or take an earlier copy"


def _cut_off(text: str) -> str:
    return f"it is cut off in line {text.count(chr(10)) + 1}, so take an earlier copy"


def _no_number(token: str) -> NoReturn:
    raise NotJsonError(f"it holds {quoted(token)} where a number belongs, so put in a figure you can measure")


def _whole_number(digits: str) -> int | float:
    return int(digits) if len(digits) <= _MOST_DIGITS else float(digits)


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        twice = Counter(name for name, _ in pairs).most_common(1)[0][0]
        raise NotJsonError(f"it gives {quoted(twice)} twice in one place, so remove the wrong one")
    return found


def _refuse_half_letters(data: Any) -> None:
    try:
        json.dumps(data, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError as error:
        raise NotJsonError("a text in it holds half a letter, so type that text anew") from error
