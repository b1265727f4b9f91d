"""Factors of units, with pint as the judge, and pint kept out until it is needed."""

import math
import subprocess
import sys
from pathlib import Path

import pint
import pytest

from grillestack.units.factors import PINT_BASE, internal_factor
from grillestack.units.quantity import Dimension, Kind
from grillestack.units.unit_list import UNITS

JUDGE = pint.UnitRegistry()
OWN = [unit for unit in UNITS if unit.exact is not None]
REPOSITORY = Path(__file__).parents[2]


@pytest.mark.parametrize("unit", OWN, ids=lambda unit: unit.spellings[0])
def test_each_factor_of_our_own_is_the_one_pint_gives(unit):
    base = PINT_BASE[unit.kind]
    if unit.kind is Kind.TEMPERATURE:
        nought = JUDGE.Quantity(0.0, unit.pint_name).to(base).magnitude
        hundred = JUDGE.Quantity(100.0, unit.pint_name).to(base).magnitude
        assert float(unit.offset) == pytest.approx(nought, rel=1e-13, abs=1e-12)
        assert float(100 * unit.exact + unit.offset) == pytest.approx(hundred, rel=1e-13)
    else:
        assert float(unit.exact) == pytest.approx(JUDGE(unit.pint_name).to(base).magnitude, rel=1e-13)


def test_lengths_and_all_temperatures_are_our_own():
    without = {unit.kind for unit in UNITS if unit.exact is None}
    assert Kind.LENGTH not in without
    assert Kind.TEMPERATURE not in without


@pytest.mark.parametrize(
    ("spelling", "dimension", "in_pint", "kept_in"),
    [
        ("m", Dimension.ALTITUDE, "meter", "meter"),
        ("ft", Dimension.ALTITUDE, "foot", "meter"),
        ("km/h", Dimension.SPEED, "kilometer/hour", "meter/second"),
        ("mph", Dimension.SPEED, "mile/hour", "meter/second"),
        ("knots", Dimension.SPEED, "knot", "meter/second"),
        ("ft/min", Dimension.FLOW_SPEED, "foot/minute", "meter/second"),
        ("cfm", Dimension.AIR_FLOW, "foot**3/minute", "meter**3/second"),
        ("m³/h", Dimension.AIR_FLOW, "meter**3/hour", "meter**3/second"),
        ("gpm", Dimension.COOLANT_FLOW, "gallon/minute", "meter**3/second"),
        ("imp gpm", Dimension.COOLANT_FLOW, "imperial_gallon/minute", "meter**3/second"),
        ("L/min", Dimension.COOLANT_FLOW, "liter/minute", "meter**3/second"),
        ("lb/min", Dimension.MASS_FLOW, "pound/minute", "kilogram/second"),
        ("kg/h", Dimension.MASS_FLOW, "kilogram/hour", "kilogram/second"),
        ("g/s", Dimension.MASS_FLOW, "gram/second", "kilogram/second"),
        ("BTU/min", Dimension.POWER, "british_thermal_unit/minute", "watt"),
        ("BTU/h", Dimension.POWER, "british_thermal_unit/hour", "watt"),
        ("kBTU/h", Dimension.POWER, "1000 * british_thermal_unit/hour", "watt"),
        ("kcal/h", Dimension.POWER, "kilocalorie/hour", "watt"),
        ("kWh/h", Dimension.POWER, "kilowatt", "watt"),
        ("ft lbf/s", Dimension.POWER, "foot*force_pound/second", "watt"),
        ("mmH2O", Dimension.AIR_PRESSURE, "0.1 * centimeter_H2O", "pascal"),
        ("inHg", Dimension.PRESSURE, "inHg", "pascal"),
    ],
)
def test_compound_and_rarer_units_come_out_as_in_pint(spelling, dimension, in_pint, kept_in):
    factor, offset = internal_factor(spelling, dimension)
    assert float(factor) == pytest.approx(JUDGE(in_pint).to(kept_in).magnitude, rel=1e-12)
    assert offset == 0


def test_a_temperature_unit_in_a_field_for_differences_has_no_offset():
    assert internal_factor("°F", Dimension.TEMPERATURE_DIFFERENCE)[1] == 0
    assert internal_factor("K", Dimension.TEMPERATURE_DIFFERENCE) == (1, 0)
    assert internal_factor("°F", Dimension.TEMPERATURE)[1] != 0


def test_a_radian_is_180_over_pi_degrees():
    assert float(internal_factor("rad", Dimension.ANGLE)[0]) == pytest.approx(math.degrees(1), rel=1e-14)


@pytest.mark.parametrize("spelling", ["kW", "nonsense", "%", ""])
def test_a_unit_of_another_dimension_is_a_mistake_in_the_program(spelling):
    with pytest.raises(ValueError, match="is no unit for a length"):
        internal_factor(spelling, Dimension.LENGTH)


def test_pint_is_loaded_at_the_first_rarer_unit_and_not_before():
    script = """
import sys
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension
from grillestack.units.show import UnitSystem, display_unit, show_bare, show_quantity
import grillestack.units.convert
assert "pint" not in sys.modules, "import"
for text in ("26 3/16", "2' 3 1/2\\"", "66.5 cm", "1 yd", "0.3 thou"):
    parse_quantity(text, Dimension.LENGTH, "mm")
assert "pint" not in sys.modules, "lengths"
for dimension in Dimension:
    for system in (UnitSystem.METRIC, UnitSystem.INCH):
        show_quantity(42.0, dimension, system)
        text = show_bare(42.0, dimension, system)
        parse_quantity(text, dimension, display_unit(dimension, system))
assert "pint" not in sys.modules, "what is shown"
assert "numpy" not in sys.modules
parse_quantity("72 hp", Dimension.POWER, "kW")
assert "pint" in sys.modules, "a rarer unit"
"""
    ran = subprocess.run([sys.executable, "-c", script], cwd=REPOSITORY, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
