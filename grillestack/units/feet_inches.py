"""Is this feet and inches, as a tape says it: 2' 3 1/2", 2 ft 3 in, 2'-3"."""

import re
from fractions import Fraction

from grillestack.units.number import DECIMAL, MIXED, RATIO, exact_value
from grillestack.units.quantity import QuantityError

# A foot in letters needs a gap before the inches or a mark after them: 5 ft2 is an area.
_FEET = re.compile(
    r"(?P<sign>[+-]? ?)(?P<feet>[0-9]+) ?(?:'(?:-| )?|(?:ft\.?|feet|foot)"
    r"(?:-| |(?=[0-9][0-9 /.-]*(?:\"|in))))(?=[0-9.])",
    re.IGNORECASE,
)
_INCH_MARK = r' ?(?:"|inch(?:es)?|in\.?)?'
_INCHES = tuple(re.compile(number + _INCH_MARK, re.IGNORECASE) for number in (MIXED, RATIO, DECIMAL))
_MM_PER_INCH = Fraction("25.4")


def read_feet_and_inches(text: str) -> Fraction | None:
    """Exact length [mm] of a plain text in feet and inches, or None if it is not feet followed by more.

    Inches need no mark after feet: 2' 3 is 2 feet 3 inches.

    Raises
    ------
    QuantityError
        If what follows the feet is no number of inches below twelve.
    """
    feet = _FEET.match(text)
    if not feet:
        return None
    for pattern in _INCHES:
        found = pattern.fullmatch(text, feet.end())
        if found:
            inches = exact_value(found.groupdict(), text)
            break
    else:
        raise QuantityError(
            f"“{text}” has something other than inches after the feet: type for example 2' 3 1/2\" or 2 ft 3 in."
        )
    if inches >= 12:
        raise QuantityError(
            f"“{text}” has 12 inches or more after the feet: "
            "type it all in inches, for example 38 in, or in feet and fewer inches, for example 3' 2\"."
        )
    length_mm = (12 * int(feet["feet"]) + inches) * _MM_PER_INCH
    return -length_mm if "-" in feet["sign"] else length_mm
