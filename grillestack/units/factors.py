"""What is a unit worth in the unit we keep: exact fractions, ours where we have them, pint's for the rest.

This is the one place where pint is loaded, at first use: it takes a good part of a second, and start, length fields
and everything that is only shown do without it.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from grillestack.units.plain_text import plain_text
from grillestack.units.quantity import Dimension, Kind
from grillestack.units.unit_list import Unit
from grillestack.units.unit_names import NamedUnit, unit_named

if TYPE_CHECKING:
    import pint

PINT_BASE: Mapping[Kind, str] = {
    Kind.LENGTH: "millimeter",
    Kind.AREA: "millimeter**2",
    Kind.VOLUME: "meter**3",
    Kind.TIME: "second",
    Kind.MASS: "kilogram",
    Kind.ENERGY: "joule",
    Kind.POWER: "watt",
    Kind.PRESSURE: "pascal",
    Kind.SPEED: "meter/second",
    Kind.TEMPERATURE: "degree_Celsius",
    Kind.TEMPERATURE_DIFFERENCE: "delta_degree_Celsius",
    Kind.ANGLE: "degree",
    Kind.VOLTAGE: "volt",
    Kind.CURRENT: "ampere",
    Kind.SHARE: "dimensionless",
    Kind.NUMBER: "dimensionless",
}
"""The unit, in pint's words, to which the factors of a kind lead."""


@cache
def internal_factor(spelling: str, dimension: Dimension) -> tuple[Fraction, Fraction]:
    """Factor and offset, exact, that take a number in the unit spelled to the internal unit of the dimension.

    Raises
    ------
    ValueError
        If the spelling is no unit of that dimension: a mistake in the program, not in what was typed.
    """
    unit = unit_named(plain_text(spelling))
    if unit is None or unit.kind not in dimension.kinds:
        raise ValueError(f"{spelling!r} is no unit for {dimension.words}")
    return factor_of(unit, dimension)


def factor_of(unit: NamedUnit, dimension: Dimension) -> tuple[Fraction, Fraction]:
    """Factor and offset, exact, from a named unit to the internal unit of a dimension that takes it."""
    factor = _factor(unit.over)
    if unit.under is not None:
        factor /= _factor(unit.under)
    if unit.over.kind is Kind.LENGTH and (unit.under is not None or dimension is Dimension.ALTITUDE):
        factor /= 1000  # lengths are kept in mm, speeds and altitudes in metres
    if dimension is Dimension.TEMPERATURE:
        return factor, unit.over.offset
    return factor, Fraction(0)


def _factor(unit: Unit) -> Fraction:
    return _factor_from_pint(unit.pint_name, PINT_BASE[unit.kind]) if unit.exact is None else unit.exact


@cache
def _factor_from_pint(pint_name: str, base: str) -> Fraction:
    return Fraction(_registry()(pint_name).to(base).magnitude)


@cache
def _registry() -> "pint.UnitRegistry[Fraction]":
    import pint

    # Fractions keep pint's definitions exact, so that 66.5 cm and 54 kW come out as the nearest float.
    return pint.UnitRegistry(non_int_type=Fraction)
