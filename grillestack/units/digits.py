"""With which digits is an exact number written: decimals, or inches in fractions."""

from fractions import Fraction

SIXTEENTH_TOO_COARSE_IN = Fraction(1, 4)
"""Below this a sixteenth of an inch may be an eighth of the length or more off: decimals instead."""

_SAME_IN = Fraction(1, 1_000_000)


def decimal_digits(value: Fraction, decimals: int, *, kept: int, widens: bool) -> str:
    """Digits of a number rounded to some decimals, halves away from nought, never ``-0``.

    Parameters
    ----------
    value
        The number, exact.
    decimals
        Decimals to round to.
    kept
        Decimals that are written even where they are noughts.
    widens
        Whether a number with fewer than two figures gets up to two decimals more.
    """
    finest = decimals + 2 if widens else decimals
    while decimals < finest and abs(_rounded(value, 10**decimals)) < 10:
        decimals += 1
    count = _rounded(value, 10**decimals)
    whole, part = divmod(abs(count), 10**decimals)
    digits = f"{part:0{decimals}d}" if decimals else ""
    while len(digits) > kept and digits.endswith("0"):
        digits = digits[:-1]
    return ("-" if count < 0 else "") + str(whole) + ("." + digits if digits else "")


def inch_fraction(value_in: Fraction) -> str | None:
    """Inches to the nearest sixteenth, such as ``26 3/16``, or None for a length too small for that.

    A length that is a 32nd or a 64th to within a millionth of an inch, as one typed that way is, stays one.
    """
    nearest_64th = Fraction(_rounded(value_in, 64), 64)
    if abs(nearest_64th - value_in) <= _SAME_IN:
        shown = nearest_64th
    elif abs(value_in) < SIXTEENTH_TOO_COARSE_IN:
        return None
    else:
        shown = Fraction(_rounded(value_in, 16), 16)
    whole, over = divmod(abs(shown), 1)
    words = [str(whole)] if whole or not over else []
    if over:
        words.append(f"{over.numerator}/{over.denominator}")
    return ("-" if shown < 0 else "") + " ".join(words)


def _rounded(value: Fraction, parts: int) -> int:
    """How many of so many parts of one the value is, halves away from nought; in whole numbers, a window writes hundreds."""
    over, under = value.numerator, value.denominator
    magnitude = (2 * abs(over) * parts + under) // (2 * under)
    return -magnitude if over < 0 else magnitude
