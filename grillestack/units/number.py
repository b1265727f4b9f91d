"""What number does a text begin with: decimals, fractions and mixed numbers, all exact."""

import re
from fractions import Fraction

from grillestack.units.quantity import QuantityError

WHOLE = "[0-9]+"
RATIO = f"(?P<top>{WHOLE}) ?/ ?(?P<bottom>{WHOLE})"
MIXED = f"(?P<whole>{WHOLE})[ -]{RATIO}"
# Three digits of exponent hold every length and power there is, and keep 1e999999999 from filling the memory.
DECIMAL = r"(?P<decimal>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3}(?![0-9]))?)"

_NUMBERS = (re.compile(MIXED), re.compile(RATIO), re.compile(DECIMAL))
_SIGN = re.compile("([+-]) ?")


def read_number(text: str) -> tuple[Fraction, str] | None:
    """Exact number at the start of a plain text and what follows it, or None if it begins otherwise."""
    sign = _SIGN.match(text)
    unsigned = text[sign.end() :] if sign else text
    for pattern in _NUMBERS:
        found = pattern.match(unsigned)
        if found:
            value = exact_value(found.groupdict(), text)
            negative = sign is not None and sign.group(1) == "-"
            return (-value if negative else value), unsigned[found.end() :].lstrip()
    return None


def exact_value(parts: dict[str, str | None], text: str) -> Fraction:
    """Exact value of the named groups `whole`, `top`, `bottom`, `decimal` of one of the patterns above.

    Raises
    ------
    QuantityError
        For a zero below the line, or a mixed number whose fraction is one or more.
    """
    decimal, top, bottom = parts.get("decimal"), parts.get("top"), parts.get("bottom")
    if decimal is not None:
        return Fraction(decimal)
    if top is None or bottom is None:
        return Fraction(parts.get("whole") or 0)
    if int(bottom) == 0:
        raise QuantityError(
            f"“{text}” has a fraction with 0 below the line: type the lower number too, for example 26 3/16."
        )
    ratio = Fraction(int(top), int(bottom))
    whole = parts.get("whole")
    if whole is None:
        return ratio
    if ratio >= 1:
        raise QuantityError(
            f"“{text}” has a fraction of one or more after a whole number: "
            "the upper number must be the smaller one, for example 26 3/16."
        )
    return int(whole) + ratio
