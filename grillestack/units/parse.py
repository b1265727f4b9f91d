"""What did the user type: a text becomes a float in the internal unit, or one sentence that says what is wrong.

A small exact parser does the work: signs, decimals, fractions, mixed numbers, feet and inches, a closed list of unit
spellings. Whatever it does not understand wholly is refused; no part of a text is ever dropped or guessed.
"""

import math
import re
from fractions import Fraction

from grillestack.units.factors import factor_of, internal_factor
from grillestack.units.feet_inches import read_feet_and_inches
from grillestack.units.number import read_number
from grillestack.units.plain_text import plain_text
from grillestack.units.quantity import Dimension, Kind, QuantityError
from grillestack.units.separators import refuse_marks_in_digits
from grillestack.units.unit_names import (
    NamedUnit,
    refusal_of_doubtful_unit,
    spellings_by_capitals,
    unit_named,
)

LONGEST_TEXT = 60
_ABSOLUTE_ZERO_DEGC = Fraction("-273.15")
_NOT_FINITE = re.compile(r"[+-]? ?(?:∞|(?:nan|inf|infinity)\b)", re.IGNORECASE)


def parse_quantity(text: str, dimension: Dimension, default_unit: str) -> float:
    """Value of a typed text in the internal unit of the dimension.

    Parameters
    ----------
    text
        What stands in the field, such as ``26 3/16``, ``2' 3 1/2"``, ``66.5 cm``, ``3200 BTU/min``, ``210 F``.
    dimension
        What the field holds.
    default_unit
        The unit shown beside the field; a bare number takes it. In a field with ``%``, a bare number of at most one
        is refused with a question, because 0.6 may mean 60 % or 0.6 %.

    Raises
    ------
    QuantityError
        If the text cannot be taken wholly; the message is for the person at the field.
    ValueError
        If the default unit does not belong to the dimension.

    Notes
    -----
    BTU is the international table BTU, 1055.056 J; gal and gpm are US gallons; hp is 550 ft lbf/s; inH2O is water
    at 4 °C. A temperature unit is a temperature in a temperature field and a difference in a field for differences.
    """
    default = internal_factor(default_unit, dimension)
    plain = _checked_text(text, dimension)
    length_mm = read_feet_and_inches(plain)
    if length_mm is not None:
        number, unit = length_mm, unit_named("mm")
    else:
        number, rest = _number_and_rest(plain, dimension)
        unit = _unit_of(rest, plain, dimension) if rest else None
    if unit is None:
        if dimension is Dimension.FRACTION:
            _refuse_doubtful_share(number, plain, in_percent=default[0] != 1)
        factor, offset = default
    elif unit.kind in dimension.kinds:
        factor, offset = factor_of(unit, dimension)
    else:
        raise QuantityError(_wrong_kind(plain, unit, dimension))
    return _as_float(number * factor + offset, plain, dimension)


def _checked_text(text: str, dimension: Dimension) -> str:
    plain = plain_text(text)
    if not plain:
        raise QuantityError(f"Nothing is typed here: type {dimension.words}, for example {dimension.example}.")
    if len(plain) > LONGEST_TEXT:
        raise QuantityError(
            f"This text is too long for one quantity: type only {dimension.words}, for example {dimension.example}."
        )
    if _NOT_FINITE.match(plain):
        raise QuantityError(
            f"“{plain}” is not a number that can be measured: "
            f"type {dimension.words} in figures, for example {dimension.example}."
        )
    if not re.search("[0-9]", plain):
        raise QuantityError(
            f"“{plain}” has no number in it: type a number and a unit, for example {dimension.example}."
        )
    refuse_marks_in_digits(plain, dimension)
    return plain


def _number_and_rest(plain: str, dimension: Dimension) -> tuple[Fraction, str]:
    read = read_number(plain)
    if read is None:
        raise QuantityError(
            f"“{plain}” does not begin with a number: "
            f"type the number first and then the unit, for example {dimension.example}."
        )
    number, rest = read
    # 5+3, 26.5.3, 600 x 450, 1/2/3, 26 3: each is more than one number, and none of them is ours to work out.
    if re.match(r"(?:[-+*/^x×:.]\s*)*\.?[0-9]", rest):
        raise QuantityError(_more_than_one_number(plain, dimension))
    return number, rest


def _unit_of(rest: str, plain: str, dimension: Dimension) -> NamedUnit:
    unit = unit_named(rest)
    if unit is not None:
        return unit
    doubtful = refusal_of_doubtful_unit(rest)
    if doubtful:
        raise QuantityError(doubtful)
    nearly = spellings_by_capitals(rest)
    if nearly:
        raise QuantityError(
            f"Did you mean {' or '.join(nearly)}? Capital and small letters make a difference in “{rest}”."
        )
    words = rest.split(" ")
    for count in range(len(words) - 1, 0, -1):
        if unit_named(" ".join(words[:count])) is not None:
            tail = " ".join(words[count:])
            if re.search("[0-9]", tail):
                raise QuantityError(_more_than_one_number(plain, dimension))
            understood = plain.removesuffix(tail).strip()
            raise QuantityError(f"“{tail}” after “{understood}” is not understood: leave it out.")
    raise QuantityError(
        f"“{rest}” is not a unit known here: type {dimension.words} with a usual unit, for example {dimension.example}."
    )


def _more_than_one_number(plain: str, dimension: Dimension) -> str:
    return f"“{plain}” holds more than one number: type one quantity only, for example {dimension.example}."


def _wrong_kind(plain: str, unit: NamedUnit, dimension: Dimension) -> str:
    if unit.kind is Kind.ANGLE and Kind.TEMPERATURE in dimension.kinds:
        return f"“{plain}” does not say which degrees: type for example {dimension.example}."
    return (
        f"“{plain}” is {unit.kind.value}, but this field takes {dimension.words}: type for example {dimension.example}."
    )


def _refuse_doubtful_share(number: Fraction, plain: str, *, in_percent: bool) -> None:
    if in_percent and 0 < abs(number) <= 1:
        raise QuantityError(
            f"Did you mean {float(100 * number):g} % or {plain} %? Type the % sign with a number of one or less."
        )
    if not in_percent and abs(number) > 1:
        raise QuantityError(f"Did you mean {plain} %? Type the % sign with it, or a share such as 0.6.")


def _as_float(value: Fraction, plain: str, dimension: Dimension) -> float:
    if dimension is Dimension.TEMPERATURE and value < _ABSOLUTE_ZERO_DEGC:
        raise QuantityError(
            f"“{plain}” is colder than anything can be (-273.15 °C): "
            f"check the number and the unit, for example {dimension.example}."
        )
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if math.isinf(number) or (number == 0 and value != 0):
        raise QuantityError(
            f"“{plain}” is out of all measure for {dimension.words}: check the number, for example {dimension.example}."
        )
    return number
