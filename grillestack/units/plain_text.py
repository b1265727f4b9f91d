"""How does a typed text read in plain characters: one sort of space, minus, prime, slash and fraction.

Nothing is guessed here: a character without one plain meaning stays and is refused further on.
"""

import re
import unicodedata

_ONE_FOR_ONE = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d", "-"),
        **dict.fromkeys("\u2032\u2019\u2018\u02b9\u00b4`", "'"),
        **dict.fromkeys("\u2033\u201d\u201c\u201e\u02ba\u3003", '"'),
        **dict.fromkeys("\u2044\u2215", "/"),
        **dict.fromkeys("\u00ba\u02da", "°"),
        **dict.fromkeys("\u200b\u2060\ufeff", ""),
        "\u2103": "°C",
        "\u2109": "°F",
        "\u00b5": "u",
        "\u03bc": "u",
        "\u2206": "Δ",
        "\u212a": "K",
    }
)
_RAISED = {"²": "2", "³": "3"}


def plain_text(text: str) -> str:
    """Text with typographic signs made plain, vulgar fractions written out and single spaces."""
    written_out = _without_raised_digits(_without_vulgar_fractions(text.translate(_ONE_FOR_ONE)))
    return " ".join(written_out.replace("''", '"').split())


def _without_vulgar_fractions(text: str) -> str:
    pieces: list[str] = []
    for character in text:
        fraction = _vulgar_fraction(character)
        if fraction is None:
            pieces.append(character)
            continue
        # 26½ is 26 1/2, never 261/2; and ½5 is two numbers, never 1/25.
        joined = not pieces or pieces[-1] in ("-", "+")
        pieces += ["" if joined else " ", fraction, " "]
    return "".join(pieces)


def _vulgar_fraction(character: str) -> str | None:
    if character.isascii():
        return None
    kind, _, codes = unicodedata.decomposition(character).partition(" ")
    if kind != "<fraction>":
        return None
    written = "".join(chr(int(code, 16)) for code in codes.split()).replace("\u2044", "/")
    # The lone "one over" sign has no denominator of its own: leave it to be refused.
    return written if re.fullmatch("[0-9]+/[0-9]+", written) else None


def _without_raised_digits(text: str) -> str:
    # Only after the letter of a unit: m² is m2, but 26² is not 262, and 1e² is not 1e2.
    return re.sub("(?<=[A-DF-Za-df-z])[²³]", lambda found: _RAISED[found.group()], text)
