"""How shall a value be written: with its unit to be read, or bare for the field it is edited in."""

import functools
from fractions import Fraction

from grillestack.units.digits import decimal_digits, inch_fraction
from grillestack.units.display import DecimalMark, InchStyle, UnitSystem, display_of
from grillestack.units.factors import internal_factor
from grillestack.units.quantity import Dimension

NOT_KNOWN = "not known"


def show_quantity(
    value: float | None,
    dimension: Dimension,
    system: UnitSystem,
    inches: InchStyle = InchStyle.FRACTIONS,
) -> str:
    """Text with unit of a value in the internal unit, such as ``26 3/16 in``; ``not known`` for None.

    Raises
    ------
    ValueError
        For NaN or an infinite value: a value nobody knows is None.
    """
    if value is None:
        return NOT_KNOWN
    display = display_of(dimension, system)
    kept = display.decimals if display.keeps_noughts else 0
    digits = _digits(value, dimension, system, inches, (display.decimals, kept))
    return f"{marked(digits, system.mark)} {display.unit}".rstrip()


def show_bare(
    value: float | None,
    dimension: Dimension,
    system: UnitSystem,
    inches: InchStyle = InchStyle.FRACTIONS,
) -> str:
    """Text without unit for a field that shows `display_unit` beside it; an empty text for None.

    With the decimal comma it is asked about when it is typed back; a field knows its own text and does not read it. Typed back it gives the same value to within the last digit, which is seldom the same float: a field must not
    read back a text that nobody changed. A share of one percent or less keeps its sign, because a bare 0.6 is asked
    about.

    Raises
    ------
    ValueError
        For NaN or an infinite value.
    """
    if value is None:
        return ""
    digits = _digits(value, dimension, system, inches, (display_of(dimension, system).field_decimals, 0))
    doubtful = dimension is Dimension.FRACTION and 0 < abs(Fraction(digits)) <= 1
    digits = marked(digits, system.mark)
    return f"{digits} %" if doubtful else digits


def marked(digits: str, mark: DecimalMark) -> str:
    """Digits written with a point, with that decimal mark."""
    return digits if mark is DecimalMark.POINT else digits.replace(".", mark.value)


def display_unit(dimension: Dimension, system: UnitSystem) -> str:
    """Label of the unit a value is shown in; `parse_quantity` takes it as the default unit of the field."""
    return display_of(dimension, system).unit


@functools.lru_cache(maxsize=4096)
def _digits(
    value: float, dimension: Dimension, system: UnitSystem, inches: InchStyle, decimals_and_kept: tuple[int, int]
) -> str:
    display = display_of(dimension, system)
    factor, offset = internal_factor(display.unit, dimension)
    try:
        shown = (Fraction(value) - offset) / factor
    except (ValueError, OverflowError):
        raise ValueError(f"{value} is no value to show for {dimension.words}; one nobody knows is None") from None
    if display.unit == "in" and inches is InchStyle.FRACTIONS:
        fraction = inch_fraction(shown)
        if fraction is not None:
            return fraction
    decimals, kept = decimals_and_kept
    return decimal_digits(shown, decimals, kept=kept, widens=display.widens_when_small)
